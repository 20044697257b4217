/** All Markdown of the project, generated or written, against the rules of a linter. */
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { lint } from "markdownlint/sync";
import { expect, test } from "vitest";

const ROOT = resolve(import.meta.dirname, "../..");

const RULES = {
  default: true,
  // Tables are as wide as their words; they are padded for who reads the source, or not.
  MD013: false,
  MD060: false,
  // The caption of a table is emphasised text, and neighbouring notes are separate quotes.
  MD036: false,
  MD028: false,
  // A line break within a cell of a table has no other form.
  MD033: { allowed_elements: ["br"] },
  MD024: { siblings_only: true },
};

const tracked = execFileSync("git", ["ls-files", "*.md"], { cwd: ROOT, encoding: "utf8" })
  .trim()
  .split("\n")
  .filter((file) => !file.startsWith(".changes/"));

test.each(tracked)("%s has no fault that a linter finds", (file) => {
  const strings = { [file]: readFileSync(join(ROOT, file), "utf8") };
  const found = lint({ strings, config: RULES })[file] ?? [];
  const told = found.map(
    ({ lineNumber, ruleNames, ruleDescription, errorContext }) =>
      `${file}:${lineNumber}: ${ruleNames[0]} ${ruleDescription} ${errorContext ?? ""}`,
  );
  expect(told).toEqual([]);
});

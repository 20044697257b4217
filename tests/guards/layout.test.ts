import { execFileSync } from "node:child_process";
import { expect, test } from "vitest";

test("the top level holds nothing that is not listed here", () => {
  const top = new Set(
    execFileSync("git", ["ls-files"], { encoding: "utf8" })
      .trim()
      .split("\n")
      .map((file) => file.split("/")[0]),
  );
  const known = [
    ".changes",
    ".ci",
    ".gitignore",
    ".npmrc",
    ".settings",
    "DEVELOPERS.md",
    "README.md",
    "configs",
    "package-lock.json",
    "package.json",
    "reports",
    "shared",
    "src",
    "tests",
    "tsconfig.json",
  ];
  expect([...top].filter((name) => !known.includes(name!))).toEqual([]);
});

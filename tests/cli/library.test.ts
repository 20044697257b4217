import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import manifest from "../../package.json" with { type: "json" };
import { ROOT, tenfold } from "./run.ts";

/** What another program sees: the built library, by the entries that package.json names. */
const library: typeof import("../../src/node.ts") = await import(
  join(ROOT, manifest.exports["./node"].default)
);

test("the library estimates to the bit what the command line prints", async () => {
  const path = join(ROOT, "configs/tarn-working-memory.yaml");
  const { study, catalogue, sha256 } = await library.openStudy(path);
  const estimate = library.estimateStudy(study, catalogue, library.parseFormula);
  const data = library.estimateData(estimate, { sha256, version: manifest.version });
  const printed = tenfold(["estimate", path, "--format", "json"]).out;
  expect(library.renderJson(data)).toBe(printed);
});

test("what package.json points to is there, but for the declarations before npm run types", () => {
  const paths = [manifest.bin.tenfold, ...Object.values(manifest.exports).map((e) => e.default)];
  expect(paths.filter((path) => !existsSync(join(ROOT, path)))).toEqual([]);
  expect(readFileSync(join(ROOT, manifest.bin.tenfold), "utf8")).toMatch(
    /^#!\/usr\/bin\/env node\n/,
  );
});

test("a mistake in a study is thrown as problems, of the class that the library exports", async () => {
  const text = "title: x\ndesings: {}\n";
  await expect(library.openText({ file: "a.yaml", text }, "a.yaml")).rejects.toBeInstanceOf(
    library.TenfoldError,
  );
});

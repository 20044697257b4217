import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { readModelErrors } from "../../src/catalogue/index.ts";
import { modelErrorText } from "../../src/io/catalogue.ts";
import { preparedErrors, prepareErrors } from "../../src/io/prepared.ts";

test("the model error read while building is that of its file, and none of a file that changed", () => {
  const folder = mkdtempSync(join(tmpdir(), "tenfold-errors-"));
  try {
    const text = modelErrorText()!;
    const errors = readModelErrors(text, "model-error.yaml");
    expect(Object.keys(errors)).toContain("macro_area");
    expect(preparedErrors(text, folder)).toBeUndefined();
    prepareErrors(text, errors, folder);
    expect(preparedErrors(text, folder)).toEqual(errors);
    expect(preparedErrors(`${text}# a remark\n`, folder)).toBeUndefined();
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});

test("a file of another kind is no model error", () => {
  expect(() => readModelErrors("format: tenfold.switch/1\n", "other.yaml")).toThrow(
    /does not hold the model error/,
  );
});

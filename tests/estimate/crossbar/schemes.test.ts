// Schemes of their own for reads and writes, from the study to the parts.
import { expect, test } from "vitest";
import { everyRecipe } from "../../../src/estimate/every.ts";
import { heldLevels } from "../../../src/estimate/structure.ts";
import { SCHEME_PAIRS, SCHEMES } from "../../../src/models/crossbar/contract.ts";
import { modelOf, studyOf } from "../study.ts";

const CELL = { switch: "interface-oxide", selector: { kind: "none" } };
const bareOf = (bias: unknown) =>
  modelOf({ cell: CELL, bias, tile: { rows: 64, columns: 64 } }, { technology: "cmos-65" });

test("a scheme by itself holds for reads and writes, a mapping for what it names", () => {
  expect(bareOf("grounded").design.cell.schemes).toEqual({ read: "grounded", write: "grounded" });
  expect(bareOf({ read: "grounded", write: "one-third" }).design.cell.schemes).toEqual({
    read: "grounded",
    write: "one-third",
  });
  expect(bareOf({ read: "grounded" }).design.cell.schemes).toEqual({
    read: "grounded",
    write: "one-half",
  });
});

test("a grounded read has no column leak, and loads the row where one-half leaks into the column", () => {
  const of = (bias: unknown) => bareOf(bias).nominal();
  const half = of("one-half");
  const grounded = of({ read: "grounded", write: "one-half" });
  expect(grounded.get("column_leak_current")).toBe(0);
  expect(half.get("column_leak_current")!).toBeGreaterThan(half.get("cell_on_current")!);
  expect(half.get("signal_current")!).toBeLessThan(0);
  expect(grounded.get("signal_current")!).toBeGreaterThan(0);
  expect(grounded.get("row_leak_current")! / half.get("row_leak_current")!).toBeCloseTo(2, 1);
  // What a write needs does not change with how one reads.
  for (const name of ["write_voltage", "disturb_voltage", "half_selected_power"]) {
    expect(grounded.get(name)! / half.get(name)!).toBeCloseTo(1, 12);
  }
});

test("the drivers are built for the scheme of the pair with more levels", () => {
  for (const { read, write } of SCHEME_PAIRS) {
    const held = heldLevels({ read, write });
    expect([read, write]).toContain(held);
    expect(SCHEMES.indexOf(held)).toBeGreaterThanOrEqual(SCHEMES.indexOf(read));
    expect(SCHEMES.indexOf(held)).toBeGreaterThanOrEqual(SCHEMES.indexOf(write));
  }
});

test("every pair of schemes and kind of selector has recipes", () => {
  const names = new Set([...everyRecipe()].map(({ structure }) => structure.crosspoint));
  names.delete(undefined);
  expect(names.size).toBe(6 * SCHEME_PAIRS.length);
});

test("an automatic tile leaves both sizes open, and keys of the defaults stay", () => {
  const study = studyOf(
    { one: { cell: CELL, tile: "auto" } },
    {
      defaults: { capacity: "64 Kib", word: "8 bit", tile: { decks: 2 } },
    },
  );
  expect(study.designs["one"]!.tile).toEqual({ rows: "auto", columns: "auto", decks: 2 });
});

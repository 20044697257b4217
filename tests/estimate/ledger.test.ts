import fc from "fast-check";
import { expect, test } from "vitest";
import { resolveDesign } from "../../src/estimate/design.ts";
import { BOUNDARIES, countAt } from "../../src/estimate/ledger.ts";
import { MacroModel } from "../../src/estimate/model.ts";
import { parseFormula } from "../../src/formulas/parse.ts";
import { CAPACITY } from "../../src/studies/claim/sides.ts";
import { catalogue, sidesOf, studyOf } from "../studies/claim/study.ts";

const SEED = 20261125;

const tiles = fc.record({
  rows: fc.constantFrom(16, 64, 100, 256),
  columns: fc.constantFrom(64, 128, 1024),
  column_share: fc.constantFrom(1, 2, 4),
  spares: fc.constantFrom(0, 3),
  code: fc.constantFrom("none", "single", "single-double"),
  banks: fc.constantFrom(1, 2, 4),
  tiles: fc.integer({ min: 1, max: 40 }),
});

test("a ledger's sum at the macro is the macro's count, for random organisations", () => {
  fc.assert(
    fc.property(tiles, ({ rows, columns, column_share, spares, code, banks, tiles: count }) => {
      const capacity = rows * columns * banks * count;
      const more = `  spare_rows: ${spares}\n  error_correction: ${code}\n  banks: ${banks}`;
      const study = studyOf("", more);
      const design = {
        ...study.designs["hybrid"]!,
        tile: { rows, columns, column_share },
        capacity,
      };
      const changed = { ...study, designs: { ...study.designs, hybrid: design } };
      const macro = new MacroModel(resolveDesign(changed, "hybrid", catalogue), parseFormula);
      const sides = sidesOf("memory-sram-6t", { capacity }, changed);
      const ledger = sides.hybrid.at().get(countAt("macro"))!;
      expect(ledger).toBe(macro.nominal().get("transistors"));
    }),
    { seed: SEED, numRuns: 12 },
  );
});

test("the rows of a ledger add up to each of its boundaries, for every function", () => {
  for (const name of ["memory-sram-6t", "ternary-match", "weight", "register", "state-machine"]) {
    const sides = sidesOf(name);
    for (const side of [sides.hybrid, sides.baseline]) {
      const values = side.everything();
      let sum = 0;
      for (const boundary of BOUNDARIES.slice(0, -1)) {
        for (const row of side.rows) {
          if (row.boundary === boundary) sum += values.get(row.quantity)!;
        }
        const got = values.get(countAt(boundary))!;
        expect(Math.abs(got / sum - 1), `${name} ${boundary}`).toBeLessThan(1e-14);
      }
    }
  }
});

test("what is counted besides changes the count by just that", () => {
  const count = (counting: object, more = "") =>
    sidesOf("memory-sram-6t", { counting }, studyOf("", more)).hybrid.at().get(countAt("macro"))!;
  const plain = count({});
  const tiles = (1024 * 1024) / (256 * 256);
  // Two dummy cells at each end of each line: 260 x 260 cells around 256 x 256, one device each.
  expect(count({ dummies: true }) - plain).toBe(tiles * (260 * 260 - 256 * 256));
  // A thousand gates of four, and a multiplexer of six for each of 15 + 2 + 64 latches.
  expect(count({ test: true }) - plain).toBe(4 * 1000 + 6 * (15 + 2 + 64));
  const guarded = "  error_correction: single\n  spare_rows: 4";
  expect(count({}, guarded)).toBeGreaterThan(plain);
  expect(count({ spares: false, error_correction: false }, guarded)).toBe(plain);
});

test("doubling the capacity never raises the periphery per bit at a fixed tile", () => {
  fc.assert(
    fc.property(
      fc.constantFrom("memory-sram-6t", "memory-sram-8t", "ternary-match", "lookup-table"),
      fc.constantFrom("hybrid" as const, "baseline" as const),
      (name, which) => {
        const sides = sidesOf(name);
        let before = Number.POSITIVE_INFINITY;
        for (let capacity = 2 ** 17; capacity <= 2 ** 34; capacity *= 2) {
          const at = sides[which].at(new Map([[CAPACITY, capacity]]));
          const periphery = at.get(countAt("macro"))! - at.get(countAt("crossbar"))!;
          const perBit = periphery / capacity;
          expect(perBit, `${name} ${which} ${capacity}`).toBeLessThanOrEqual(before);
          before = perBit;
        }
      },
    ),
    { seed: SEED, numRuns: 8 },
  );
});

test("boundaries hold each other: a count never falls from one to the next", () => {
  for (const name of ["memory-dram-1t1c", "binary-match", "routing-multiplexer", "register"]) {
    const { hybrid, baseline } = sidesOf(name);
    for (const side of [hybrid, baseline]) {
      const at = side.at();
      const counts = BOUNDARIES.slice(0, -1).map((boundary) => at.get(countAt(boundary))!);
      expect([...counts].sort((a, b) => a - b)).toEqual(counts);
    }
  }
});

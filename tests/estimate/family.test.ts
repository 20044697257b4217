import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { TenfoldError } from "../../src/errors/problem.ts";
import { conditionsOf } from "../../src/estimate/conditions.ts";
import { resolveDesign } from "../../src/estimate/design.ts";
import { Draws } from "../../src/estimate/draws.ts";
import { DesignFamily } from "../../src/estimate/family.ts";
import { MacroModel } from "../../src/estimate/model.ts";
import { REPORTED } from "../../src/estimate/quantities.ts";
import { parseFormula } from "../../src/formulas/parse.ts";
import { openText } from "../../src/io/study.ts";
import { estimateStudy } from "../../src/studies/estimate.ts";

const TEXT = `title: Families
defaults: {capacity: 64 Kib, word: 32 bit}
designs:
  static: {cell: sram-6t}
  transistor:
    cell: {switch: oxide-bilayer, selector: transistor}
    error_correction: single
  threshold:
    cell: {switch: oxide-filament, selector: threshold-chalcogenide}
    bias: one-half
    tile: {rows: 64, columns: 64}
  bare:
    cell: {switch: oxide-filament, selector: none}
    bias: {read: grounded, write: one-half}
    tile: {rows: 64, columns: 64}
`;
const { study, catalogue } = await openText({ text: TEXT, file: "families.yaml" }, "families.yaml");
const quantities = REPORTED.map(({ name }) => name);

/** What is varied: its name, the key of a design that says the same, and its values. */
const VARIED = {
  rows: ["tile.rows", [16, 64, 200, 256, 1024]],
  columns: ["tile.columns", [16, 64, 96, 256]],
  column_share: ["tile.column_share", [1, 2, 8, 3]],
  banks: ["banks", [1, 2, 4]],
  decks: ["tile.decks", [1, 2]],
  spare_rows: ["spare_rows", [0, 4]],
  supply: ["overrides.supply", [0.9, 1.2, 2]],
  drive_effort: ["overrides.drive_effort", [4, 8]],
} as const;
type Name = keyof typeof VARIED;

/** The figures of one point as a study that says it gives them; undefined where it has none. */
async function alone(design: string, names: readonly Name[], values: readonly number[]) {
  const set = names.map((name, k) => ({
    path: `designs.${design}.${VARIED[name][0]}`,
    value: name === "supply" ? `${values[k]} V` : String(values[k]),
  }));
  try {
    const open = await openText({ text: TEXT, file: "families.yaml" }, "families.yaml", set);
    const model = new MacroModel(resolveDesign(open.study, design, open.catalogue), parseFormula);
    const nominal = model.nominal();
    if (conditionsOf(model.program).some(({ quantity }) => !(nominal.get(quantity)! > 0)))
      return undefined;
    return quantities.map((name) => nominal.get(name)!);
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    return undefined;
  }
}

const point = fc.record(
  Object.fromEntries(
    Object.entries(VARIED).map(([name, [, values]]) => [
      name,
      fc.constantFrom(...(values as readonly number[])),
    ]),
  ) as Record<Name, fc.Arbitrary<number>>,
);

describe("a family of designs", () => {
  test.each(["static", "transistor", "threshold"])(
    "gives, bit for bit, the figures of studies that say each point (%s)",
    async (name) => {
      const design = resolveDesign(study, name, catalogue);
      await fc.assert(
        fc.asyncProperty(
          fc.subarray(Object.keys(VARIED) as Name[], { minLength: 1 }),
          fc.array(point, { minLength: 1, maxLength: 12 }),
          async (names, points) => {
            const family = new DesignFamily(
              { study, design, varied: names, quantities },
              parseFormula,
            );
            const inputs = names.map((one) => Float64Array.from(points, (p) => p[one]));
            const outputs = quantities.map(() => new Float64Array(points.length));
            const reasons = family.evaluate(inputs, points.length, outputs);
            for (const [i, p] of points.entries()) {
              const expected = await alone(
                name,
                names,
                names.map((one) => p[one]),
              );
              const got = outputs.map((column) => column[i]!);
              expect(reasons[i] === undefined, reasons[i]).toBe(expected !== undefined);
              if (expected !== undefined) expect(got).toEqual(expected);
              else expect(got.every(Number.isNaN)).toBe(true);
            }
          },
        ),
        { seed: 20251125, numRuns: 25 },
      );
    },
    120_000,
  );

  // The lines of some of these tiles take too much for the closed forms: their networks are solved.
  test("solves the network of each crossbar whose lines take too much, as its estimate does", async () => {
    const design = resolveDesign(study, "bare", catalogue);
    const asked = ["macro_area", "read_latency", "read_line_drop", "write_delivery_share"];
    const names = ["rows", "columns"] as const;
    const points = [8, 32, 64].flatMap((rows) => [32, 64].map((columns) => [rows, columns]));
    const family = new DesignFamily(
      { study, design, varied: names, quantities: asked },
      parseFormula,
    );
    const inputs = names.map((_, k) => Float64Array.from(points, (p) => p[k]!));
    const outputs = asked.map(() => new Float64Array(points.length));
    family.evaluate(inputs, points.length, outputs);
    let solved = 0;
    for (const [i, [rows, columns]] of points.entries()) {
      const set = [
        { path: "designs.bare.tile.rows", value: String(rows) },
        { path: "designs.bare.tile.columns", value: String(columns) },
      ];
      const open = await openText({ text: TEXT, file: "families.yaml" }, "families.yaml", set);
      const model = new MacroModel(resolveDesign(open.study, "bare", open.catalogue), parseFormula);
      if (model.corner?.by === "network solve") solved += 1;
      const nominal = model.nominal();
      expect(outputs.map((column) => column[i])).toEqual(asked.map((name) => nominal.get(name)));
    }
    expect(solved).toBeGreaterThan(1);
    expect(solved).toBeLessThan(points.length);
  }, 60_000);

  test("gives the intervals of an estimate with as many draws, at every point", async () => {
    const design = resolveDesign(study, "transistor", catalogue);
    const asked = ["macro_area", "read_latency"];
    const family = new DesignFamily(
      { study, design, varied: ["rows", "on_resistance"], quantities: asked },
      parseFormula,
    );
    const points = [64, 256].flatMap((rows) => [4e3, 9e3].map((ohm) => [rows, ohm]));
    const inputs = [0, 1].map((k) => Float64Array.from(points, (p) => p[k]!));
    const column = () => asked.map(() => new Float64Array(points.length).fill(Number.NaN));
    const [low, high, values] = [column(), column(), column()];
    const working = new Float64Array(points.length);
    const draws = new Draws(study.seed, 64);
    const spread = { draws, coverage: 0.95, low, high, working };
    family.evaluate(inputs, points.length, values, spread);
    for (const [i, [rows, ohm]] of points.entries()) {
      const set = [
        { path: "designs.transistor.tile.rows", value: String(rows) },
        { path: "designs.transistor.cell.switch.on_resistance", value: `${ohm} ohm` },
        { path: "samples", value: "64" },
      ];
      const open = await openText({ text: TEXT, file: "families.yaml" }, "families.yaml", set);
      const { designs } = estimateStudy(open.study, open.catalogue, parseFormula);
      const own = designs.find((one) => one.name === "transistor")!;
      for (const [q, name] of asked.entries()) {
        const figure = own.figures.get(name)!;
        expect([values[q]![i], low[q]![i], high[q]![i]]).toEqual([
          figure.value,
          figure.low,
          figure.high,
        ]);
      }
      const works = own.samples.get("macro_area")!.filter(Number.isFinite).length;
      expect(working[i]).toBe(works / 64);
    }
  });

  test("gives the same whatever other points are computed with a point", () => {
    const design = resolveDesign(study, "transistor", catalogue);
    const names = ["rows", "supply"];
    const rows = Float64Array.from({ length: 60 }, (_, i) => 16 + 8 * i);
    const supply = Float64Array.from({ length: 60 }, (_, i) => 0.8 + 0.03 * ((i * 7) % 60));
    const run = (order: readonly number[]): number[] => {
      const family = new DesignFamily(
        { study, design, varied: names, quantities: ["macro_area"] },
        parseFormula,
      );
      const output = new Float64Array(order.length);
      const take = (column: Float64Array) => Float64Array.from(order, (i) => column[i]!);
      family.evaluate([take(rows), take(supply)], order.length, [output]);
      const placed: number[] = [];
      order.forEach((i, k) => {
        placed[i] = output[k]!;
      });
      return placed;
    };
    const order = Array.from(rows.keys());
    expect(run([...order].reverse())).toEqual(run(order));
    expect(run(order).filter(Number.isFinite).length).toBeGreaterThan(20);
  });

  test("says why a point has no figures", () => {
    const design = resolveDesign(study, "static", catalogue);
    const family = new DesignFamily(
      { study, design, varied: ["rows", "banks"], quantities },
      parseFormula,
    );
    const outputs = quantities.map(() => new Float64Array(3));
    const reasons = family.evaluate(
      [Float64Array.of(2.5, 64, 64), Float64Array.of(1, 1, 65536)],
      3,
      outputs,
    );
    expect(reasons[0]).toBe("rows must be a whole number");
    expect(reasons[1]).toBeUndefined();
    expect(outputs[0]![1]).toBeGreaterThan(0);
  });
});

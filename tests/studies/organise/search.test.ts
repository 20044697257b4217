import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { resolveDesign } from "../../../src/estimate/design.ts";
import { DesignFamily } from "../../../src/estimate/family.ts";
import { REPORTED } from "../../../src/estimate/quantities.ts";
import { interpret } from "../../../src/formulas/interpret.ts";
import { type Bounds, boundTree } from "../../../src/formulas/interval.ts";
import { parseFormula } from "../../../src/formulas/parse.ts";
import { openText } from "../../../src/io/study.ts";
import { reopener } from "../../../src/io/sweep/open.ts";
import {
  type SearchSpace,
  searchEverything,
  searchGrid,
} from "../../../src/studies/organise/search.ts";
import { organiseStudy } from "../../../src/studies/organise/study.ts";

const DESIGNS = `title: Organised
defaults: {capacity: 64 Kib, word: 32 bit}
designs:
  static: {cell: sram-6t, tile: {rows: 64, columns: 64, column_share: 2}}
  transistor:
    cell: {switch: oxide-bilayer, selector: transistor}
    error_correction: single
    tile: {rows: 64, columns: 64, column_share: 2}
  threshold:
    cell: {switch: oxide-filament, selector: threshold-chalcogenide}
    bias: one-half
    tile: {rows: 64, columns: 64, column_share: 2}
  bare:
    cell: {switch: oxide-filament, selector: none}
    bias: {read: grounded, write: one-half}
    tile: {rows: 32, columns: 64, column_share: 2}
    write: {current_limit: 20 mA}
`;
/** Of a crossbar: what its far corner gets, as a network solve finds it. */
const margins = [
  "read_margin_sigmas",
  "signal_current",
  "half_select_share",
  "disturb_voltage",
  "write_delivery_share",
  "read_line_drop",
  "closed_read_line_drop",
];
const quantities = REPORTED.map(({ name }) => name);

describe("bounds by intervals", () => {
  const formulas = [
    "a * b - c / a",
    "(a - b)^2 + (b - c)^3",
    "max(a, b) * min(b, c) / (1 + abs(c))",
    "ceil(a * 3) / floor(b * 5 + 1)",
    "exp(a - b) * log(1 + c * c) - sqrt(a * b)",
    "a > b ? a - c : b * c",
    "a ^ c * b ^ (-2)",
    "erfc(a - c) + tanh(b)",
  ];
  test.each(formulas)("hold all values of %s within a box", (text) => {
    const tree = parseFormula(text);
    const side = fc.tuple(
      fc.double({ min: 0.1, max: 5, noNaN: true }),
      fc.double({ min: 0, max: 2, noNaN: true }),
    );
    const within = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        fc.tuple(side, side, side),
        fc.array(fc.tuple(within, within, within), { maxLength: 20 }),
        (box, points) => {
          const ends = new Map<string, Bounds>(
            ["a", "b", "c"].map((name, k) => [
              name,
              { low: box[k]![0] - 0.05, high: box[k]![0] + box[k]![1] },
            ]),
          );
          const { low, high } = boundTree(tree, (name) => ends.get(name)!);
          for (const point of points) {
            const at = (name: string): number => {
              const { low: from, high: to } = ends.get(name)!;
              return Math.min(to, from + point["abc".indexOf(name)]! * (to - from));
            };
            const value = interpret(tree, at);
            if (Number.isNaN(value)) continue;
            expect(value).toBeGreaterThanOrEqual(low);
            expect(value).toBeLessThanOrEqual(high);
          }
        },
      ),
      { seed: 7, numRuns: 300 },
    );
  });

  /** Lines, sharing, banks, decks and temperature, as far as the property goes for a design. */
  const reach = { static: 80, transistor: 80, threshold: 80 };
  test.each(Object.entries(reach))(
    "of a box of organisations hold every figure of every organisation in it (%s)",
    async (name, lines) => {
      const { study, catalogue } = await openText({ text: DESIGNS, file: "o.yaml" }, "o.yaml");
      const design = resolveDesign(study, name, catalogue);
      const varied = ["rows", "columns", "column_share", "banks", "decks", "temperature"];
      const family = new DesignFamily({ study, design, varied, quantities }, parseFormula);
      const range = (least: number, most: number) =>
        fc.tuple(fc.integer({ min: least, max: most }), fc.integer({ min: least, max: most }));
      const box = fc.tuple(
        range(4, lines),
        range(4, lines),
        range(1, 8),
        range(1, 4),
        range(1, 2),
        range(280, 350),
      );
      let told = 0;
      let narrow = 0;
      fc.assert(
        fc.property(
          box,
          fc.array(fc.tuple(...varied.map(() => fc.double({ min: 0, max: 1, noNaN: true }))), {
            minLength: 12,
            maxLength: 12,
          }),
          (ends, shares) => {
            const scale = [8, 8, 1, 1, 1, 1];
            const low = Float64Array.from(ends, ([a, b], k) => scale[k]! * Math.min(a, b));
            const high = Float64Array.from(ends, ([a, b], k) => scale[k]! * Math.max(a, b));
            const bounds = family.bound(low, high);
            if (bounds === undefined) return;
            told += 1;
            const inputs = varied.map((_, k) =>
              Float64Array.from(shares, (share) =>
                Math.round(low[k]! + (share as number[])[k]! * (high[k]! - low[k]!)),
              ),
            );
            const outputs = quantities.map(() => new Float64Array(shares.length));
            const reasons = family.evaluate(inputs, shares.length, outputs);
            for (const [q, quantity] of quantities.entries()) {
              for (let i = 0; i < shares.length; i++) {
                if (reasons[i] !== undefined) continue;
                expect(bounds).not.toBe("impossible");
                const { low: least, high: most } = (bounds as (name: string) => Bounds)(quantity);
                const value = outputs[q]![i]!;
                if (Number.isFinite(least) && Number.isFinite(most)) narrow += 1;
                expect(value, quantity).toBeGreaterThanOrEqual(least - 1e-12 * Math.abs(least));
                expect(value, quantity).toBeLessThanOrEqual(most + 1e-12 * Math.abs(most));
              }
            }
          },
        ),
        { seed: 11, numRuns: 150 },
      );
      // Currents of junctions come from a solve, of which nothing is known here.
      if (name !== "threshold") expect(told).toBeGreaterThan(10);
      if (name !== "threshold") expect(narrow).toBeGreaterThan(100);
    },
    120_000,
  );

  // Of solved networks nothing is known but physics: levels that bound every node, and currents.
  test("of a box of bare crossbars hold what their solved networks give", async () => {
    const { study, catalogue } = await openText({ text: DESIGNS, file: "o.yaml" }, "o.yaml");
    const design = resolveDesign(study, "bare", catalogue);
    const varied = ["rows", "columns"];
    const asked = [...quantities, ...margins];
    const family = new DesignFamily({ study, design, varied, quantities: asked }, parseFormula);
    const lines = fc.integer({ min: 1, max: 6 });
    let [held, narrow, solved] = [0, 0, 0];
    fc.assert(
      fc.property(fc.tuple(lines, lines), fc.tuple(lines, lines), (rows, columns) => {
        const ends = [rows, columns.map((n) => n + 6)].map((side) =>
          side.map((n) => 8 * n).sort((a, b) => a - b),
        );
        const bounds = family.bound(
          Float64Array.from(ends, ([low]) => low!),
          Float64Array.from(ends, ([, high]) => high!),
        );
        if (bounds === undefined) return;
        const points = ends[0]!.flatMap((r) => ends[1]!.map((c) => [r, c]));
        const inputs = varied.map((_, k) => Float64Array.from(points, (point) => point[k]!));
        const outputs = asked.map(() => new Float64Array(points.length));
        const reasons = family.evaluate(inputs, points.length, outputs);
        for (let i = 0; i < points.length; i++) {
          if (outputs.at(-1)![i] !== outputs.at(-2)![i] && reasons[i] === undefined) solved += 1;
        }
        for (const [q, quantity] of asked.entries()) {
          for (let i = 0; i < points.length; i++) {
            if (reasons[i] !== undefined) continue;
            expect(bounds).not.toBe("impossible");
            const { low, high } = (bounds as (name: string) => Bounds)(quantity);
            const value = outputs[q]![i]!;
            held += 1;
            if (Number.isFinite(low) && Number.isFinite(high)) narrow += 1;
            expect(value, quantity).toBeGreaterThanOrEqual(low - 1e-12 * Math.abs(low));
            expect(value, quantity).toBeLessThanOrEqual(high + 1e-12 * Math.abs(high));
          }
        }
      }),
      { seed: 5, numRuns: 40 },
    );
    expect(held).toBeGreaterThan(500);
    expect(narrow).toBeGreaterThan(held / 4);
    expect(solved).toBeGreaterThan(100);
  }, 120_000);
});

/** A made-up grid whose figures are known; its bounds are the least over the box, less a margin. */
function tableSpace(
  sizes: number[],
  values: (number[] | undefined)[],
  margin: number,
): SearchSpace {
  const indexOf = (places: readonly number[]): number =>
    places.reduce((i, p, a) => i * sizes[a]! + p, 0);
  return {
    sizes,
    aims: values.find((one) => one !== undefined)?.length ?? 1,
    evaluate: (points) => points.map((places) => values[indexOf(places)]),
    bound(from, to) {
      let lower: number[] | undefined;
      for (const [index, value] of values.entries()) {
        let rest = index;
        const places = [...sizes]
          .reverse()
          .map((n) => {
            const place = rest % n;
            rest = Math.floor(rest / n);
            return place;
          })
          .reverse();
        if (value === undefined || places.some((p, a) => p < from[a]! || p > to[a]!)) continue;
        lower = value.map((x, k) => Math.min(x - margin, lower?.[k] ?? Number.POSITIVE_INFINITY));
      }
      return lower ?? "impossible";
    },
    width: (_, from, to) => to - from,
  };
}

describe("the pruned search", () => {
  test.each([1, 2, 3])(
    "finds what computing every point finds, on random grids with %d aims",
    (aims) => {
      const aim = fc.integer({ min: -6, max: 9 });
      const grids = fc
        .tuple(
          fc.array(fc.integer({ min: 1, max: 6 }), { minLength: 1, maxLength: 4 }),
          fc.integer({ min: 0, max: 3 }),
        )
        .chain(([sizes, margin]) => {
          const total = sizes.reduce((a, b) => a * b, 1);
          const point = fc.option(fc.array(aim, { minLength: aims, maxLength: aims }), {
            nil: undefined,
            freq: 4,
          });
          return fc.tuple(
            fc.constant(sizes),
            fc.array(point, { minLength: total, maxLength: total }),
            fc.constant(margin),
          );
        });
      fc.assert(
        fc.property(grids, ([sizes, values, margin]) => {
          const space = tableSpace(sizes, values, margin);
          const pruned = searchGrid(space, { best: 3 });
          const all = searchEverything(space, { best: 3 });
          expect(pruned.found).toEqual(all.found);
          expect(pruned.evaluations).toBeLessThanOrEqual(all.evaluations);
        }),
        { seed: 3, numRuns: 300 },
      );
    },
  );

  const search = (section: string, everything: boolean) => {
    const named = { text: `${DESIGNS}organise:\n${section}`, file: "o.yaml" };
    return organiseStudy(reopener({ named, set: [], entries: [] }), parseFormula, { everything });
  };
  const grid = `  vary:
    rows: {from: 16, to: 256, step: 16}
    columns: {from: 32, to: 256, step: 16}
    column_share: [1, 2, 4, 8]
    banks: [1, 2]
`;

  test.each([
    ["one aim", "  design: transistor\n  minimise: [macro_area]\n"],
    [
      "one aim under a condition",
      '  design: static\n  where: ["read_latency <= 1 ns"]\n  minimise: [macro_area]\n',
    ],
    ["two aims", "  design: transistor\n  minimise: [macro_area, read_latency]\n"],
    [
      "a large and a small one",
      "  design: threshold\n  maximise: [array_efficiency]\n  minimise: [read_energy_per_bit]\n",
    ],
    [
      "an expression",
      '  design: transistor\n  where: ["rows <= columns"]\n  minimise: ["read_latency * read_energy_per_bit"]\n',
    ],
  ])(
    "finds what computing every organisation finds: %s",
    (_, section) => {
      const pruned = search(grid + section, false);
      const all = search(grid + section, true);
      expect(all.found.length).toBeGreaterThan(0);
      expect(pruned.found).toEqual(all.found);
      expect(pruned.winner).toBe(all.winner);
      expect(pruned.evaluations).toBeLessThanOrEqual(all.evaluations);
    },
    60_000,
  );

  test("says where winner and runner-up differ, in parts that make up the difference", () => {
    const { differences } = search(
      `${grid}  design: transistor\n  minimise: [macro_area]\n`,
      false,
    );
    const [area] = differences;
    expect(area!.quantity).toBe("macro_area");
    expect(area!.winner).toBeLessThan(area!.other);
    const sum = area!.parts.reduce((total, { winner, other }) => total + other - winner, 0);
    expect(Math.abs(sum / (area!.other - area!.winner) - 1)).toBeLessThan(1e-6);
  });

  test("searches over settings such as the code that guards a word", () => {
    const section = `  vary: {error_correction: [none, single], rows: [32, 64]}\n  design: transistor\n  minimise: [macro_area]\n  best: 1\n`;
    const { found, plan } = search(section, false);
    expect(plan.variables.map(({ name }) => name)).toEqual([
      "designs.transistor.error_correction",
      "rows",
    ]);
    expect(found[0]!.values[0]).toBe("none");
    expect(found).toEqual(search(section, true).found);
  });

  test("gives nothing, and says so by an empty list, where no organisation meets the conditions", () => {
    const section = `${grid}  design: static\n  where: ["read_latency <= 1 ps"]\n  minimise: [macro_area]\n`;
    const { found, winner, evaluations } = search(section, false);
    expect(found).toEqual([]);
    expect(winner).toBe(-1);
    expect(evaluations).toBeLessThan(200);
  });
});

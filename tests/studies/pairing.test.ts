// Designs of one study share the draws of what they share: ratios are those of the same world, draw by draw.
import { expect, test } from "vitest";
import { parseFormula } from "../../src/formulas/parse.ts";
import { compareDesigns } from "../../src/studies/compare.ts";
import { estimateStudy } from "../../src/studies/estimate.ts";
import { CATALOGUE, type Keys, OXIDE_TRANSISTOR, studyOf } from "../estimate/study.ts";

const DEFAULTS = { capacity: "64 Kib", word: "32 bit" };

function ratios(designs: Record<string, Keys>, top: Keys = {}) {
  const baseline = Object.keys(designs)[0]!;
  const study = studyOf(designs, { samples: 512, seed: 3, defaults: DEFAULTS, baseline, ...top });
  const estimate = estimateStudy(study, CATALOGUE, parseFormula);
  const compared = compareDesigns(estimate);
  return {
    estimate,
    of: (quantity: string) => compared.find(({ name }) => name === quantity)!.figures[1]!.ratio!,
    all: compared.flatMap(({ name, figures }) => {
      const ratio = figures[1]?.ratio;
      return ratio === undefined ? [] : [[name, ratio] as const];
    }),
  };
}

test.each([
  ["static cells", { cell: "sram-6t" }],
  ["cells with a transistor", { cell: OXIDE_TRANSISTOR }],
  ["dynamic cells", { cell: "dram-1t1c", error_correction: "single" }],
  [
    "a crossbar",
    { cell: { switch: "oxide-filament", selector: "threshold-chalcogenide" }, bias: "one-half" },
  ],
])("%s against themselves have ratio 1 and an interval without width", (_, keys) => {
  const { all } = ratios({ one: keys, other: keys });
  expect(all.length).toBeGreaterThan(6);
  for (const [name, { value, low, median, high }] of all) {
    expect([value, low, median, high], name).toEqual([1, 1, 1, 1]);
  }
});

test("what two designs share cancels: twice the capacity in the same tiles has exactly twice the cells' area", () => {
  const keys = { cell: "sram-6t", tile: { rows: 128, columns: 128, column_share: 4 } };
  const { estimate } = ratios({ one: keys, two: { ...keys, capacity: "128 Kib" } });
  const [one, two] = estimate.designs.map(({ figures }) => figures.get("cell_area")!);
  expect(one!.high).toBeGreaterThan(1.05 * one!.low);
  expect(two).toEqual(one);
});

test("a shared parameter alone gives a ratio far narrower than the figures, a parameter of one design does not", () => {
  const tile = { rows: 128, columns: 128, column_share: 4 };
  const wide = (value: number) => ({
    value: `${value} um^2`,
    low: `${value / 2} um^2`,
    high: `${value * 2} um^2`,
  });
  const own = (keys: Keys) => ({ cell: "sram-6t", tile, ...keys });
  // The cell's area as one parameter of both designs, in `defaults`, and as one of each.
  const shared = ratios(
    { one: own({}), two: own({ capacity: "128 Kib" }) },
    { defaults: { ...DEFAULTS, overrides: { sram_6t_cell_area: wide(0.57) } } },
  );
  const apart = ratios({
    one: own({ overrides: { sram_6t_cell_area: wide(0.57) } }),
    two: own({ capacity: "128 Kib", overrides: { sram_6t_cell_area: wide(0.57) } }),
  });
  const width = ({ low, high }: { low: number; high: number }) => Math.log(high / low);
  const figure = shared.estimate.designs[0]!.figures.get("macro_area")!;
  expect(width(figure)).toBeGreaterThan(1);
  expect(width(shared.of("macro_area"))).toBeLessThan(width(figure) / 20);
  // Two independent draws: the logarithm of their ratio is wider by the root of two.
  const area = apart.of("cell_area");
  const cell = apart.estimate.designs[0]!.figures.get("cell_area")!;
  expect(width(area) / width(cell)).toBeGreaterThan(1.3);
  expect(width(area) / width(cell)).toBeLessThan(1.5);
});

test("another seed moves the draws and not the nominal figures; the same seed gives the same bytes", () => {
  const designs = { one: { cell: "sram-6t" }, two: { cell: OXIDE_TRANSISTOR } };
  const at = (seed: number) => ratios(designs, { seed }).all;
  expect(JSON.stringify(at(3))).toBe(JSON.stringify(at(3)));
  const [first, second] = [at(3), at(4)];
  first.forEach(([name, { value, low }], i) => {
    expect(second[i]![1].value, name).toBe(value);
    if (name === "macro_area") expect(second[i]![1].low).not.toBe(low);
  });
});

test("a design joins or leaves a study without moving the others' draws", () => {
  const two = ratios({ one: { cell: "sram-6t" }, two: { cell: OXIDE_TRANSISTOR } });
  const three = ratios({
    one: { cell: "sram-6t" },
    two: { cell: OXIDE_TRANSISTOR },
    three: { cell: "gain-2t" },
  });
  expect(JSON.stringify(three.all)).toBe(JSON.stringify(two.all));
});

import fc from "fast-check";
import { expect, test } from "vitest";
import { parseFormula } from "../../../src/formulas/parse.ts";
import { reopener } from "../../../src/io/sweep/open.ts";
import { axisFor } from "../../../src/report/charts/axis.ts";
import { frontChart } from "../../../src/report/charts/front.ts";
import { organiseStudy } from "../../../src/studies/organise/study.ts";

test("an axis holds all its values, and its marks rise and read back as where they stand", () => {
  const value = fc.double({ min: 1e-15, max: 1e6, noNaN: true });
  fc.assert(
    fc.property(fc.array(value, { minLength: 1, maxLength: 8 }), (values) => {
      const { at, ticks } = axisFor(values, "1");
      for (const one of values) {
        expect(at(one)).toBeGreaterThanOrEqual(0);
        expect(at(one)).toBeLessThanOrEqual(1);
      }
      for (const [i, tick] of ticks.entries()) {
        expect(tick.at).toBeGreaterThan(ticks[i - 1]?.at ?? -1);
        expect(tick.text).toMatch(/^−?[\d.e+−]+$/);
      }
    }),
    { seed: 4, numRuns: 500 },
  );
});

const STUDY = `title: Drawn
defaults: {capacity: 64 Kib, word: 32 bit}
designs:
  static: {cell: sram-6t}
  one: {cell: {switch: oxide-bilayer, selector: transistor}}
organise:
  design: one
  vary: {rows: [64, 128, 256], columns: [64, 128, 256], column_share: [2, 4]}
  minimise: [macro_area, read_latency]
`;

test("the front names each organisation by what sets it apart, and says the same to who sees no picture", () => {
  const named = { text: STUDY, file: "o.yaml" };
  const result = organiseStudy(reopener({ named, set: [], entries: [] }), parseFormula);
  const svg = frontChart(result);
  expect(svg.match(/<title>/g)).toHaveLength(result.found.length);
  const { values } = result.found[result.winner]!;
  expect(svg).toContain("names: rows");
  const differing = values.filter((value, k) =>
    result.found.some((one) => one.values[k] !== value),
  );
  expect(svg).toContain(`>${differing.join(" · ")}</text>`);
  expect(svg).toMatch(/<desc>\d+ organisations by macro area and read latency\. The winner/);
  expect(frontChart(result)).toBe(svg);
});

import { expect, test } from "vitest";
import { parseFormula } from "../../../src/formulas/parse.ts";
import { reopener } from "../../../src/io/sweep/open.ts";
import { planOrganise } from "../../../src/studies/organise/space.ts";

/** The feasible results of a whole search, by what it varies. */
function resultsOf(vary: string) {
  const text = `title: Organised
defaults: {capacity: 64 Kib, word: 32 bit}
designs:
  static: {cell: sram-6t}
  resistive: {cell: {switch: oxide-bilayer, selector: transistor}}
organise: {design: resistive, minimise: [macro_area], vary: {${vary}}}
`;
  const named = { text, file: "o.yaml" };
  const reopen = reopener({ named, set: [], entries: [] });
  const { space, variables } = planOrganise(reopen, parseFormula);
  const all = [0, 1].flatMap((i) => [0, 1].map((k) => [i, k]));
  return { names: variables.map(({ name }) => name), results: space.evaluate(all) };
}

test("a path of the organisation means the design's own parameter", () => {
  const plain = resultsOf("rows: [64, 128], columns: [64, 128]");
  const paths = resultsOf("tile.rows: [64, 128], tile.columns: [64, 128]");
  expect(plain.results).not.toContain(undefined);
  expect(paths).toEqual(plain);
});

test("another path below a key of a design is a place of the design searched", () => {
  const vary = (prefix: string) =>
    `${prefix}cell.switch: [oxide-bilayer, oxide-filament], rows: [64, 128]`;
  const short = resultsOf(vary(""));
  expect(short.results).not.toContain(undefined);
  expect(short).toEqual(resultsOf(vary("designs.resistive.")));
});

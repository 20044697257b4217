// The closed forms against the solve of the whole network, over the published grid.
import { expect, test } from "vitest";
import { CLOSED_ERRORS, CLOSED_UP_TO } from "../../../src/estimate/crossbar/bound.ts";
import { DROPS, errorTable, GRID, gridCases } from "../../../src/estimate/crossbar/grid.ts";
import { parseFormula } from "../../../src/formulas/parse.ts";

test("the closed forms keep their stated bounds where they are used", () => {
  const table = errorTable(gridCases(parseFormula));
  expect(DROPS as readonly number[]).toContain(CLOSED_UP_TO);
  const used = table.filter(({ upTo }) => upTo <= CLOSED_UP_TO);
  expect(used.length).toBeGreaterThan(3);
  for (const { scheme, upTo, far, leak } of used) {
    expect(far, `${scheme} up to ${upTo}`).toBeLessThan(CLOSED_ERRORS[scheme].far);
    expect(leak, `${scheme} up to ${upTo}`).toBeLessThan(CLOSED_ERRORS[scheme].leak);
  }
  // The bounds are no looser than they have to be, and what lies beyond needs the solve.
  for (const scheme of GRID.schemes) {
    const own = used.filter((row) => row.scheme === scheme);
    expect(Math.max(...own.map(({ far }) => far))).toBeGreaterThan(CLOSED_ERRORS[scheme].far / 2);
    const all = table.filter((row) => row.scheme === scheme);
    expect(Math.max(...all.map(({ leak }) => leak))).toBeGreaterThan(
      2 * CLOSED_ERRORS[scheme].leak,
    );
  }
}, 120000);

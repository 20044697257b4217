// The closed forms against the solve of the whole network, over the published grid.
import { expect, test } from "vitest";
import { CLOSED_BOUNDS } from "../../../src/estimate/crossbar/bound.ts";
import { DROPS, errorTable, GRID, gridCases } from "../../../src/estimate/crossbar/grid.ts";
import { parseFormula } from "../../../src/formulas/parse.ts";

test("the closed forms keep their stated bounds where they are used", () => {
  const table = errorTable(gridCases(parseFormula));
  for (const scheme of GRID.schemes) {
    const bound = CLOSED_BOUNDS[scheme];
    expect(DROPS as readonly number[]).toContain(bound.upTo);
    const all = table.filter((row) => row.scheme === scheme);
    const used = all.filter(({ upTo }) => upTo <= bound.upTo);
    expect(used.length).toBeGreaterThan(1);
    const worst = (of: typeof all, key: "far" | "leak") => Math.max(...of.map((row) => row[key]));
    expect(worst(used, "far"), scheme).toBeLessThan(bound.far);
    expect(worst(used, "leak"), scheme).toBeLessThan(bound.leak);
    // The bounds are no looser than they have to be, and what lies beyond needs the solve.
    expect(worst(used, "far")).toBeGreaterThan(bound.far / 2);
    expect(worst(all, "leak")).toBeGreaterThan(1.4 * bound.leak);
  }
}, 120000);

import { COSTS } from "./figures.ts";
import type { DesignFixes, FixRow } from "./fixes.ts";

/** The fixes of one design for other programs: SI, with the ratios of costs draw by draw. */
export function fixData({ name, goals, base, rows, least, unmet }: DesignFixes): object {
  const rowData = ({ label, ratios, gains }: FixRow): object => ({
    fix: label,
    cost_ratios: Object.fromEntries(COSTS.map((cost, k) => [cost.name, ratios[k]!])),
    goals: Object.fromEntries(
      goals.flatMap(({ key }, g) => (gains[g] === undefined ? [] : [[key, gains[g]]])),
    ),
  });
  return {
    design: name,
    goals: Object.fromEntries(
      goals.map(({ key, unit, wanted, sense }) => [key, { wanted, unit, sense }]),
    ),
    costs: Object.fromEntries(
      COSTS.map((cost, k) => [cost.name, { unit: cost.unit, ...base.costs[k]! }]),
    ),
    as_it_stands: rowData(base),
    fixes: rows.map(rowData),
    ...(least && { least: rowData(least) }),
    ...(unmet.length > 0 && { unmet }),
  };
}

/** The least combination of fixes that meets all goals of a design. */
import { type FixedDesign, type FixMatter, fixedDesign } from "./evaluate.ts";
import { ERROR_GROUPS, meetsGoal } from "./figures.ts";
import type { StatedGoal } from "./fixes.ts";
import type { Fix, FixGroup } from "./options.ts";

export interface LeastFixes {
  readonly least?: FixedDesign;
  /** Goals that no combination meets. */
  readonly unmet: readonly string[];
}

/** Fixes in the order in which they are settled: each group's goals with those before it. */
const STAGES: readonly (readonly FixGroup[])[] = [ERROR_GROUPS, ["spares"], ["spreading"]];

/**
 * Combinations of fixes by their number: none, one of a group, then two and three groups together.
 * Of the fewest fixes that meet the goals of errors, those of the least area (then of the least
 * write energy) are taken; spare lines and the spreading of writes are added the same way.
 *
 * @param fixes all that may be done
 */
export function leastFixes(
  matter: FixMatter,
  goals: readonly StatedGoal[],
  base: FixedDesign,
  fixes: readonly Fix[],
): LeastFixes {
  let found = base;
  const judged: StatedGoal[] = [];
  for (const groups of STAGES) {
    const now = goals.filter(({ changedBy }) => changedBy.some((one) => groups.includes(one)));
    if (now.length === 0) continue;
    judged.push(...now);
    const next = leastOf(matter, goals, judged, found, combinations(fixes, groups));
    if (next === undefined) return { unmet: now.map(({ label }) => label) };
    found = next;
  }
  return { least: found, unmet: [] };
}

/** All choices of at most one fix of each group, fewer fixes first. */
function combinations(fixes: readonly Fix[], groups: readonly FixGroup[]): Fix[][] {
  let found: Fix[][] = [[]];
  for (const group of groups) {
    const own = fixes.filter((fix) => fix.group === group);
    found = found.flatMap((before) => [before, ...own.map((fix) => [...before, fix])]);
  }
  return found.filter((one) => one.length > 0).sort((a, b) => a.length - b.length);
}

/** Another design must be cheaper by this share of the area to be worth a change. */
const WORTH = 0.01;

/** The cheapest of those with the fewest fixes that meets; what there is, where little beats it. */
function leastOf(
  matter: FixMatter,
  goals: readonly StatedGoal[],
  judged: readonly StatedGoal[],
  base: FixedDesign,
  choices: readonly (readonly Fix[])[],
): FixedDesign | undefined {
  const meets = ({ gains }: FixedDesign): boolean =>
    goals.every((goal, g) => !judged.includes(goal) || meetsGoal(goal, gains[g]!, goal.wanted));
  const enough = meets(base);
  const found: FixedDesign[] = [];
  let fewest = enough ? 1 : Number.POSITIVE_INFINITY;
  for (const fixes of choices) {
    if (fixes.length > fewest) break;
    const one = fixedDesign(matter, [...base.fixes, ...fixes], goals);
    if (typeof one === "string" || !meets(one)) continue;
    fewest = fixes.length;
    found.push(one);
  }
  const best = found.sort(cheaper)[0];
  if (!enough) return best;
  return best !== undefined && best.costs[0]! < (1 - WORTH) * base.costs[0]! ? best : base;
}

/** By area, which hardly differs where only writes do; then by the energy of a write. */
function cheaper(a: FixedDesign, b: FixedDesign): number {
  const [areaA, areaB] = [a.costs[0]!, b.costs[0]!];
  if (Math.abs(areaA / areaB - 1) > WORTH / 10) return areaA - areaB;
  return a.costs[5]! - b.costs[5]!;
}

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
 * Of all combinations of a code, a tolerance and a scrub that meet the goals of errors, the one of
 * the least area (then of the least write energy) is taken, with fewer fixes where more of them
 * hardly gain; spare lines and the spreading of writes are added the same way.
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

/** More fixes, or a change of what does already, must save this share of the area. */
const WORTH = 0.01;

/** The cheapest that meets; what there is, or fewer fixes, where little beats it. */
function leastOf(
  matter: FixMatter,
  goals: readonly StatedGoal[],
  judged: readonly StatedGoal[],
  base: FixedDesign,
  choices: readonly (readonly Fix[])[],
): FixedDesign | undefined {
  const meets = ({ gains }: FixedDesign): boolean =>
    goals.every((goal, g) => !judged.includes(goal) || meetsGoal(goal, gains[g]!, goal.wanted));
  const found = choices
    .map((fixes) => fixedDesign(matter, [...base.fixes, ...fixes], goals))
    .filter((one): one is FixedDesign => typeof one !== "string" && meets(one));
  const counts = [...new Set(found.map(({ fixes }) => fixes.length))].sort((a, b) => a - b);
  let best = meets(base) ? base : undefined;
  for (const count of counts) {
    const [cheapest] = found.filter(({ fixes }) => fixes.length === count).sort(cheaper);
    if (best === undefined || cheapest!.costs[0]! < (1 - WORTH) * best.costs[0]!) best = cheapest;
  }
  return best;
}

/** By area, which hardly differs where only writes do; then by the energy of a write. */
function cheaper(a: FixedDesign, b: FixedDesign): number {
  const [areaA, areaB] = [a.costs[0]!, b.costs[0]!];
  if (Math.abs(areaA / areaB - 1) > WORTH / 10) return areaA - areaB;
  return a.costs[5]! - b.costs[5]!;
}

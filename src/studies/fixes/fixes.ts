/** What each fix of a design costs and buys, and the least that meets what is asked for. */
import type { Catalogue } from "../../catalogue/index.ts";
import { resolveDesign } from "../../estimate/design.ts";
import { Draws } from "../../estimate/draws.ts";
import type { Parser } from "../../formulas/expand.ts";
import type { Study } from "../../schema/study.ts";
import { type EstimatedFigure, figureOf, paired } from "../figures.ts";
import { type FixedDesign, type FixMatter, fixedDesign, statedGoals } from "./evaluate.ts";
import { COSTS, type GoalQuantity, meetsGoal } from "./figures.ts";
import { type FixGroup, fixesFor } from "./options.ts";
import { leastFixes } from "./search.ts";

export type StatedGoal = GoalQuantity & { readonly wanted: number };

/** A design with one fix, or with several, beside the design without. */
export interface FixRow {
  readonly label: string;
  /** What is changed; none in the design as it stands, several in a combination. */
  readonly groups: readonly FixGroup[];
  /** With the fix over without, draw by draw; in the order of `COSTS`. */
  readonly ratios: readonly EstimatedFigure[];
  readonly gains: readonly (FixGain | undefined)[];
}

/** What becomes of one goal; nothing of those that the fix does not change. */
export interface FixGain {
  readonly figure: EstimatedFigure;
  readonly meets: boolean;
  /** In which share of the draws it does. */
  readonly share: number;
}

/** All that was tried on one design. */
export interface DesignFixes {
  readonly name: string;
  readonly title: string;
  readonly goals: readonly StatedGoal[];
  /** The design as it stands; ratios are of each to it. */
  readonly base: FixRow & { readonly costs: readonly EstimatedFigure[] };
  readonly rows: readonly FixRow[];
  /** The least that meets all goals; undefined where none of the combinations does. */
  readonly least?: FixRow;
  /** Goals that no fix reaches, or that the design has no figure for. */
  readonly unmet: readonly string[];
}

/** Draws of a fix: enough for the share that meets a goal. */
const MOST_DRAWS = 128;

/** Whether any design of a study asks for something. */
export function hasGoals(study: Study): boolean {
  return Object.keys(study.designs).some((name) => statedGoals(study, name).length > 0);
}

/** The fixes of every design that states goals; designs that do not work are left out. */
export function fixesOfStudy(study: Study, catalogue: Catalogue, parse: Parser): DesignFixes[] {
  const draws = new Draws(study.seed, Math.min(study.samples, MOST_DRAWS));
  return Object.keys(study.designs).flatMap((design) => {
    const matter: FixMatter = { study, design, catalogue, parse };
    const goals = statedGoals(study, design);
    return goals.length === 0 ? [] : (fixesOfDesign(matter, goals, draws) ?? []);
  });
}

function fixesOfDesign(
  matter: FixMatter,
  stated: readonly StatedGoal[],
  draws: Draws,
): DesignFixes | undefined {
  const { study, design, catalogue } = matter;
  const first = fixedDesign(matter, [], stated);
  if (typeof first === "string") return undefined;
  // Static cells do not wear out: a goal without a figure is none.
  const goals = stated.filter((_, g) => first.gains[g] !== undefined);
  if (goals.length === 0) return undefined;
  const base = fixedDesign(matter, [], goals) as FixedDesign;
  const { cell, parameters, title } = resolveDesign(study, design, catalogue);
  const own = study.designs[design]!;
  const spread = cell.switch && parameters.get("cycle_spread")?.value;
  const fixes = fixesFor(own, spread).filter(({ group }) =>
    goals.some(({ changedBy }) => changedBy.includes(group)),
  );
  // A scrub corrects nothing without a code; together they may.
  const coded = (own.error_correction ?? "none") !== "none";
  const shown = fixes.filter(({ group }) => group !== "scrub" || coded);
  const single = shown
    .map((fix) => fixedDesign(matter, [fix], goals))
    .filter((one): one is FixedDesign => typeof one !== "string");
  const { least, unmet } = leastFixes(matter, goals, base, fixes);
  const every = goals.map((_, g) => g);
  const drawn = base.draw(draws, every);
  const row = (one: FixedDesign, judged: readonly number[]): FixRow =>
    rowOf(one, base, drawn, draws, goals, judged, study.coverage);
  /** The goals that a fix by itself can change. */
  const changed = ({ fixes: [fix] }: FixedDesign): number[] =>
    every.filter((g) => goals[g]!.changedBy.includes(fix!.group));
  return {
    name: design,
    title,
    goals,
    base: {
      ...row(base, every),
      costs: base.costs.map((value, k) => figureOf(value, drawn.costs[k]!, study.coverage)),
    },
    rows: single.map((one) => row(one, changed(one))),
    ...(least !== undefined && { least: row(least, every) }),
    unmet,
  };
}

function rowOf(
  one: FixedDesign,
  base: FixedDesign,
  drawn: ReturnType<FixedDesign["draw"]>,
  draws: Draws,
  goals: readonly StatedGoal[],
  judged: readonly number[],
  coverage: number,
): FixRow {
  const own = one === base ? drawn : one.draw(draws, judged);
  return {
    label: one.fixes.map(({ label }) => label).join(" and ") || "as it stands",
    groups: one.fixes.map(({ group }) => group),
    ratios: COSTS.map((_, k) =>
      figureOf(
        one.costs[k]! / base.costs[k]!,
        paired(own.costs[k]!, drawn.costs[k]!, (a, b) => a / b),
        coverage,
      ),
    ),
    gains: goals.map((goal, g) => {
      const value = one.gains[g];
      const samples = own.gains[g];
      if (value === undefined || samples === undefined || !judged.includes(g)) return undefined;
      const known = samples.filter((x) => Number.isFinite(x));
      const good = known.filter((x) => meetsGoal(goal, x, goal.wanted)).length;
      return {
        figure: figureOf(value, samples, coverage),
        meets: meetsGoal(goal, value, goal.wanted),
        share: known.length === 0 ? 0 : good / known.length,
      };
    }),
  };
}

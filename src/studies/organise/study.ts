import { conditionsOf } from "../../estimate/conditions.ts";
import { Draws } from "../../estimate/draws.ts";
import type { MacroModel } from "../../estimate/model.ts";
import { REPORTED, type ReportedQuantity } from "../../estimate/quantities.ts";
import type { Parser } from "../../formulas/expand.ts";
import type { Interval } from "../../numerics/quantile.ts";
import { figureOf } from "../figures.ts";
import type { Reopen } from "../sweep/families.ts";
import { workingSamples } from "../working.ts";
import type { Scored } from "./archive.ts";
import { searchEverything, searchGrid } from "./search.ts";
import {
  type Aim,
  type Obstacle,
  type OrganisePlan,
  organiseSection,
  planOrganise,
} from "./space.ts";

/** One organisation that was found. */
export interface Organisation {
  /** The varied names with their values: numbers in SI, or texts. */
  readonly values: readonly (number | string)[];
  /** The aims, as they are, not turned round. */
  readonly aims: readonly number[];
  /** All reported quantities in SI. */
  readonly figures: ReadonlyMap<string, number>;
}

/** One part of a total that two organisations differ in. */
export interface PartDifference {
  readonly part: string;
  readonly winner: number;
  readonly other: number;
}

/** Why the winner wins: one total of the two, part by part, the greatest difference first. */
export interface TotalDifference {
  readonly quantity: string;
  readonly unit: string;
  readonly winner: number;
  readonly other: number;
  readonly parts: readonly PartDifference[];
}

export interface Organised {
  readonly plan: OrganisePlan;
  readonly reported: readonly ReportedQuantity[];
  /** The best, or the trade-off front in the order of the first aim. */
  readonly found: readonly Organisation[];
  /** Place of the winner among them: the best, or that with the smallest product of its aims. */
  readonly winner: number;
  readonly runnerUp?: number;
  /** Of each aim of the winner that is a quantity: its coverage interval from the parameters. */
  readonly intervals: readonly (Interval | undefined)[];
  readonly differences: readonly TotalDifference[];
  /** Why points are no organisations; of what was computed where something was found. */
  readonly obstacles: readonly Obstacle[];
  readonly evaluations: number;
  readonly bounds: number;
}

export interface OrganiseRequest {
  readonly design?: string | undefined;
  /** Computes every point, to check the search. */
  readonly everything?: boolean;
  /** Told what is decided, of how many organisations. */
  readonly onProgress?: (done: number, total: number) => void;
}

const BEST = 5;

/**
 * The best organisations of a design within the grid that the study's section `organise` spans.
 *
 * @throws TenfoldError with places, for names, values and expressions that can't be
 */
export function organiseStudy(
  reopen: Reopen,
  parse: Parser,
  request: OrganiseRequest = {},
): Organised {
  const plan = planOrganise(reopen, parse, request);
  const best = organiseSection(plan.study).best ?? BEST;
  const search = request.everything === true ? searchEverything : searchGrid;
  const { onProgress } = request;
  const result = search(plan.space, {
    best,
    ...(onProgress && { onProgress: (done) => onProgress(done, plan.total) }),
  });
  const models = result.found.map((point) => plan.model(point.places));
  const found = result.found.map((point, i): Organisation => {
    const nominal = models[i]!.nominal();
    return {
      values: plan.variables.map(({ kind, values, texts }, a) =>
        kind === "parameter" ? values[point.places[a]!]! : texts[point.places[a]!]!,
      ),
      aims: point.aims.map((x, k) => (plan.aims[k]!.sense === "minimise" ? x : -x)),
      figures: new Map(REPORTED.map(({ name }) => [name, nominal.get(name)!])),
    };
  });
  const ranked = byMerit(result.found);
  const [winner, runnerUp] = ranked;
  const differences =
    winner === undefined || runnerUp === undefined
      ? []
      : differencesOf(plan.aims, models[winner]!, models[runnerUp]!);
  return {
    plan,
    reported: REPORTED,
    found,
    winner: winner ?? -1,
    ...(runnerUp !== undefined && { runnerUp }),
    intervals: winner === undefined ? [] : intervalsOf(plan, models[winner]!),
    obstacles: plan.obstacles(),
    differences,
    evaluations: result.evaluations,
    bounds: result.bounds,
  };
}

/** Intervals of those aims that are quantities of the design. */
function intervalsOf({ aims, study }: OrganisePlan, model: MacroModel): (Interval | undefined)[] {
  const names = aims.map(({ text }) => text).filter((text) => model.program.quantities.has(text));
  const draws = new Draws(study.seed, study.samples);
  const { samples } = workingSamples(model, draws, conditionsOf(model.program), names);
  return aims.map(({ text }) => {
    const drawn = samples.get(text);
    if (drawn === undefined || !drawn.some(Number.isFinite)) return undefined;
    const { low, high } = figureOf(0, drawn, study.coverage);
    return { low, high };
  });
}

/** Places of the points by the product of their aims, which no choice of units changes. */
function byMerit(points: readonly Scored[]): number[] {
  const merit = ({ aims }: Scored): number =>
    aims.length === 1 ? aims[0]! : aims.reduce((product, x) => product * (x > 0 ? x : 1 / -x), 1);
  return Array.from(points.keys()).sort((a, b) => merit(points[a]!) - merit(points[b]!) || a - b);
}

/** The totals that the aims read, part by part. */
function differencesOf(
  aims: readonly Aim[],
  winner: MacroModel,
  other: MacroModel,
): TotalDifference[] {
  const names = new Set(aims.flatMap(({ expression }) => [...expression.names.keys()]));
  const [ours, theirs] = [winner.nominal(), other.nominal()];
  return [...names].flatMap((name): TotalDifference[] => {
    const quantity = winner.program.quantities.get(name);
    if (quantity === undefined) return [];
    const parts = partsOf(winner, name).map(({ part, quantity: of }) => ({
      part,
      winner: ours.get(of) ?? 0,
      other: theirs.get(of) ?? 0,
    }));
    const size = ({ winner: a, other: b }: PartDifference): number => Math.abs(a - b);
    return [
      {
        quantity: name,
        unit: quantity.unit,
        winner: ours.get(name)!,
        other: theirs.get(name)!,
        parts: parts.filter((one) => size(one) > 0).sort((a, b) => size(b) - size(a)),
      },
    ];
  });
}

/** What a quantity is the sum of: the parts of its total, else what its formula reads. */
function partsOf(model: MacroModel, name: string): { part: string; quantity: string }[] {
  const total = model.totals.find((one) => one.name === name);
  if (total !== undefined) return total.parts.map(({ part, quantity }) => ({ part, quantity }));
  const step = model.program.steps.find((one) => one.kind === "formula" && one.name === name);
  const reads = step?.kind === "formula" ? step.reads : [];
  const inner = model.totals.find((one) => reads.includes(one.name));
  if (inner !== undefined) return partsOf(model, inner.name);
  const { unit } = model.program.quantities.get(name)!;
  return reads
    .filter((one) => model.program.quantities.get(one)!.unit === unit)
    .map((one) => ({ part: one.replaceAll("_", " "), quantity: one }));
}

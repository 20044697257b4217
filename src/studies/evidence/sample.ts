import type { ErrorSample, QuantityError } from "../../catalogue/index.ts";
import { exp, log, pow } from "../../numerics/special/elementary.ts";
import type { Compared } from "./compare.ts";

/** What a value from memory weighs; one that was read weighs 1. A choice of this project. */
const RECALLED_WEIGHT = 0.5;
/** Fewer chips have no spread: with two, the interval of a further one spans decades whatever they say. */
const SPREAD_FROM = 3;

type Ratio = Pick<Compared, "ratio" | "recalled" | "kind">;

const weightOf = ({ recalled }: Ratio): number => (recalled ? RECALLED_WEIGHT : 1);
const sum = (values: readonly number[]): number => values.reduce((total, x) => total + x, 0);

/** (Σw)²/Σw²: the number of chips of equal weight that say as much (Kish's effective sample size). */
function effectiveOf(weights: readonly number[]): number {
  return pow(sum(weights), 2) / sum(weights.map((w) => w * w));
}

/**
 * The ratios of one quantity as a sample of ln ratio.
 *
 * The spread is Σw (ln r − ln median)² / Σw · n/(n − 1), n the effective number: about the median,
 * since that is what the interval of a further chip is laid around.
 */
export function sampleOf(rows: readonly Ratio[]): ErrorSample {
  const weights = rows.map(weightOf);
  const logs = rows.map(({ ratio }) => log(ratio));
  const effective = effectiveOf(weights);
  const centre = weightedMedian(logs, weights);
  const squares = sum(logs.map((x, i) => weights[i]! * pow(x - centre, 2))) / sum(weights);
  return {
    chips: rows.length,
    recalled: rows.filter(({ recalled }) => recalled).length,
    median: exp(centre),
    effective,
    ...(rows.length >= SPREAD_FROM && {
      spread: Math.sqrt((squares * effective) / (effective - 1)),
    }),
  };
}

/** The value with half of the weight on each side; equal weights give the common median. */
function weightedMedian(values: readonly number[], weights: readonly number[]): number {
  const order = values.map((_, i) => i).sort((a, b) => values[a]! - values[b]!);
  const half = sum(weights) / 2;
  let below = 0;
  for (const [at, i] of order.entries()) {
    below += weights[i]!;
    if (below === half) return (values[i]! + values[order[at + 1]!]!) / 2;
    if (below > half) return values[i]!;
  }
  return Number.NaN;
}

/** All samples of one quantity: over all kinds, by kind, and the spread within kinds. */
export function quantityError(rows: readonly Ratio[]): QuantityError {
  const names = [...new Set(rows.map(({ kind }) => kind))];
  const groups = names.map((kind) => rows.filter((row) => row.kind === kind));
  const within = withinKinds(groups);
  return {
    all: sampleOf(rows),
    kinds: Object.fromEntries(groups.map((group, i) => [names[i]!, sampleOf(group)])),
    ...(within && { within }),
  };
}

/** One-way analysis of variance: what is left of the spread when each kind keeps its own mean. */
function withinKinds(groups: readonly (readonly Ratio[])[]): QuantityError["within"] {
  const several = groups.filter((group) => group.length > 1);
  if (several.length === 0) return undefined;
  const parts = several.map((group) => {
    const weights = group.map(weightOf);
    const logs = group.map(({ ratio }) => log(ratio));
    const mean = sum(logs.map((x, i) => x * weights[i]!)) / sum(weights);
    const effective = effectiveOf(weights);
    const variance = sum(logs.map((x, i) => weights[i]! * pow(x - mean, 2))) / sum(weights);
    return { squares: variance * effective, freedom: effective - 1 };
  });
  const freedom = sum(parts.map((part) => part.freedom));
  return { spread: Math.sqrt(sum(parts.map(({ squares }) => squares)) / freedom), freedom };
}

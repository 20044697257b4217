import { fail } from "../../errors/problem.ts";
import { type Interval, quantile, shortestInterval, sorted } from "../../numerics/quantile.ts";
import { adaptiveMonteCarlo, type MonteCarloResult } from "../../numerics/sampling/monte-carlo.ts";
import { exp, log, log2, pow } from "../../numerics/special/elementary.ts";
import { meanOf, varianceOf } from "../../numerics/sum.ts";
import type { RankCorrelation } from "./correlation.ts";
import type { UncertainModel } from "./model.ts";
import { ParameterSpace, type Sampling, UniformBatches } from "./space.ts";

export interface PropagationOptions {
  readonly seed: number;
  readonly coverage: number;
  /** Default `low-discrepancy`. */
  readonly sampling?: Sampling;
  /** Default `symmetric`: as much probability below as above. */
  readonly interval?: "symmetric" | "shortest";
  /** Significant digits of the standard uncertainty that must be stable; default 2. */
  readonly digits?: number;
  /** Draws at most; default 2^17. */
  readonly most?: number;
  /** Told after each batch: draws so far, and at most. */
  readonly onProgress?: (draws: number, most: number) => void;
  readonly correlations?: readonly RankCorrelation[];
  /**
   * On which scale of the quantity the results must be stable; default `linear`, as the guide has
   * it. The tails of ratios and powers are so heavy that their mean hardly ever settles: such
   * quantities settle on the scale of their logarithm, if all draws are positive.
   */
  readonly scale?: Scale;
}

export type Scale = "linear" | "logarithmic";

/** The distribution of one quantity. */
export interface PropagatedQuantity {
  readonly name: string;
  readonly mean: number;
  /** Standard deviation of the draws. */
  readonly uncertainty: number;
  readonly median: number;
  readonly interval: Interval;
  /** The scale that the next three are of. */
  readonly scale: Scale;
  readonly stable: boolean;
  /** Twice the standard deviation of the least stable of mean, uncertainty and interval ends. */
  readonly unsteadiness: number;
  /** What `unsteadiness` must stay below. */
  readonly tolerance: number;
}

export interface Propagated {
  readonly quantities: readonly PropagatedQuantity[];
  /** Draws that the results are of. */
  readonly draws: number;
  /** Share of all draws in which the model had no answer; the results are of the others. */
  readonly failed: number;
}

/**
 * A power of two: a scrambled sequence is evenest at these. Ends of intervals settle with fewer draws
 * in all from large batches than from many small ones.
 */
const BATCH = 32_768;
const LEAST_BATCH = 8192;
// Some ten seconds a design; what has not settled by then is said, with about how many draws would do.
const MOST_DRAWS = 2 ** 17;
/** Draws of one batch at most, so many times its size, until it is full of those that work. */
const PATIENCE = 64;

/**
 * Propagates distributions through a model until mean, standard uncertainty and interval ends of
 * every quantity are stable (JCGM 101:2008, 7.9), or the draws are used up.
 *
 * @throws TenfoldError `too-few-draws` where hardly any draw has an answer, `bad-probability`
 */
export function propagateDistributions(
  model: UncertainModel,
  options: PropagationOptions,
): Propagated {
  const space = new ParameterSpace(model.parameters, options.correlations);
  const keys = model.parameters.map(({ key }) => key);
  const source = new UniformBatches(options.sampling ?? "low-discrepancy", options.seed, keys);
  const most = options.most ?? MOST_DRAWS;
  const wished = Math.max(LEAST_BATCH, Math.min(BATCH, pow(2, Math.floor(log2(most / 2)))));
  const batch = Math.max(wished, pow(2, Math.ceil(log2(100 / (1 - options.coverage)))));
  const scales: Scale[] = model.quantities.map(() => options.scale ?? "linear");
  let drawn = 0;
  let kept = 0;
  const run = adaptiveMonteCarlo(
    (start, count, outputs) => {
      drawn += fillWithWorking(model, space, source, start / batch, count, outputs);
      kept += count;
      options.onProgress?.(start + count, most);
      for (const [k, column] of outputs.entries()) {
        // The first batch decides; a later draw at or below zero would be far out in the tail.
        if (start === 0 && !column.every((y) => y > 0)) scales[k] = "linear";
        if (scales[k] === "linear") continue;
        for (let i = 0; i < count; i++) column[i] = log(Math.max(column[i]!, Number.MIN_VALUE));
      }
    },
    model.quantities.length,
    {
      probability: options.coverage,
      batch,
      digits: options.digits ?? 2,
      most: Math.max(2 * batch, most),
      interval: options.interval ?? "symmetric",
      // The shortest interval is that of the quantity also where it is settled on another scale.
      ...(options.interval === "shortest" && {
        intervalOf: (rising, probability, k) =>
          shortestInterval(rising, probability, scales[k] === "linear" ? undefined : exp),
      }),
    },
  );
  return {
    quantities: run.outputs.map((one, k) =>
      described(model.quantities[k]!, one, run.values[k]!, scales[k]!),
    ),
    draws: run.draws,
    failed: 1 - kept / drawn,
  };
}

function described(
  name: string,
  { stable, unsteadiness, tolerance, ...one }: MonteCarloResult,
  values: Float64Array,
  scale: Scale,
): PropagatedQuantity {
  const back = scale === "linear" ? (y: number): number => y : exp;
  const steady = { scale, stable, unsteadiness, tolerance };
  const median = back(quantile(sorted(values), 0.5));
  if (scale === "linear") return { name, ...one, median, ...steady };
  const linear = values.map(back);
  return {
    name,
    mean: meanOf(linear),
    uncertainty: Math.sqrt(varianceOf(linear)),
    median,
    interval: { low: back(one.interval.low), high: back(one.interval.high) },
    ...steady,
  };
}

/** Fills a batch with draws that have an answer; returns how many it took. */
function fillWithWorking(
  model: UncertainModel,
  space: ParameterSpace,
  source: UniformBatches,
  batch: number,
  count: number,
  outputs: readonly Float64Array[],
): number {
  const fresh = outputs.map(() => new Float64Array(count));
  let filled = 0;
  for (let round = 0; round < PATIENCE; round++) {
    const inputs = space.values(source.points(batch, round * count, count), count);
    model.evaluate(inputs, count, fresh);
    for (let i = 0; i < count; i++) {
      if (!Number.isFinite(fresh[0]?.[i])) continue;
      for (const [k, column] of outputs.entries()) column[filled] = fresh[k]![i]!;
      filled += 1;
      if (filled === count) return round * count + i + 1;
    }
  }
  return fail({
    code: "too-few-draws",
    what: "the design hardly ever works when its parameters vary",
    got: `${filled} of ${PATIENCE * count} draws`,
    fix: "narrower ranges, or another nominal value",
  });
}

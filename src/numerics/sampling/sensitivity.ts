/**
 * Sobol' sensitivity indices of the first order and total indices, with confidence intervals.
 *
 * Estimators: first order of "Variance based sensitivity analysis of model output", Computer
 * Physics Communications 181 (2010) 259-270, doi 10.1016/j.cpc.2009.09.018, table 2 (b); total of
 * its table 2 (f). Intervals come from independent scrambles of the sequence.
 */
import { refuse } from "../../errors/problem.ts";
import { studentTailQuantile } from "../special/beta.ts";
import { meanOf, varianceOf } from "../sum.ts";
import { MOST_SOBOL_DIMENSIONS, SobolSequence } from "./sobol.ts";

/**
 * Writes the model's value for each of `count` points of the unit cube, given by columns:
 * `inputs[k][i]` is the uniform draw of parameter k in point i.
 */
export type ModelOfUnitCube = (
  inputs: readonly Float64Array[],
  count: number,
  output: Float64Array,
) => void;

export interface SensitivityOptions {
  readonly seed: number;
  /** Points per replicate, a power of two; default 1024. The model runs count * (k + 2) times. */
  readonly count?: number;
  /** Independent scrambles; default 16. */
  readonly replicates?: number;
  /** Confidence of the intervals; default 0.95. */
  readonly confidence?: number;
  /**
   * Parameters that are exchanged together, such as correlated ones: one pair of indices for each
   * group, in this order. Each parameter alone unless given.
   */
  readonly groups?: readonly (readonly number[])[];
}

/** An estimate with its own confidence interval. */
export interface Estimate {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export interface SensitivityIndices {
  readonly mean: Estimate;
  readonly variance: Estimate;
  readonly first: readonly Estimate[];
  readonly total: readonly Estimate[];
  readonly evaluations: number;
  /** Share of the points that were left out because the model gave no finite number there. */
  readonly leftOut: number;
}

/** Indices of a model of k independent parameters. All are NaN where the model is constant, or has no figures. */
export function sensitivityIndices(
  model: ModelOfUnitCube,
  parameters: number,
  options: SensitivityOptions,
): SensitivityIndices {
  requireFit(parameters);
  const count = options.count ?? 1024;
  const replicates = options.replicates ?? 16;
  const means: number[] = [];
  const variances: number[] = [];
  const groups = options.groups ?? Array.from({ length: parameters }, (_, k) => [k]);
  const first: number[][] = groups.map(() => []);
  const total: number[][] = groups.map(() => []);
  let leftOut = 0;
  for (let replicate = 0; replicate < replicates; replicate++) {
    const seed = options.seed + replicate * 2 ** 32;
    const sums = oneReplicate(model, parameters, groups, count, seed);
    leftOut += sums.leftOut;
    // A replicate without a point says nothing of the others' points.
    if (sums.leftOut === count) continue;
    means.push(sums.mean);
    variances.push(sums.variance);
    sums.first.forEach((v, k) => {
      first[k]!.push(v);
      total[k]!.push(sums.total[k]!);
    });
  }
  const degrees = Math.max(1, means.length - 1);
  const t = studentTailQuantile((1 - (options.confidence ?? 0.95)) / 2, degrees);
  return {
    mean: estimate(means, t),
    variance: estimate(variances, t),
    first: first.map((parts) => ratio(parts, variances, t)),
    total: total.map((parts) => ratio(parts, variances, t)),
    evaluations: replicates * count * (groups.length + 2),
    leftOut: leftOut / (replicates * count),
  };
}

function requireFit(parameters: number): void {
  if (parameters >= 1 && 2 * parameters <= MOST_SOBOL_DIMENSIONS) return;
  refuse({
    code: "too-many-dimensions",
    what: "sensitivity indices need two dimensions of the sequence for each parameter",
    got: `${parameters} parameters`,
    expected: `1 to ${Math.floor(MOST_SOBOL_DIMENSIONS / 2)}`,
    fix: "state some parameters as exact",
  });
}

interface Replicate {
  readonly mean: number;
  readonly variance: number;
  /** Variance of the parameter alone, and variance that stays when all others are known. */
  readonly first: readonly number[];
  readonly total: readonly number[];
  readonly leftOut: number;
}

function oneReplicate(
  model: ModelOfUnitCube,
  parameters: number,
  groups: readonly (readonly number[])[],
  count: number,
  seed: number,
): Replicate {
  const columns = Array.from({ length: 2 * parameters }, () => new Float64Array(count));
  new SobolSequence(2 * parameters, { seed }).fill(columns, 0, count);
  const a = columns.slice(0, parameters);
  const b = columns.slice(parameters);
  const run = (inputs: readonly Float64Array[]): Float64Array => {
    const output = new Float64Array(count);
    model(inputs, count, output);
    return output;
  };
  const wholeA = run(a);
  const wholeB = run(b);
  const mixed = groups.map((group) =>
    run(a.map((column, j) => (group.includes(j) ? b[j]! : column))),
  );
  // A point counts where all of its runs gave a number, so that every index is of the same points.
  const kept = Array.from(wholeA.keys()).filter((i) =>
    [wholeA, wholeB, ...mixed].every((values) => Number.isFinite(values[i])),
  );
  const pick = (values: Float64Array): Float64Array =>
    kept.length === count ? values : Float64Array.from(kept, (i) => values[i]!);
  const ofA = pick(wholeA);
  const ofB = pick(wholeB);
  const mean = (meanOf(ofA) + meanOf(ofB)) / 2;
  const ofMixed = mixed.map(pick);
  const square = (f: number): number => (f - mean) * (f - mean);
  return {
    mean,
    variance: (meanOf(ofA.map(square)) + meanOf(ofB.map(square))) / 2,
    first: ofMixed.map((all) => meanOf(all.map((f, i) => (ofB[i]! - mean) * (f - ofA[i]!)))),
    total: ofMixed.map((all) => meanOf(all.map((f, i) => ((f - ofA[i]!) * (f - ofA[i]!)) / 2))),
    leftOut: count - kept.length,
  };
}

function estimate(values: readonly number[], t: number): Estimate {
  const value = meanOf(values);
  const half = t * Math.sqrt(varianceOf(values) / values.length);
  return { value, low: value - half, high: value + half };
}

/** The ratio of two means with the interval of its linearised error. */
function ratio(parts: readonly number[], wholes: readonly number[], t: number): Estimate {
  const whole = meanOf(wholes);
  const value = meanOf(parts) / whole;
  const errors = parts.map((part, i) => (part - value * wholes[i]!) / whole);
  const half = t * Math.sqrt(varianceOf(errors) / errors.length);
  return { value, low: value - half, high: value + half };
}

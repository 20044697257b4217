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
}

/** Indices of a model of k independent parameters. All are NaN where the model is constant. */
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
  const first: number[][] = Array.from({ length: parameters }, () => []);
  const total: number[][] = Array.from({ length: parameters }, () => []);
  for (let replicate = 0; replicate < replicates; replicate++) {
    const sums = oneReplicate(model, parameters, count, options.seed + replicate * 2 ** 32);
    means.push(sums.mean);
    variances.push(sums.variance);
    sums.first.forEach((v, k) => {
      first[k]!.push(v);
      total[k]!.push(sums.total[k]!);
    });
  }
  const t = studentTailQuantile((1 - (options.confidence ?? 0.95)) / 2, replicates - 1);
  return {
    mean: estimate(means, t),
    variance: estimate(variances, t),
    first: first.map((parts) => ratio(parts, variances, t)),
    total: total.map((parts) => ratio(parts, variances, t)),
    evaluations: replicates * count * (parameters + 2),
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
}

function oneReplicate(
  model: ModelOfUnitCube,
  parameters: number,
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
  const ofA = run(a);
  const ofB = run(b);
  const mean = (meanOf(ofA) + meanOf(ofB)) / 2;
  const first: number[] = [];
  const total: number[] = [];
  for (let k = 0; k < parameters; k++) {
    const mixed = run(a.map((column, j) => (j === k ? b[k]! : column)));
    first.push(meanOf(mixed.map((f, i) => (ofB[i]! - mean) * (f - ofA[i]!))));
    total.push(meanOf(mixed.map((f, i) => (f - ofA[i]!) ** 2 / 2)));
  }
  const square = (f: number): number => (f - mean) ** 2;
  const variance = (meanOf(ofA.map(square)) + meanOf(ofB.map(square))) / 2;
  return { mean, variance, first, total };
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

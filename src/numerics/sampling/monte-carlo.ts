/**
 * Propagation of distributions by a Monte Carlo method that takes draws until its results are
 * stable: JCGM 101:2008 (Supplement 1 to the Guide), 7.9.
 */
import { type Interval, shortestInterval, sorted, symmetricInterval } from "../quantile.ts";
import { meanOf, varianceOf } from "../sum.ts";

export interface MonteCarloOptions {
  /** Coverage probability; default 0.95. */
  readonly probability?: number;
  /** Significant digits of the standard uncertainty that must be stable; default 2. */
  readonly digits?: number;
  /** Draws at most; default a million. */
  readonly most?: number;
  /** Draws per batch; default max(10^4, 100/(1 - p)). */
  readonly batch?: number;
  readonly interval?: "symmetric" | "shortest";
  /** What finds the interval of an output, by its number, in values in rising order; in place of `interval`. */
  readonly intervalOf?: (rising: Float64Array, probability: number, output: number) => Interval;
}

export interface MonteCarloResult {
  readonly mean: number;
  readonly uncertainty: number;
  readonly interval: Interval;
  /** Twice the standard deviation of the mean over batches, of the least stable result. */
  readonly unsteadiness: number;
  /** What `unsteadiness` must stay below. */
  readonly tolerance: number;
  readonly stable: boolean;
}

export interface MonteCarloRun {
  readonly outputs: readonly MonteCarloResult[];
  readonly draws: number;
  /** All values, per output, in the order of the draws. */
  readonly values: readonly Float64Array[];
}

/** Writes the outputs of draws `start` ... `start + count - 1`: `outputs[k][i]`. */
export type Evaluate = (start: number, count: number, outputs: readonly Float64Array[]) => void;

/**
 * Half a unit of the last of so many significant digits of u (7.9.2).
 *
 * The decimal exponent is read from the rounded text of u: a logarithm in doubles would be off by
 * one at powers of ten.
 */
export function numericalTolerance(u: number, digits: number): number {
  const exponent = Number(u.toExponential(digits - 1).split("e")[1]);
  return Number(`5e${exponent - digits}`);
}

/** Runs batches until mean, uncertainty and interval ends of every output are stable. */
export function adaptiveMonteCarlo(
  evaluate: Evaluate,
  outputs: number,
  options: MonteCarloOptions = {},
): MonteCarloRun {
  const probability = options.probability ?? 0.95;
  const batch = options.batch ?? Math.max(10_000, Math.ceil(100 / (1 - probability)));
  const most = options.most ?? 1_000_000;
  const records = Array.from({ length: outputs }, (_, k) => new OutputRecord(options, k));
  for (let draws = 0; ; ) {
    const now = records.map(() => new Float64Array(batch));
    evaluate(draws, batch, now);
    draws += batch;
    for (const [k, record] of records.entries()) record.add(now[k]!);
    const enough = draws >= 2 * batch && records.every((record) => record.stable);
    if (!enough && draws + batch <= most) continue;
    return {
      outputs: records.map((record) => record.result()),
      draws,
      values: records.map((record) => record.values()),
    };
  }
}

/** The batches of one output, with the stability test of 7.9.4. */
class OutputRecord {
  private readonly batches: Float64Array[] = [];
  /** Mean, uncertainty and interval ends of each batch. */
  private readonly figures: number[][] = [[], [], [], []];
  private readonly options: MonteCarloOptions;
  private readonly output: number;

  constructor(options: MonteCarloOptions, output: number) {
    this.options = options;
    this.output = output;
  }

  add(batch: Float64Array): void {
    this.batches.push(batch);
    const ends = this.interval(batch);
    const figures = [meanOf(batch), Math.sqrt(varianceOf(batch)), ends.low, ends.high];
    for (const [i, figure] of figures.entries()) this.figures[i]!.push(figure);
  }

  get stable(): boolean {
    const u = this.uncertainty;
    return u === 0 || this.unsteadiness < numericalTolerance(u, this.options.digits ?? 2);
  }

  /** Of all draws, from the variances within and between batches of equal size. */
  private get uncertainty(): number {
    const [means, deviations] = this.figures as [number[], number[]];
    const size = this.batches[0]!.length;
    const within = meanOf(deviations.map((u) => u * u)) * (size - 1) * means.length;
    const between = means.length > 1 ? varianceOf(means) * (means.length - 1) * size : 0;
    return Math.sqrt((within + between) / (size * means.length - 1));
  }

  private get unsteadiness(): number {
    const errors = this.figures.map((series) => 2 * Math.sqrt(varianceOf(series) / series.length));
    return Math.max(...errors);
  }

  private interval(values: Float64Array): Interval {
    const { interval, intervalOf, probability = 0.95 } = this.options;
    const rising = sorted(values);
    if (intervalOf !== undefined) return intervalOf(rising, probability, this.output);
    const find = interval === "shortest" ? shortestInterval : symmetricInterval;
    return find(rising, probability);
  }

  values(): Float64Array {
    const all = new Float64Array(this.batches.length * this.batches[0]!.length);
    for (const [i, batch] of this.batches.entries()) all.set(batch, i * batch.length);
    return all;
  }

  result(): MonteCarloResult {
    const all = this.values();
    const uncertainty = this.uncertainty;
    return {
      mean: meanOf(all),
      uncertainty,
      interval: this.interval(all),
      unsteadiness: this.unsteadiness,
      tolerance: numericalTolerance(uncertainty, this.options.digits ?? 2),
      stable: this.batches.length > 1 && this.stable,
    };
  }
}

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
  const batches: Float64Array[][] = [];
  for (;;) {
    const now = Array.from({ length: outputs }, () => new Float64Array(batch));
    evaluate(batches.length * batch, batch, now);
    batches.push(now);
    const draws = batches.length * batch;
    if (batches.length < 2) continue;
    const results = now.map((_, k) =>
      summarise(
        batches.map((b) => b[k]!),
        options,
      ),
    );
    if (draws + batch > most || results.every((r) => r.stable)) {
      const values = now.map((_, k) => joined(batches.map((b) => b[k]!)));
      return { outputs: results, draws, values };
    }
  }
}

function joined(parts: readonly Float64Array[]): Float64Array {
  const all = new Float64Array(parts.reduce((n, p) => n + p.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

/** Summary of one output over its batches, with the stability test of 7.9.4. */
function summarise(batches: readonly Float64Array[], options: MonteCarloOptions): MonteCarloResult {
  const probability = options.probability ?? 0.95;
  const find = options.interval === "shortest" ? shortestInterval : symmetricInterval;
  const series: number[][] = [[], [], [], []];
  for (const batch of batches) {
    const ends = find(sorted(batch), probability);
    const figures = [meanOf(batch), Math.sqrt(varianceOf(batch)), ends.low, ends.high];
    figures.forEach((figure, i) => {
      series[i]!.push(figure);
    });
  }
  const all = joined(batches);
  const uncertainty = Math.sqrt(varianceOf(all));
  const tolerance = numericalTolerance(uncertainty, options.digits ?? 2);
  const errors = series.map((s) => 2 * Math.sqrt(varianceOf(s) / s.length));
  const unsteadiness = Math.max(...errors);
  return {
    mean: meanOf(all),
    uncertainty,
    interval: find(sorted(all), probability),
    unsteadiness,
    tolerance,
    stable: uncertainty === 0 || unsteadiness < tolerance,
  };
}

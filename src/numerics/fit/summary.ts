/** What a fit says of its parameters, from the slopes at its end. */
import type { Interval } from "../quantile.ts";
import { studentTailQuantile } from "../special/beta.ts";
import { sqrt } from "../special/elementary.ts";
import { inverseOfSquare, type Rows, reduce } from "./orthogonal.ts";

export interface Fit {
  readonly parameters: readonly number[];
  /** Standard error of each parameter, from the residuals' scatter and the slopes; infinite for
   * one that is held at an end of its range. */
  readonly errors: readonly number[];
  /** Covariance matrix of the parameters, row-major; 0 for those that are held. */
  readonly covariance: Float64Array;
  readonly residuals: readonly number[];
  /** Standard deviation of the residuals. */
  readonly deviation: number;
  readonly degrees: number;
  readonly steps: number;
  /** Parameters that stand at an end of their range and are pulled beyond it. */
  readonly held: readonly boolean[];
}

/** The fit that ends at `x` with residuals `r` and these slopes. */
export function summary(
  x: readonly number[],
  r: readonly number[],
  slopes: Rows,
  free: readonly boolean[],
  steps: number,
): Fit {
  const used = x.map((_, k) => k).filter((k) => free[k]);
  const { triangle } = reduce(onlyColumns(slopes, used), new Float64Array(r.length));
  const shape = inverseOfSquare(triangle, used.length);
  const degrees = r.length - used.length;
  const variance = r.reduce((sum, v) => sum + v * v, 0) / degrees;
  const covariance = new Float64Array(x.length * x.length);
  used.forEach((k, a) => {
    used.forEach((j, b) => {
      covariance[k * x.length + j] = variance * shape[a * used.length + b]!;
    });
  });
  return {
    parameters: x,
    errors: x.map((_, k) => (free[k] ? sqrt(covariance[k * x.length + k]!) : Infinity)),
    covariance,
    residuals: r,
    deviation: sqrt(variance),
    degrees,
    steps,
    held: free.map((isFree) => !isFree),
  };
}

/** Both ends of the confidence interval of each parameter, by Student's distribution. */
export function fitIntervals(fit: Fit, confidence = 0.95): Interval[] {
  const t = studentTailQuantile((1 - confidence) / 2, fit.degrees);
  return fit.parameters.map((v, k) => ({
    low: v - t * fit.errors[k]!,
    high: v + t * fit.errors[k]!,
  }));
}

function onlyColumns({ rows, columns, entries }: Rows, used: readonly number[]): Rows {
  const few = new Float64Array(rows * used.length);
  for (let i = 0; i < rows; i++) {
    used.forEach((k, a) => {
      few[i * used.length + a] = entries[i * columns + k]!;
    });
  }
  return { rows, columns: used.length, entries: few };
}

/**
 * Intervals of a fit's parameters from refits to resampled residuals: nothing is assumed of how
 * the measurements scatter but that all scatter alike. "An Introduction to the Bootstrap" (1993),
 * sections 9.4 (residuals) and 12.5 (intervals by Student's ratio), ISBN 978-0-412-04231-7.
 */
import { fail, TenfoldError } from "../../errors/problem.ts";
import { type Interval, quantile, sorted } from "../quantile.ts";
import { RandomStream } from "../sampling/random.ts";
import { type FitOptions, fitLeastSquares, type Residuals } from "./least-squares.ts";
import type { Fit } from "./summary.ts";

export interface Resampled {
  readonly intervals: readonly Interval[];
  readonly refits: number;
  /** Refits that found no minimum; they are left out. */
  readonly failed: number;
}

/** More than this share of refits without a minimum says that the fit is no fit. */
const MOST_FAILED = 0.1;

/**
 * @param fit what `fitLeastSquares` gave for the same residuals and options
 * @param refits how many; some hundreds for a 95 % interval
 * @throws TenfoldError `fit-not-settled` when more than a tenth of the refits fail
 */
export function resampledIntervals(
  residuals: Residuals,
  fit: Fit,
  draw: { readonly refits: number; readonly seed: number; readonly confidence?: number },
  options: FitOptions = {},
): Resampled {
  const { refits, seed, confidence = 0.95 } = draw;
  const stream = RandomStream.of(seed, "refits");
  const pool = poolOf(fit);
  const ratios: number[][] = fit.parameters.map(() => []);
  let failed = 0;
  for (let trial = 0; trial < refits; trial++) {
    const first = trial * pool.length;
    const drawn = pool.map((_, i) => pool[Math.floor(stream.uniform(first + i) * pool.length)]!);
    const shifted = (p: readonly number[]) =>
      residuals(p).map((r, i) => r - fit.residuals[i]! + drawn[i]!);
    const again = attempt(() => fitLeastSquares(shifted, fit.parameters, options));
    if (again === undefined) failed++;
    else {
      again.parameters.forEach((v, k) => {
        ratios[k]!.push((v - fit.parameters[k]!) / again.errors[k]!);
      });
    }
  }
  requireFew(failed, refits);
  const tail = (1 - confidence) / 2;
  const intervals = fit.parameters.map((best, k) => {
    const rising = sorted(ratios[k]!);
    const error = fit.errors[k]!;
    return {
      low: best - quantile(rising, 1 - tail) * error,
      high: best - quantile(rising, tail) * error,
    };
  });
  return { intervals, refits, failed };
}

/** The residuals with a mean of zero; their scale does not matter to Student's ratio. */
function poolOf({ residuals }: Fit): number[] {
  const mean = residuals.reduce((sum, r) => sum + r, 0) / residuals.length;
  return residuals.map((r) => r - mean);
}

function attempt(run: () => Fit): Fit | undefined {
  try {
    return run();
  } catch (error) {
    if (error instanceof TenfoldError) return undefined;
    throw error;
  }
}

function requireFew(failed: number, refits: number): void {
  if (failed <= MOST_FAILED * refits) return;
  fail({
    code: "fit-not-settled",
    what: "refits to resampled residuals find no minimum",
    got: `${failed} of ${refits}`,
    fix: "fit fewer parameters, or measure more points",
  });
}

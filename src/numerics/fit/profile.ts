/**
 * Intervals of a fit's parameters by refits: how far a parameter can be moved, all others fitted
 * anew, before the sum of squares rises as far as the confidence allows. Where the residuals bend
 * these are right and those from the slopes are not. "Nonlinear Regression Analysis and Its
 * Applications" (1988), section 6.1, ISBN 978-0-471-81643-0.
 */
import { TenfoldError } from "../../errors/problem.ts";
import type { Interval } from "../quantile.ts";
import { solve } from "../roots.ts";
import { studentTailQuantile } from "../special/beta.ts";
import { sqrt } from "../special/elementary.ts";
import { type FitOptions, fitLeastSquares, type Residuals } from "./least-squares.ts";
import type { Fit } from "./summary.ts";

/** The distance from the best value, in standard errors, to which an end is searched for. */
const FARTHEST = 40;
/** Ends are found to this share of a standard error. */
const PRECISE = 1e-3;
/** A refit may stop this far from its minimum, relative: the sum of squares knows its square. */
const REFIT = 1e-5;

/**
 * The interval of each parameter; an end is infinite, or that of the range, where the points do
 * not bound the parameter.
 *
 * @param fit what `fitLeastSquares` gave for the same residuals and options
 */
export function profileIntervals(
  residuals: Residuals,
  fit: Fit,
  confidence = 0.95,
  options: FitOptions = {},
): Interval[] {
  const most = studentTailQuantile((1 - confidence) / 2, fit.degrees);
  return fit.parameters.map((_, k) => {
    const profile = new Profile(residuals, fit, k, most, options);
    return { low: profile.end(-1), high: profile.end(1) };
  });
}

class Profile {
  private readonly residuals: Residuals;
  private readonly fit: Fit;
  private readonly k: number;
  private readonly most: number;
  private readonly options: FitOptions;

  constructor(residuals: Residuals, fit: Fit, k: number, most: number, options: FitOptions) {
    this.residuals = residuals;
    this.fit = fit;
    this.k = k;
    this.most = most;
    this.options = options;
  }

  /** One end of the interval: below the best value (-1) or above it (1). */
  end(side: -1 | 1): number {
    const { fit, k } = this;
    const best = fit.parameters[k]!;
    const limit = (side < 0 ? this.options.low : this.options.high)?.[k] ?? side * Infinity;
    const room = Math.abs(limit - best);
    if (room === 0) return limit;
    // A parameter that is held at an end has no standard error: its range is the measure, or its own size without one.
    const measure = room < Infinity ? room : Math.abs(best) || 1;
    const unit = fit.held[k] ? measure / FARTHEST : fit.errors[k]!;
    const reach = Math.min(room / unit, fit.held[k] ? FARTHEST * FARTHEST : FARTHEST);
    const excess = (distance: number) => this.rise(best + side * distance * unit) - this.most;
    let [inner, outer] = [0, Math.min(this.most, reach)];
    while (excess(outer) < 0) {
      if (outer >= reach) return limit;
      [inner, outer] = [outer, Math.min(1.5 * outer, reach)];
    }
    const distance = solve(excess, inner, outer, { relative: 0, absolute: PRECISE });
    return best + side * distance * unit;
  }

  /** Square root of the rise of the sum of squares over the variance, with the parameter there. */
  private rise(value: number): number {
    const { fit } = this;
    const variance = fit.deviation * fit.deviation;
    const least = variance * fit.degrees;
    return sqrt(Math.max(0, this.leastSquaresAt(value) - least) / variance);
  }

  private leastSquaresAt(value: number): number {
    const whole = (others: readonly number[]) => insert(others, this.k, value);
    const alone = (others: readonly number[]) => this.residuals(whole(others));
    const start = this.othersNear(value);
    return squares(alone(refitOf(alone, start, this.without()) ?? start));
  }

  /** Where the others are best by the slopes: the same start each time, so that it is a function. */
  private othersNear(value: number): number[] {
    const { parameters, covariance, held } = this.fit;
    const n = parameters.length;
    const own = covariance[this.k * n + this.k]!;
    const share = held[this.k] ? 0 : (value - parameters[this.k]!) / own;
    return parameters
      .map((best, j) => best + share * covariance[this.k * n + j]!)
      .filter((_, j) => j !== this.k);
  }

  /** The ranges of the others. */
  private without(): FitOptions {
    const { low, high } = this.options;
    const rest = (ends: readonly number[]) => ends.filter((_, j) => j !== this.k);
    return {
      ...this.options,
      relative: REFIT,
      ...(low && { low: rest(low) }),
      ...(high && { high: rest(high) }),
    };
  }
}

/** The best of the others; undefined where they cannot be fitted, as where all are held. */
function refitOf(residuals: Residuals, start: readonly number[], options: FitOptions) {
  try {
    return fitLeastSquares(residuals, start, options).parameters;
  } catch (error) {
    if (error instanceof TenfoldError) return undefined;
    throw error;
  }
}

function insert(others: readonly number[], k: number, value: number): number[] {
  return [...others.slice(0, k), value, ...others.slice(k)];
}

function squares(r: readonly number[]): number {
  return r.reduce((sum, v) => sum + v * v, 0);
}

/** Nonlinear least squares with intervals on the parameters. */
import { fail } from "../errors/problem.ts";
import { factorise, substitute } from "./ode/dense.ts";
import { studentTailQuantile } from "./special/beta.ts";

export interface FitOptions {
  readonly steps?: number;
  /** Ends when no parameter changes by more than this, relative to its size or 1e-12. */
  readonly relative?: number;
  /** Relative step of the differences that make the Jacobian. */
  readonly difference?: number;
}

export interface Fit {
  readonly parameters: readonly number[];
  /** Standard error of each parameter, from the residuals' scatter and the slopes. */
  readonly errors: readonly number[];
  /** Covariance matrix of the parameters, row-major. */
  readonly covariance: Float64Array;
  readonly residuals: readonly number[];
  /** Standard deviation of the residuals. */
  readonly deviation: number;
  readonly degrees: number;
  readonly steps: number;
}

type Residuals = (parameters: readonly number[]) => readonly number[];

/**
 * The parameters that minimise the sum of squared residuals, from a start near them: Levenberg and
 * Marquardt's method, scaled by the slopes, central differences.
 *
 * Fails when there are no more residuals than parameters, when the residuals do not depend on a
 * parameter, or when it does not settle.
 */
export function fitLeastSquares(
  residuals: Residuals,
  start: readonly number[],
  options: FitOptions = {},
): Fit {
  let x = [...start];
  let r = [...residuals(x)];
  if (r.length <= x.length) {
    fail({
      code: "too-few-points",
      what: "a fit needs more points than parameters",
      got: `${r.length} points for ${x.length} parameters`,
    });
  }
  let damping = 1e-3;
  for (let step = 1; step <= (options.steps ?? 200); step++) {
    const jacobian = slopes(residuals, x, r.length, options.difference ?? 1e-5);
    for (;;) {
      const change = dampedStep(jacobian, r, x.length, damping);
      const next = x.map((v, k) => v + change[k]!);
      const after = residuals(next);
      const better = squares(after) <= squares(r);
      const small = change.every((c, k) => {
        return Math.abs(c) <= (options.relative ?? 1e-10) * (Math.abs(x[k]!) + 1e-12);
      });
      if (better) {
        x = next;
        r = [...after];
        damping = Math.max(damping / 9, 1e-12);
      }
      if (small) return summary(residuals, x, r, step, options.difference ?? 1e-5);
      if (better) break;
      damping *= 11;
      if (!(damping < 1e30)) return summary(residuals, x, r, step, options.difference ?? 1e-5);
    }
  }
  return fail({
    code: "fit-not-settled",
    what: "the fit did not settle in the allowed number of steps",
    got: x.join(", "),
    fix: "start nearer, or fit fewer parameters",
  });
}

/** Both ends of the confidence interval of each parameter, by Student's distribution. */
export function fitIntervals(fit: Fit, confidence = 0.95): { low: number; high: number }[] {
  const t = studentTailQuantile((1 - confidence) / 2, fit.degrees);
  return fit.parameters.map((v, k) => ({
    low: v - t * fit.errors[k]!,
    high: v + t * fit.errors[k]!,
  }));
}

function squares(r: readonly number[]): number {
  const sum = r.reduce((total, v) => total + v * v, 0);
  return Number.isNaN(sum) ? Number.POSITIVE_INFINITY : sum;
}

/** Central differences: entry [i * parameters + k]. */
function slopes(f: Residuals, x: readonly number[], rows: number, relative: number): Float64Array {
  const jacobian = new Float64Array(rows * x.length);
  x.forEach((v, k) => {
    const h = relative * (Math.abs(v) || 1);
    const at = (sign: number) => f(x.map((w, j) => (j === k ? w + sign * h : w)));
    const [up, down] = [at(1), at(-1)];
    for (let i = 0; i < rows; i++) jacobian[i * x.length + k] = (up[i]! - down[i]!) / (2 * h);
  });
  return jacobian;
}

/** J'J, with its diagonal as scales. */
function normalMatrix(jacobian: Float64Array, n: number): Float64Array {
  const matrix = new Float64Array(n * n);
  for (let i = 0; i < jacobian.length; i += n) {
    for (let a = 0; a < n; a++) {
      for (let b = 0; b < n; b++) {
        matrix[a * n + b] = matrix[a * n + b]! + jacobian[i + a]! * jacobian[i + b]!;
      }
    }
  }
  return matrix;
}

function requireSlopes(scales: readonly number[]): void {
  const k = scales.findIndex((s) => !(s > 0 && Number.isFinite(s)));
  if (k < 0) return;
  fail({
    code: "fit-undetermined",
    what: "the points do not depend on a parameter of the fit",
    got: `parameter ${k + 1}`,
    fix: "leave that parameter out of the fit",
  });
}

/** Solves in units of each parameter's slope, so that scales of parameters don't matter. */
function scaledInverse(matrix: Float64Array, n: number, damping: number) {
  const scales = Array.from({ length: n }, (_, k) => Math.sqrt(matrix[k * n + k]!));
  requireSlopes(scales);
  const scaled = matrix.map((v, i) => v / (scales[Math.floor(i / n)]! * scales[i % n]!));
  for (let k = 0; k < n; k++) scaled[k * n + k] = 1 + damping;
  const factors = factorise(scaled, n);
  return (rhs: Float64Array): Float64Array => {
    const y = rhs.map((v, k) => v / scales[k]!);
    if (factors === undefined) return y.fill(Number.NaN);
    substitute(factors, y);
    return y.map((v, k) => v / scales[k]!);
  };
}

function dampedStep(
  jacobian: Float64Array,
  r: readonly number[],
  n: number,
  damping: number,
): Float64Array {
  const gradient = new Float64Array(n);
  r.forEach((v, i) => {
    for (let k = 0; k < n; k++) gradient[k] = gradient[k]! - v * jacobian[i * n + k]!;
  });
  return scaledInverse(normalMatrix(jacobian, n), n, damping)(gradient);
}

function summary(
  f: Residuals,
  x: readonly number[],
  r: readonly number[],
  steps: number,
  difference: number,
): Fit {
  const n = x.length;
  const degrees = r.length - n;
  const variance = squares(r) / degrees;
  const inverse = scaledInverse(normalMatrix(slopes(f, x, r.length, difference), n), n, 0);
  const covariance = new Float64Array(n * n);
  for (let k = 0; k < n; k++) {
    const unit = new Float64Array(n);
    unit[k] = 1;
    const column = inverse(unit);
    for (let j = 0; j < n; j++) covariance[j * n + k] = variance * column[j]!;
  }
  const errors = x.map((_, k) => Math.sqrt(covariance[k * n + k]!));
  return {
    parameters: x,
    errors,
    covariance,
    residuals: r,
    deviation: Math.sqrt(variance),
    degrees,
    steps,
  };
}

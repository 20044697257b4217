/**
 * The law of propagation of uncertainty of JCGM 100:2008 (Guide to the expression of uncertainty
 * in measurement): first order with correlations, its higher-order terms, degrees of freedom.
 */

/** A square matrix as rows. */
export type Matrix = readonly (readonly number[])[];

/** The covariance matrix of standard uncertainties u with correlation coefficients r. */
export function covarianceMatrix(u: readonly number[], r: Matrix): number[][] {
  return u.map((ui, i) => u.map((uj, j) => ui * uj * (i === j ? 1 : r[i]![j]!)));
}

/** Covariances of outputs from those of inputs: J C J' with J[output][input] (5.2.2). */
export function propagate(jacobian: Matrix, covariance: Matrix): number[][] {
  return jacobian.map((row) =>
    jacobian.map((other) => {
      let sum = 0;
      row.forEach((a, i) => {
        other.forEach((b, j) => {
          sum += a * b * covariance[i]![j]!;
        });
      });
      return sum;
    }),
  );
}

/** Standard uncertainties and correlation coefficients of a covariance matrix. */
export function correlations(covariance: Matrix): { u: number[]; r: number[][] } {
  const u = covariance.map((row, i) => Math.sqrt(row[i]!));
  return { u, r: covariance.map((row, i) => row.map((c, j) => c / (u[i]! * u[j]!))) };
}

/** Written out, because engines may round powers differently. */
function square(x: number): number {
  return x * x;
}

type Model = (x: readonly number[]) => number;

/** A finite difference: weights at multiples of the step. */
type Stencil = readonly (readonly [multiple: number, weight: number])[];

/** Five-point first and second derivatives, error of order h^4. */
const FIRST: Stencil = [
  [-2, 1 / 12],
  [-1, -8 / 12],
  [1, 8 / 12],
  [2, -1 / 12],
];
const SECOND: Stencil = [
  [-2, -1 / 12],
  [-1, 16 / 12],
  [0, -30 / 12],
  [1, 16 / 12],
  [2, -1 / 12],
];
/** Third derivative, error of order h^2. */
const THIRD: Stencil = [
  [-2, -1 / 2],
  [-1, 1],
  [1, -1],
  [2, 1 / 2],
];

/** The stencil applied to coordinate i, without dividing by powers of h. */
function differences(f: Model, i: number, h: number, stencil: Stencil): Model {
  return (x) =>
    stencil.reduce((sum, [multiple, weight]) => {
      const moved = [...x];
      moved[i] = moved[i]! + multiple * h;
      return sum + weight * f(moved);
    }, 0);
}

/**
 * Partial derivatives of f at x by five-point differences with steps `h` (such as the standard
 * uncertainties); error of order h^4.
 */
export function gradient(f: Model, x: readonly number[], h: readonly number[]): number[] {
  return x.map((_, i) => (h[i] === 0 ? 0 : differences(f, i, h[i]!, FIRST)(x) / h[i]!));
}

/**
 * The highest-order terms that the note to 5.1.2 adds to the variance for independent, symmetric
 * inputs: the sum over i, j of ((1/2) f_ij^2 + f_i f_ijj) u_i^2 u_j^2, by differences with steps
 * of u/20.
 */
export function higherOrderVariance(f: Model, x: readonly number[], u: readonly number[]): number {
  const h = u.map((v) => v / 20);
  const first = gradient(f, x, h);
  const scale = (i: number): number => (h[i] === 0 ? 0 : 20);
  let sum = 0;
  x.forEach((_, i) => {
    x.forEach((_other, j) => {
      const alongI = i === j ? f : differences(f, i, h[i]!, FIRST);
      const second = differences(alongI, j, h[j]!, i === j ? SECOND : FIRST)(x);
      const third = differences(alongI, j, h[j]!, i === j ? THIRD : SECOND)(x);
      const both = scale(i) * scale(j);
      sum += 0.5 * square(second * both) + first[i]! * u[i]! * third * both * scale(j);
    });
  });
  return sum;
}

/** Effective degrees of freedom of a sum of independent parts (Welch-Satterthwaite, G.4.1). */
export function effectiveDegrees(parts: readonly number[], degrees: readonly number[]): number {
  const variance = parts.reduce((sum, u) => sum + u * u, 0);
  const weighted = parts.reduce((sum, u, i) => sum + square(u * u) / degrees[i]!, 0);
  return (variance * variance) / weighted;
}

/** A straight line y = intercept + slope (x - reference) by least squares (H.3). */
export interface Line {
  readonly intercept: number;
  readonly slope: number;
  /** Standard deviation of the residuals. */
  readonly deviation: number;
  /** Covariance matrix of (intercept, slope). */
  readonly covariance: Matrix;
}

export function fitLine(
  x: readonly number[],
  y: readonly number[],
  reference = 0,
  weights: readonly number[] = x.map(() => 1),
): Line {
  const total = weights.reduce((a, b) => a + b, 0);
  const mean = (values: readonly number[]): number =>
    values.reduce((sum, v, i) => sum + v * weights[i]!, 0) / total;
  const [mx, my] = [mean(x), mean(y)];
  const sxx = mean(x.map((v) => square(v - mx))) * total;
  const slope = (mean(x.map((v, i) => (v - mx) * (y[i]! - my))) * total) / sxx;
  const residuals = x.map((v, i) => y[i]! - my - slope * (v - mx));
  const squares = mean(residuals.map((v) => v * v)) * total;
  const variance = squares / (x.length - 2);
  const from = mx - reference;
  const varianceOfSlope = variance / sxx;
  const covariance = [
    [variance / total + from * from * varianceOfSlope, -from * varianceOfSlope],
    [-from * varianceOfSlope, varianceOfSlope],
  ];
  return { intercept: my - slope * from, slope, deviation: Math.sqrt(variance), covariance };
}

/** Standard uncertainty of a half-width (4.3.7, 4.3.9), by the shape of the distribution. */
export const HALF_WIDTH_DIVISORS = {
  rectangular: Math.sqrt(3),
  triangular: Math.sqrt(6),
  arcsine: Math.SQRT2,
} as const;

/** Standard uncertainty of a trapezoid of half-width a whose top is `top` times as wide. */
export function trapezoidUncertainty(a: number, top: number): number {
  return a * Math.sqrt((1 + top * top) / 6);
}

/** The law of propagation against the worked examples of JCGM 100:2008 and closed forms. */
import { expect, test } from "vitest";
import {
  correlations,
  covarianceMatrix,
  effectiveDegrees,
  fitLine,
  gradient,
  HALF_WIDTH_DIVISORS,
  higherOrderVariance,
  propagate,
  trapezoidUncertainty,
} from "./first-order.ts";
import { kolmogorovDistance, kolmogorovTail } from "./kolmogorov.ts";

test("the calibration line of annex H.3", () => {
  const t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
  const b = [0.171, 0.169, 0.166, 0.159, 0.164, 0.165, 0.156, 0.157, 0.159, 0.161, 0.16];
  const line = fitLine(
    t,
    b.map((x) => -x),
    20,
  );
  // H.3.3: y1 = -0.1712, s = 0.0029, y2 = 0.002 18, s = 0.000 67, r = -0.930, s = 0.0035.
  expect(line.intercept).toBeCloseTo(-0.1712, 4);
  expect(line.slope).toBeCloseTo(0.00218, 5);
  expect(line.deviation).toBeCloseTo(0.0035, 4);
  const { u, r } = correlations(line.covariance);
  expect(u[0]).toBeCloseTo(0.0029, 4);
  expect(u[1]).toBeCloseTo(0.00067, 5);
  expect(r[0]![1]).toBeCloseTo(-0.93, 3);
  expect(r[1]![0]).toBe(r[0]![1]);
  expect(r[0]![0]).toBeCloseTo(1, 14);
});

test("a line through points of weights: a point twice as heavy counts as two", () => {
  const heavy = fitLine([0, 1, 3], [1, 2, 9], 2, [1, 2, 1]);
  const twice = fitLine([0, 1, 1, 3], [1, 2, 2, 9], 2);
  expect(heavy.slope).toBeCloseTo(twice.slope, 14);
  expect(heavy.intercept).toBeCloseTo(twice.intercept, 14);
  // By hand: means 1.25 and 3.5, sxx = 4.75, sxy = 13.5.
  expect(twice.slope).toBeCloseTo(13.5 / 4.75, 14);
  expect(twice.intercept).toBeCloseTo(3.5 + 0.75 * (13.5 / 4.75), 14);
  const exact = fitLine([1, 2, 4], [3, 5, 9]);
  expect(exact.slope).toBeCloseTo(2, 14);
  expect(exact.intercept).toBeCloseTo(1, 14);
  expect(exact.deviation).toBeLessThan(1e-15);
});

test("resistances measured together: annex H.2's rule with correlations", () => {
  // y = a x1 + b x2 with correlation r: u^2 = a^2 u1^2 + b^2 u2^2 + 2 a b r u1 u2 (5.2.2).
  const covariance = covarianceMatrix(
    [0.3, 0.5],
    [
      [1, -0.4],
      [-0.4, 1],
    ],
  );
  expect(covariance).toEqual([
    [0.09, 0.3 * 0.5 * -0.4],
    [0.5 * 0.3 * -0.4, 0.25],
  ]);
  const [[first, both], [, second]] = propagate(
    [
      [2, 3],
      [1, -1],
    ],
    covariance,
  ) as [[number, number], [number, number]];
  expect(first).toBeCloseTo(4 * 0.09 + 9 * 0.25 + 12 * -0.06, 14);
  expect(second).toBeCloseTo(0.09 + 0.25 + 2 * 0.06, 14);
  expect(both).toBeCloseTo(2 * 0.09 - 3 * 0.25 + (-2 + 3) * -0.06, 14);
});

test("degrees of freedom of G.4.1: the weakest part rules, equal parts add theirs", () => {
  expect(effectiveDegrees([3], [7])).toBeCloseTo(7, 13);
  expect(effectiveDegrees([2, 2], [5, 5])).toBeCloseTo(10, 13);
  expect(effectiveDegrees([1, 1e-6], [4, 100])).toBeCloseTo(4, 9);
  expect(effectiveDegrees([1, 2], [4, 9])).toBeCloseTo(25 / (1 / 4 + 16 / 9), 13);
});

test("half-widths by the shape of their law: 4.3.7, 4.3.9", () => {
  expect(1 / HALF_WIDTH_DIVISORS.rectangular).toBeCloseTo(Math.sqrt(1 / 3), 15);
  expect(1 / HALF_WIDTH_DIVISORS.triangular).toBeCloseTo(Math.sqrt(1 / 6), 15);
  expect(1 / HALF_WIDTH_DIVISORS.arcsine).toBeCloseTo(Math.sqrt(1 / 2), 15);
  expect(trapezoidUncertainty(2, 1)).toBeCloseTo(2 / Math.sqrt(3), 14);
  expect(trapezoidUncertainty(2, 0)).toBeCloseTo(2 / Math.sqrt(6), 14);
});

test("derivatives of polynomials up to the fourth degree are exact, and of what does not vary none", () => {
  const f = ([x, y]: readonly number[]) => x! ** 4 + 3 * x! * y! - y! ** 3;
  const [fx, fy] = gradient(f, [1.5, 2], [0.1, 0.2]);
  expect(fx).toBeCloseTo(4 * 1.5 ** 3 + 6, 11);
  expect(fy).toBeCloseTo(4.5 - 12, 11);
  expect(gradient(f, [1.5, 2], [0, 0.2])[0]).toBe(0);
  // (1/2 f_xx^2 + f_x f_xxx) u^4 for x^3 at 1: (36/2 + 3 * 6) u^4.
  const cube = ([x]: readonly number[]) => x! ** 3;
  expect(higherOrderVariance(cube, [1], [0.1]) / (36 * 1e-4)).toBeCloseTo(1, 6);
  expect(higherOrderVariance(cube, [1], [0])).toBe(0);
  // x y^2: f_xy^2 and f_x f_xyy for both orders, f_yy^2 / 2: by hand at (1, 1) with u = v = 0.1.
  const mixed = ([x, y]: readonly number[]) => x! * y! * y!;
  // i=x, j=y: 1/2 (2y)^2 + f_x f_xyy = 2 + 2; i=y, j=x: 2 + 0; i=j=y: 1/2 (2x)^2 + 0 = 2.
  expect(higherOrderVariance(mixed, [1, 1], [0.1, 0.1]) / 8e-4).toBeCloseTo(1, 6);
});

test("Kolmogorov's law has its published critical values, and its two series join", () => {
  // Smirnov's table: P = 0.05 at 1.3581, 0.01 at 1.6276; P = 0.5 at 0.8276.
  expect(kolmogorovTail(1.3581)).toBeCloseTo(0.05, 5);
  expect(kolmogorovTail(1.6276)).toBeCloseTo(0.01, 5);
  expect(kolmogorovTail(0.8276)).toBeCloseTo(0.5, 4);
  expect(kolmogorovTail(1 - 1e-12)).toBeCloseTo(kolmogorovTail(1 + 1e-12), 11);
  expect([kolmogorovTail(0), kolmogorovTail(-1)]).toEqual([1, 1]);
  expect(kolmogorovTail(0.05)).toBe(1);
  // The first term of both series far out.
  expect(kolmogorovTail(5) / (2 * Math.exp(-50))).toBeCloseTo(1, 12);
  const uniform = (x: number) => x;
  expect(kolmogorovDistance([0.5], uniform)).toBe(0.5);
  expect(kolmogorovDistance([0.1, 0.2, 0.9], uniform)).toBeCloseTo(2 / 3 - 0.2, 15);
  expect(kolmogorovDistance([0.8, 0.9], uniform)).toBe(0.8);
});

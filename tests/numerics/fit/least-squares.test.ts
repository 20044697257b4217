import { describe, expect, test } from "vitest";
import { fitIntervals, fitLeastSquares } from "../../../src/numerics/index.ts";
import { REFERENCE_SETS, residualsOf } from "./reference-sets.ts";

const [ADSORPTION] = REFERENCE_SETS;

/** The largest relative difference. */
const apart = (a: readonly number[], b: readonly number[]) =>
  Math.max(...a.map((v, k) => Math.abs(v / b[k]! - 1)));

describe("certified regressions", () => {
  for (const set of REFERENCE_SETS) {
    for (const start of set.starts) {
      test(`${set.name} from ${start.join(", ")}: six digits and more`, () => {
        const fit = fitLeastSquares(residualsOf(set), start);
        expect(apart(fit.parameters, set.certified)).toBeLessThan(1e-6);
        if (set.errors) expect(apart(fit.errors, set.errors)).toBeLessThan(1e-6);
        if (set.deviation) expect(fit.deviation / set.deviation).toBeCloseTo(1, 8);
        expect(fit.degrees).toBe(set.x.length - start.length);
      });
    }
  }

  test("the far start of the thermistor set is refused, not answered with any numbers", () => {
    const set = REFERENCE_SETS.find(({ name }) => name.startsWith("thermistor"))!;
    expect(() => fitLeastSquares(residualsOf(set), [2, 400_000, 25_000])).toThrow(
      /fit-not-settled/,
    );
  });
});

test("units of the parameters do not matter", () => {
  const { x, y } = ADSORPTION!;
  const inUnit = (unit: number) =>
    fitLeastSquares(
      ([a, b]) => x.map((v, i) => (a! / unit) * -Math.expm1(-b! * v) - y[i]!),
      [250 * unit, 0.0005],
    );
  expect(inUnit(1e12).parameters[0]! / 1e12 / inUnit(1).parameters[0]!).toBeCloseTo(1, 9);
});

test("a straight line has the closed form of its parameters, errors and intervals", () => {
  const x = [1, 2, 4, 7];
  const y = [2.1, 2.9, 5.2, 7.7];
  const fit = fitLeastSquares(([a, b]) => x.map((v, i) => a! + b! * v - y[i]!), [0, 1]);
  const [mx, my] = [3.5, (2.1 + 2.9 + 5.2 + 7.7) / 4];
  const sxx = x.reduce((sum, v) => sum + (v - mx) ** 2, 0);
  const slope = x.reduce((sum, v, i) => sum + (v - mx) * (y[i]! - my), 0) / sxx;
  const left = x.reduce((sum, v, i) => sum + (y[i]! - my - slope * (v - mx)) ** 2, 0);
  const variance = left / 2;
  const exact = [my - slope * mx, slope];
  const errors = [Math.sqrt(variance * (1 / 4 + mx ** 2 / sxx)), Math.sqrt(variance / sxx)];
  expect(apart(fit.parameters, exact)).toBeLessThan(1e-9);
  expect(apart(fit.errors, errors)).toBeLessThan(1e-8);
  expect(fit.covariance[1]! / ((-variance * mx) / sxx)).toBeCloseTo(1, 8);
  // Student's 97.5 % point with two degrees of freedom, from tables: 4.30265.
  const [, interval] = fitIntervals(fit);
  expect((interval!.high - slope) / errors[1]!).toBeCloseTo(4.30265, 4);
  expect((slope - interval!.low) / errors[1]!).toBeCloseTo(4.30265, 4);
});

describe("ranges", () => {
  // The unbounded minimum is (3, -2); the valley's axes are skew.
  const valley = ([a, b]: readonly number[]) => [
    a! - 3 + (b! + 2),
    2 * (b! + 2),
    a! - 3 - (b! + 2),
  ];

  test("a minimum inside them is found as without", () => {
    const fit = fitLeastSquares(valley, [0, 0], { low: [-9, -9], high: [9, 9] });
    expect(fit.parameters[0]).toBeCloseTo(3, 9);
    expect(fit.parameters[1]).toBeCloseTo(-2, 9);
    expect(fit.held).toEqual([false, false]);
  });

  test("a parameter that is pulled beyond its range is held there, and the others are best", () => {
    const skew = ([a, b]: readonly number[]) => [a! + b! - 4, a! - 5, b! - 1, 0.5 * a!];
    const fit = fitLeastSquares(skew, [0, 0], { high: [2, 9] });
    expect(fit.parameters[0]).toBe(2);
    expect(fit.held).toEqual([true, false]);
    // With a = 2 the sum (b - 2)^2 + (b - 1)^2 is least at 3/2.
    expect(fit.parameters[1]).toBeCloseTo(1.5, 9);
    expect(fit.errors[0]).toBe(Number.POSITIVE_INFINITY);
    expect(fit.degrees).toBe(3);
    expect(fit.errors[1]!).toBeCloseTo(fit.deviation / Math.SQRT2, 9);
  });

  test("no residual is ever asked for outside them", () => {
    const asked: number[] = [];
    fitLeastSquares(
      ([a]) => {
        asked.push(a!);
        return [a! - 7, a! - 8, 1];
      },
      [5],
      { low: [4], high: [6] },
    );
    expect(Math.min(...asked)).toBeGreaterThanOrEqual(4);
    expect(Math.max(...asked)).toBeLessThanOrEqual(6);
  });
});

test("too few points and parameters without effect are refused", () => {
  expect(() => fitLeastSquares(([a]) => [a!], [1])).toThrow(/too-few-points/);
  expect(() => fitLeastSquares(([a]) => [a! - 1, a! - 2, a! - 3], [1, 2])).toThrow(
    /fit-undetermined/,
  );
});

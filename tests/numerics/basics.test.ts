import fc from "fast-check";
import { expect, test } from "vitest";
import {
  covarianceOf,
  meanOf,
  quantile,
  shortestInterval,
  solve,
  sorted,
  sumOf,
  symmetricInterval,
  varianceOf,
} from "../../src/numerics/index.ts";
import { newton } from "./newton.ts";

test("a compensated sum keeps what plain addition loses", () => {
  expect(sumOf([1, 1e100, 1, -1e100])).toBe(2);
  expect(sumOf(Array.from({ length: 10 }, () => 0.1))).toBe(1);
  expect(sumOf([])).toBe(0);
});

test("the variance survives a large mean", () => {
  const values = [4, 7, 13, 16].map((x) => x + 1e9);
  expect(meanOf(values)).toBe(1e9 + 10);
  expect(varianceOf(values)).toBe(30);
  expect(covarianceOf([1, 2, 3], [2, 4, 6])).toBe(2);
});

test("quantiles are those of type 7: the worked values of a statistics language", () => {
  // R 4: quantile(c(15, 20, 35, 40, 50), c(0.05, 0.3, 0.4, 0.5, 1)) gives 16, 23, 29, 35, 50.
  const rising = [15, 20, 35, 40, 50];
  const want = [16, 23, 29, 35, 50];
  [0.05, 0.3, 0.4, 0.5, 1].forEach((p, i) => {
    expect(quantile(rising, p)).toBeCloseTo(want[i]!, 12);
  });
  expect(() => quantile([], 0.5)).toThrow(/too-few-draws/);
});

test("coverage intervals follow the supplement's order statistics", () => {
  // JCGM 101, 7.7: for M draws and p = 0.95, q = p M steps, r = (M - q)/2 below.
  const rising = Array.from({ length: 1000 }, (_, i) => i + 1);
  expect(symmetricInterval(rising, 0.95)).toEqual({ low: 25, high: 975 });
  const skewed = rising.map((r) => (r / 1000) ** 2);
  const shortest = shortestInterval(skewed, 0.95);
  expect(shortest.low).toBe(skewed[0]);
  expect(shortest.high).toBe(skewed[950]);
  // Dense at its upper end: the shortest interval is the highest; in two heaps, where it is dense.
  const mirrored = sorted(skewed.map((x) => -x));
  expect(shortestInterval(mirrored, 0.95)).toEqual({ low: -shortest.high, high: -skewed[0]! });
  expect(shortestInterval([0, 1, 2, 3, 10, 10.1, 10.2, 10.3, 20, 30], 0.3)).toEqual({
    low: 10,
    high: 10.3,
  });
  expect(() => symmetricInterval([1, 2], 0.95)).toThrow(/too-few-draws/);
  expect(() => shortestInterval(rising, 1)).toThrow(/bad-probability/);
});

test("sorting numbers is numeric, not by text", () => {
  expect(Array.from(sorted([10, 9, 2, 33, 1]))).toEqual([1, 2, 9, 10, 33]);
});

test("roots are found to the last digits, flat, steep or at an end", () => {
  expect(solve(Math.cos, 0, 3)).toBeCloseTo(Math.PI / 2, 15);
  expect(solve((x) => x ** 9, -1, 2, { absolute: 1e-30 })).toBeCloseTo(0, 6);
  expect(solve((x) => Math.log(x), 1e-9, 1e9)).toBeCloseTo(1, 14);
  expect(() => solve((x) => Math.log(x), 1e-300, 1e300)).toThrow(/root-not-found/);
  expect(solve((x) => x - 2, 2, 5)).toBe(2);
  expect(() => solve((x) => x * x + 1, -1, 1)).toThrow(/no-bracket/);
  expect(() => solve(() => Number.NaN, -1, 1)).toThrow(/no-bracket/);
});

test("a root is a root at every scale", () => {
  const scale = fc.double({ min: -9, max: 9, noNaN: true });
  const property = fc.property(
    scale,
    scale,
    fc.double({ min: 0.1, max: 9, noNaN: true }),
    (a, b, root) => {
      const unit = 10 ** b;
      const f = (x: number): number => 10 ** a * ((x / unit) ** 3 - root ** 3);
      const found = solve(f, 0, 100 * unit) / unit;
      expect(Math.abs(found / root - 1)).toBeLessThan(1e-14);
    },
  );
  fc.assert(property, { seed: 20261125, numRuns: 300 });
});

test("Newton's method stays inside its bracket where the tangent leaves it", () => {
  const f = (x: number) => ({ value: Math.atan(x - 3), slope: 1 / (1 + (x - 3) ** 2) });
  expect(newton(f, 90, -100, 100)).toBeCloseTo(3, 14);
  const falling = (x: number) => ({ value: Math.exp(-x) - 0.5, slope: -Math.exp(-x) });
  expect(newton(falling, 50, -10, 60)).toBeCloseTo(Math.LN2, 14);
});

import { expect, test } from "vitest";
import {
  gaussLegendre,
  integral,
  normalMean,
  normalTail,
  periodicMean,
} from "../../src/numerics/index.ts";
import { gradient, higherOrderVariance } from "./sampling/first-order.ts";

test("a rule of n points is exact to degree 2n - 1 and not beyond", () => {
  const rule = gaussLegendre(5);
  const of = (degree: number): number =>
    rule.nodes.reduce((sum, x, i) => sum + rule.weights[i]! * x ** degree, 0);
  for (let degree = 0; degree < 10; degree++) {
    expect(Math.abs(of(degree) * (degree + 1) - 1)).toBeLessThan(1e-14);
  }
  expect(Math.abs(of(10) * 11 - 1)).toBeGreaterThan(1e-7);
  expect(integral(Math.exp, -1, 2, 20)).toBeCloseTo(Math.E ** 2 - 1 / Math.E, 13);
});

test("means over a normal are right in the far tail: E[Q(a - b g)] = Q(a/sqrt(1 + b^2))", () => {
  for (const [a, b] of [
    [0, 1],
    [5, 0.5],
    [20, 1],
    [30, 2],
  ] as const) {
    const mean = normalMean((g) => normalTail(a - b * g));
    expect(Math.abs(mean / normalTail(a / Math.hypot(1, b)) - 1)).toBeLessThan(1e-12);
  }
});

test("a mean is right relative to itself: scaled by powers of two it has the same digits and takes as many values", () => {
  const scaled = (scale: number) => {
    let values = 0;
    const mean = normalMean((g) => {
      values++;
      return scale / (1 + (10 * g) ** 2);
    });
    return { mean: mean / scale, values };
  };
  const plain = scaled(1);
  for (const scale of [2 ** -60, 2 ** 60]) expect(scaled(scale)).toEqual(plain);
});

test("a periodic mean converges past any power: the Bessel function I0(3)", () => {
  // Digital Library of Mathematical Functions 10.32.1; I0(3) = 4.880792585865024.
  expect(periodicMean((t) => Math.exp(3 * Math.cos(t)))).toBeCloseTo(4.880792585865024, 13);
});

test("derivatives by differences are of fourth order, products exact", () => {
  const f = ([x, y]: readonly number[]): number => Math.exp(x!) * y!;
  const [fx, fy] = gradient(f, [0, 2], [1e-3, 1e-3]);
  expect(fx).toBeCloseTo(2, 11);
  expect(fy).toBeCloseTo(1, 12);
  // Variance of a product of independent zero-mean inputs: u1^2 u2^2, all from second order.
  const product = ([x, y]: readonly number[]): number => x! * y!;
  expect(higherOrderVariance(product, [0, 0], [0.3, 0.7])).toBeCloseTo(0.3 ** 2 * 0.7 ** 2, 12);
  const square = ([x]: readonly number[]): number => x! * x!;
  expect(higherOrderVariance(square, [0], [0.5])).toBeCloseTo(2 * 0.5 ** 4, 12);
});

import { describe, expect, test } from "vitest";
import * as product from "../../../src/numerics/index.ts";
import * as lambert from "./lambert.ts";
import reference from "./reference.json" with { type: "json" };

/** The product's functions, and those that other tests check it with. */
const special = { ...product, ...lambert };

/** Largest relative error accepted: a few units in the last place, more where exp(-600) is involved. */
const TOLERANCE: Record<string, number> = {
  erf: 1e-15,
  erfc: 1e-15,
  erfcx: 1e-15,
  normalTail: 1e-15,
  logNormalTail: 2e-15,
  normalQuantile: 1e-15,
  logGamma: 1e-14,
  incompleteGamma: 2e-13,
  incompleteBeta: 2e-13,
  binomialTail: 3e-14,
  logBinomialTail: 3e-14,
  poissonTail: 1e-13,
  studentTailQuantile: 2e-14,
  chiSquaredQuantile: 2e-14,
  lambertW: 1e-14,
  lambertWLower: 1e-14,
};

type Many = (...x: number[]) => number | { lower: number; upper: number };

function relativeError(got: number, want: number): number {
  if (want === 0) return Math.abs(got);
  return Math.abs(got - want) / Math.abs(want);
}

describe("special functions agree with a general arbitrary-precision library (mpmath)", () => {
  for (const [name, rows] of Object.entries(reference.values)) {
    test(`${name} is right to ${TOLERANCE[name]} over its whole range, tails included`, () => {
      const f = (special as unknown as Record<string, Many>)[name]!;
      for (const row of rows as number[][]) {
        const pair = name.startsWith("incomplete");
        const inputs = row.slice(0, pair ? -2 : -1);
        const got = f(...inputs);
        const want = row.slice(inputs.length);
        const values = typeof got === "number" ? [got] : [got.lower, got.upper];
        values.forEach((value, i) => {
          const where = `${name}(${inputs}) is ${value}, not ${want[i]}`;
          expect(relativeError(value, want[i]!), where).toBeLessThan(TOLERANCE[name]!);
        });
      }
    });
  }
});

test("tails and quantiles undo each other from 1e-300 to one half", () => {
  for (let exponent = -300; exponent < 0; exponent += 0.37) {
    const tail = 0.5 * 10 ** exponent;
    const z = special.normalTailQuantile(tail);
    expect(relativeError(special.normalTail(z), tail)).toBeLessThan(1e-15 * (4 + z * z));
  }
});

test("a tail too small for a double is carried by its logarithm", () => {
  // ln of the tail at 100 by its asymptotic series, Digital Library of Mathematical Functions 7.12.1: in 1/x^2.
  const series = 1 - 1e-4 + 3e-8 - 15e-12 + 105e-16;
  const want = -5000 - Math.log(100) - 0.5 * Math.log(2 * Math.PI) + Math.log(series);
  expect(special.normalTail(100)).toBe(0);
  expect(relativeError(special.logNormalTail(100), want)).toBeLessThan(1e-15);
});

test("limits and places outside the domain give limits and NaN", () => {
  expect(special.normalQuantile(0)).toBe(Number.NEGATIVE_INFINITY);
  expect(special.normalQuantile(1)).toBe(Number.POSITIVE_INFINITY);
  expect(special.normalQuantile(-0.1)).toBeNaN();
  expect(special.erfc(Number.NEGATIVE_INFINITY)).toBe(2);
  expect(special.erfc(Number.POSITIVE_INFINITY)).toBe(0);
  expect(special.erfcx(-30)).toBe(Number.POSITIVE_INFINITY);
  expect(special.lambertW(-0.4)).toBeNaN();
  expect(special.lambertWLower(0.1)).toBeNaN();
  expect(special.binomialTail(10, 0, 0.5)).toBe(1);
  expect(special.binomialTail(10, 11, 0.5)).toBe(0);
  expect(special.binomialCumulative(10, -1, 0.5)).toBe(0);
  expect(special.poissonTail(3, 0)).toBe(0);
});

test("the terms of a count sum to one", () => {
  const binomial = Array.from({ length: 101 }, (_, k) => special.binomialTerm(100, k, 0.37));
  expect(Math.abs(special.sumOf(binomial) - 1)).toBeLessThan(5e-14);
  const clustered = Array.from({ length: 3000 }, (_, k) => special.clusteredTerm(k, 5, 0.7));
  expect(Math.abs(special.sumOf(clustered) - 1)).toBeLessThan(5e-14);
});

test("W(exp(y)) does not overflow: w + ln w = y up to 1e300", () => {
  for (const y of [-5, 0, 1, 499, 501, 1e5, 1e300]) {
    const w = special.lambertWOfExp(y);
    expect(Math.abs(w + Math.log(w) - y)).toBeLessThan(1e-15 * (1 + Math.abs(y)) * 4);
  }
});

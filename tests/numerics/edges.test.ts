/** Roots, quantiles, integrals and sums at their ends: what they return, refuse and how much work they do. */
import { expect, test } from "vitest";
import { type Problem, TenfoldError } from "../../src/errors/problem.ts";
import {
  covarianceOf,
  gaussLegendre,
  integral,
  meanOf,
  normalMean,
  periodicMean,
  quantile,
  shortestInterval,
  solve,
  sumOf,
  symmetricInterval,
  varianceOf,
} from "../../src/numerics/index.ts";
import { newton } from "./newton.ts";

function refusal(work: () => unknown): Problem {
  try {
    work();
  } catch (error) {
    if (error instanceof TenfoldError) return error.problems[0]!;
    throw error;
  }
  throw new Error("nothing was refused");
}

test("a sum keeps what is lost in what was lost", () => {
  expect(sumOf([1e100, 1e50, 1, -1e50, -1e100])).toBe(1);
  expect(sumOf([1, 1e50, 1e100, -1e50, -1e100])).toBe(1);
  expect(sumOf([1e50, 1, 1e100, -1e50, -1e100])).toBe(1);
});

test("means and covariances of little or nothing", () => {
  expect(meanOf([])).toBeNaN();
  expect(meanOf([3])).toBe(3);
  expect(varianceOf([3])).toBeNaN();
  expect(varianceOf([1, 2])).toBe(0.5);
  expect(covarianceOf([1, 2, 4], [3, 1, 2])).toBeCloseTo(-0.5, 15);
});

test("a root at an end is that end, and needs no more than both", () => {
  let calls = 0;
  const counted = (f: (x: number) => number) => (x: number) => {
    calls++;
    return f(x);
  };
  expect(
    solve(
      counted((x) => x - 5),
      2,
      5,
    ),
  ).toBe(5);
  expect(
    solve(
      counted((x) => x - 2),
      2,
      5,
    ),
  ).toBe(2);
  expect(calls).toBe(4);
});

test("a root is searched as finely as was asked for, with less work where that is coarse", () => {
  const f = (x: number) => Math.exp(x) - 2;
  const work = (options: object) => {
    let calls = 0;
    const root = solve(
      (x) => {
        calls++;
        return f(x);
      },
      0,
      10,
      options,
    );
    return { calls, error: Math.abs(root - Math.LN2) };
  };
  const [coarse, middle, fine] = [{ relative: 1e-3 }, { absolute: 1e-8 }, {}].map(work);
  expect(coarse!.error).toBeLessThan(2 * 1e-3 * Math.LN2);
  expect(middle!.error).toBeLessThan(1e-8);
  expect(fine!.error).toBeLessThan(3e-16);
  expect(coarse!.calls).toBeLessThan(fine!.calls);
  // Bisection would take more than fifty.
  expect(fine!.calls).toBeLessThan(16);
});

test("a search that cannot end says where it was", () => {
  const f = (x: number) => (x > 0.3 ? 1 : -1);
  expect(solve(f, 0, 1)).toBeCloseTo(0.3, 15);
  expect(refusal(() => solve(f, 0, 1, { steps: 5 }))).toMatchObject({
    code: "root-not-found",
    what: "the search for a root did not end in the allowed number of steps",
    fix: "narrow the bracket, or search in the logarithm of the variable",
  });
  // Bisection five times over: the bracket is 1/32.
  const [from, to] = refusal(() => solve(f, 0, 1, { steps: 5 }))
    .got!.split(" to ")
    .map(Number);
  expect(Math.abs(from! - to!)).toBe(1 / 32);
  expect(refusal(() => solve((x) => x + 2, -1, 1))).toEqual({
    code: "no-bracket",
    what: "the function has no change of sign between the two ends",
    got: "1 at -1, 3 at 1",
  });
  expect(refusal(() => solve((x) => (Math.abs(x) < 0.9 ? Number.NaN : x), -1, 1)).code).toBe(
    "no-bracket",
  );
});

test("ends of any size have signs: products that overflow or vanish do not hide a root", () => {
  expect(solve((x) => 1e300 * (x - 1), 0, 3)).toBe(1);
  expect(solve((x) => 1e-300 * (x - 1), 0, 3)).toBe(1);
  expect(solve((x) => Math.sign(x - 1) * Number.POSITIVE_INFINITY || 0, 0.5, 3)).toBeCloseTo(1, 15);
});

test("Newton's method rises and falls, hits exactly, and stops where it was told to", () => {
  const line = (slope: number) => (x: number) => ({ value: slope * (x - 2), slope });
  expect(newton(line(1), 7, 0, 10)).toBe(2);
  expect(newton(line(-3), 7, 0, 10)).toBe(2);
  expect(newton(line(-3), 2, 0, 10)).toBe(2);
  let calls = 0;
  const cubic = (x: number) => {
    calls++;
    return { value: x ** 3 - 2, slope: 3 * x * x };
  };
  expect(Math.abs(newton(cubic, 100, 0, 100) / Math.cbrt(2) - 1)).toBeLessThan(4e-16);
  const fine = calls;
  calls = 0;
  const coarse = newton(cubic, 100, 0, 100, 0.01);
  expect(Math.abs(coarse / Math.cbrt(2) - 1)).toBeLessThan(1e-3);
  expect(calls).toBeLessThan(fine - 1);
  // Without a useful slope it bisects.
  const steps = (x: number) => ({ value: x < 0.7 ? -1 : 1, slope: 0 });
  expect(newton(steps, 0.1, 0, 1)).toBeCloseTo(0.7, 15);
  // What no step can fulfil ends after some hundred all the same.
  expect(newton(steps, 0.1, 0, 1, -1)).toBeCloseTo(0.7, 15);
});

test("quantiles outside of 0 to 1 are the ends, and of one value that value", () => {
  expect(quantile([1, 5, 9], -0.5)).toBe(1);
  expect(quantile([1, 5, 9], 1.5)).toBe(9);
  expect(quantile([4], 0.3)).toBe(4);
  expect(quantile([1, 5, 9], 0.75)).toBe(7);
  expect(refusal(() => quantile([], 0.5))).toEqual({
    code: "too-few-draws",
    what: "a quantile needs at least one value",
    got: "none",
  });
});

test("coverage intervals of few values, by the supplement's rules", () => {
  // JCGM 101, 7.7: q = pM if whole, else the whole part of pM + 1/2; r = (M - q)/2, or (M - q + 1)/2.
  const rising = [10, 20, 30, 40, 50];
  expect(symmetricInterval(rising, 0.5)).toEqual({ low: 10, high: 40 });
  expect(symmetricInterval(rising, 0.4)).toEqual({ low: 20, high: 40 });
  expect(symmetricInterval(rising, 0.29)).toEqual({ low: 20, high: 30 });
  // Equally short ones: the lowest.
  expect(shortestInterval(rising, 0.4)).toEqual({ low: 10, high: 30 });
  expect(shortestInterval([1, 2, 4, 8, 16], 0.4)).toEqual({ low: 1, high: 4 });
  // On a scale of logarithms the first steps are long.
  expect(shortestInterval([0.01, 2, 4, 8, 15], 0.4, Math.log)).toEqual({ low: 4, high: 15 });
  for (const probability of [0, 1, -1, Number.NaN]) {
    expect(refusal(() => symmetricInterval(rising, probability))).toEqual({
      code: "bad-probability",
      what: "a coverage probability must lie between 0 and 1",
      got: String(probability),
    });
  }
  expect(refusal(() => shortestInterval([1, 2], 0.95))).toEqual({
    code: "too-few-draws",
    what: "there are too few draws for this coverage probability",
    got: "2 draws for 0.95",
    fix: "take more draws",
  });
});

test("small Gauss-Legendre rules have their published nodes and weights", () => {
  // Digital Library of Mathematical Functions 3.5.15 and table 3.5.1, moved from (-1, 1) to (0, 1).
  const near = (got: ArrayLike<number>, want: readonly number[]) => {
    expect(got.length).toBe(want.length);
    want.forEach((x, k) => {
      expect(Math.abs(got[k]! - x)).toBeLessThan(4 * 2 ** -53);
    });
  };
  const half = (x: number) => (1 + x) / 2;
  near(gaussLegendre(1).nodes, [0.5]);
  near(gaussLegendre(1).weights, [1]);
  near(gaussLegendre(2).nodes, [half(-1 / Math.sqrt(3)), half(1 / Math.sqrt(3))]);
  near(gaussLegendre(2).weights, [0.5, 0.5]);
  near(gaussLegendre(3).nodes, [half(-Math.sqrt(0.6)), 0.5, half(Math.sqrt(0.6))]);
  near(gaussLegendre(3).weights, [5 / 18, 4 / 9, 5 / 18]);
  expect(gaussLegendre(3)).toBe(gaussLegendre(3));
  expect(integral((x) => x ** 3, 1, 3, 2)).toBeCloseTo(20, 13);
  expect(integral((x) => Math.cos(50 * x), 0, 1)).toBeCloseTo(Math.sin(50) / 50, 14);
});

test("means over a normal have the moments of the normal law, and what has a step is refused", () => {
  expect(normalMean(() => 1)).toBeCloseTo(1, 14);
  expect(normalMean((g) => g * g)).toBeCloseTo(1, 13);
  expect(normalMean((g) => g ** 4 + g)).toBeCloseTo(3, 12);
  expect(Math.abs(normalMean((g) => Math.exp(3 * g)) / Math.exp(4.5) - 1)).toBeLessThan(1e-13);
  // Narrower than the first steps: only halving finds it. E[exp(-a g^2)] = 1/sqrt(1 + 2a).
  const narrow = normalMean((g) => Math.exp(-500 * g * g));
  expect(Math.abs(narrow * Math.sqrt(1001) - 1)).toBeLessThan(1e-12);
  let calls = 0;
  normalMean((g) => {
    calls++;
    return g * g;
  }, 0.1);
  // Two rules are never enough: 38/0.5 points on each side, and three halvings.
  expect(calls).toBe(2 * 38 * 2 * 8 + 1);
  expect(refusal(() => normalMean((g) => (g > 0.123 ? 1 : 0)))).toEqual({
    code: "integral-not-converged",
    what: "the mean over a normal spread did not settle",
    fix: "make the noise larger, or leave it out where it is negligible",
  });
});

test("a periodic mean doubles its points until two agree", () => {
  const count = (f: (angle: number) => number, relative?: number) => {
    let calls = 0;
    const mean = periodicMean((t) => {
      calls++;
      return f(t);
    }, relative);
    return { calls, mean };
  };
  expect(count(() => 2)).toEqual({ calls: 16, mean: 2 });
  expect(count((t) => Math.cos(t) ** 2).mean).toBeCloseTo(0.5, 15);
  // A rule of n points sees the n-th harmonic as a constant: 8 points see 2, 16 points see 1.
  const harmonic = count((t) => 1 + Math.cos(8 * t));
  expect(harmonic.mean).toBeCloseTo(1, 14);
  expect(harmonic.calls).toBe(32);
  // The jump from 2 pi to 0 costs an n-th: the doubling ends before two agree.
  const jump = count(Math.sqrt);
  expect(jump.calls).toBe(8 * 2 ** 18);
  expect(jump.mean).toBeCloseTo((2 / 3) * Math.sqrt(2 * Math.PI), 5);
  expect(count(Math.sqrt, 0.1).calls).toBeLessThan(100);
});

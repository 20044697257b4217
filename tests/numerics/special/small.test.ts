/** Special functions where they have closed forms, at the ends of their domains and beyond (textbook identities). */
import { describe, expect, test } from "vitest";
import {
  binomialCumulative,
  binomialTail,
  binomialTerm,
  chiSquaredQuantile,
  clusteredTail,
  clusteredTerm,
  gamma,
  incompleteBeta,
  incompleteGamma,
  logBinomialTail,
  logGamma,
  poissonTail,
  studentTailQuantile,
} from "../../../src/numerics/index.ts";
import { studentTail } from "../../../src/numerics/special/beta.ts";
import { logBinomialTerm } from "../../../src/numerics/special/discrete.ts";
import {
  deviance,
  inverseUpperGamma,
  logPoissonTerm,
  stirlingCorrection,
} from "../../../src/numerics/special/gamma.ts";
import { ceil, floor, round } from "../../../src/numerics/special/whole.ts";
import { lambertW, lambertWLower } from "./lambert.ts";

function near(got: number, want: number, relative = 1e-14, what = ""): void {
  if (want === 0 || !Number.isFinite(want)) expect(got + 0, what).toBe(want + 0);
  else expect(Math.abs(got / want - 1), `${what}: ${got}, not ${want}`).toBeLessThan(relative);
}

const factorial = (n: number): number => (n < 2 ? 1 : n * factorial(n - 1));
const choose = (n: number, k: number) => factorial(n) / factorial(k) / factorial(n - k);
const sum = (from: number, to: number, of: (k: number) => number) => {
  let all = 0;
  for (let k = from; k <= to; k++) all += of(k);
  return all;
};

describe("the gamma function", () => {
  test("is the factorial at whole numbers, and has the square root of pi in it at halves", () => {
    for (let n = 1; n <= 30; n++) near(gamma(n), factorial(n - 1), 1e-13, `gamma(${n})`);
    for (let n = 1; n < 20; n++) expect(gamma(n)).toBe(factorial(n - 1));
    near(gamma(0.5), Math.sqrt(Math.PI));
    near(gamma(2.5), 0.75 * Math.sqrt(Math.PI));
    near(gamma(171), factorial(170), 1e-12);
    // Digital Library of Mathematical Functions, 5.4(ii).
    near(gamma(1 / 3), 2.678938534707747, 1e-14);
    near(logGamma(10), Math.log(362880));
  });

  test("has no number at its poles, nor beyond what a double holds", () => {
    for (const x of [0, -1, -2, -3, -10, 172, Number.NaN]) {
      expect(Number.isFinite(gamma(x)), `gamma(${x})`).toBe(false);
    }
  });

  test("Stirling's correction joins at every size: ln x! less its formula", () => {
    const formula = (x: number) => (x + 0.5) * Math.log(x) - x + 0.5 * Math.log(2 * Math.PI);
    for (const x of [1, 2, 5, 9, 10, 15, 16, 20]) {
      const lost = Math.log(factorial(x)) - formula(x);
      expect(Math.abs(stirlingCorrection(x) - lost)).toBeLessThan(2e-14);
    }
    near(stirlingCorrection(1000), 1 / 12000 - 1 / 360e9, 1e-12);
  });

  test("deviances are x ln(x/m) + m - x, also where that has lost its digits", () => {
    near(deviance(2, 1), 2 * Math.LN2 - 1);
    near(deviance(1, 3), 2 - Math.log(3));
    near(deviance(1.1, 1), 1.1 * Math.log1p(0.1) - 0.1, 1e-13);
    near(deviance(0.9, 1), 0.9 * Math.log1p(-0.1) + 0.1, 1e-13);
    expect(deviance(5, 5)).toBe(0);
    // (x - m)^2 / 2m - (x - m)^3 / 6m^2 to leading orders.
    near(deviance(1e6 + 1, 1e6), 1 / 2e6 - 1 / 6e12, 1e-12);
  });
});

describe("incomplete functions", () => {
  test("of one are exponentials and powers", () => {
    for (const x of [1e-9, 0.3, 1, 1.9, 2.1, 30]) {
      near(incompleteGamma(1, x).upper, Math.exp(-x), 1e-13);
      near(incompleteGamma(1, x).lower, -Math.expm1(-x), 1e-13);
    }
    for (const x of [1e-9, 0.2, 0.5, 0.8]) {
      near(incompleteBeta(3.5, 1, x).lower, x ** 3.5, 1e-13);
      near(incompleteBeta(1, 2.5, x).upper, (1 - x) ** 2.5, 1e-13);
      near(incompleteBeta(1, 2.5, x).lower, -Math.expm1(2.5 * Math.log1p(-x)), 1e-12);
    }
    // The complement that is given counts: x itself has lost it.
    near(incompleteBeta(1, 2, 1, 1e-20).upper, 1e-40, 1e-13);
  });

  test("end at nothing and all", () => {
    expect(incompleteGamma(2, 0)).toEqual({ lower: 0, upper: 1 });
    expect(incompleteGamma(2, -1)).toEqual({ lower: 0, upper: 1 });
    expect(incompleteGamma(2, 1 / 0)).toEqual({ lower: 1, upper: 0 });
    expect(incompleteBeta(2, 3, 0)).toEqual({ lower: 0, upper: 1 });
    expect(incompleteBeta(2, 3, -1)).toEqual({ lower: 0, upper: 1 });
    expect(incompleteBeta(2, 3, 1)).toEqual({ lower: 1, upper: 0 });
    expect(incompleteBeta(2, 3, 2)).toEqual({ lower: 1, upper: 0 });
  });

  test("the law of two degrees of freedom is an exponential one", () => {
    for (const upper of [1e-300, 1e-9, 0.3, 0.5, 0.7, 0.999999]) {
      near(chiSquaredQuantile(upper, 2), -2 * Math.log(upper), 1e-9);
      near(inverseUpperGamma(1, upper), -Math.log(upper), 1e-9);
    }
    expect(chiSquaredQuantile(1, 3)).toBe(0);
    expect(chiSquaredQuantile(1.5, 3)).toBe(0);
    expect(chiSquaredQuantile(0, 3)).toBe(Number.POSITIVE_INFINITY);
    expect(chiSquaredQuantile(-1, 3)).toBe(Number.POSITIVE_INFINITY);
  });
});

test("Student's law of one and of two degrees of freedom, and its quantiles", () => {
  for (const t of [-50, -1, -0.1, 0, 0.3, 1, 7, 1e5]) {
    near(
      studentTail(t, 1),
      t > 0 ? Math.atan(1 / t) / Math.PI : 0.5 - Math.atan(t) / Math.PI,
      1e-13,
    );
    const root = Math.sqrt(2 + t * t);
    const two = t > 0 ? 1 / (root * (root + t)) : 0.5 - t / (2 * root);
    near(studentTail(t, 2), two, 1e-13);
  }
  expect(studentTailQuantile(0.5, 3)).toBe(0);
  for (const tail of [1e-9, 0.025, 0.4, 0.6, 0.975]) {
    near(studentTailQuantile(tail, 1), 1 / Math.tan(Math.PI * tail), 1e-12);
    near(studentTailQuantile(1 - tail, 4), -studentTailQuantile(tail, 4), 1e-7);
  }
});

describe("counts", () => {
  test("binomial ones of any few are sums of their terms", () => {
    for (const n of [1, 2, 7, 12]) {
      for (const p of [0, 0.001, 0.25, 0.5, 0.9, 1]) {
        const term = (k: number) => choose(n, k) * p ** k * (1 - p) ** (n - k);
        for (let k = -1; k <= n + 1; k++) {
          const what = `${n}, ${k}, ${p}`;
          const own = k < 0 || k > n ? 0 : term(k);
          const tail = sum(Math.max(k, 0), n, term);
          near(binomialTerm(n, k, p), own, 1e-13, what);
          near(Math.exp(logBinomialTerm(n, k, p)), own, 1e-13, what);
          near(binomialTail(n, k, p), k <= 0 ? 1 : tail, 1e-13, what);
          near(Math.exp(logBinomialTail(n, k, p)), k <= 0 ? 1 : tail, 1e-13, what);
          near(binomialCumulative(n, k, p), k >= n ? 1 : sum(0, k, term), 1e-13, what);
        }
      }
    }
  });

  test("binomial ones of many are those of a normal library's values at the mode, and all there are", () => {
    // All of them: p^n, also where more than forty are wanted.
    near(binomialTerm(60, 60, 0.5), 2 ** -60, 1e-13);
    near(logBinomialTerm(5000, 5000, 0.1), 5000 * Math.log(0.1), 1e-14);
    near(binomialTerm(100, 50, 0.5), choose(100, 50) / 2 ** 100, 1e-12);
    near(binomialTerm(150, 45, 0.3), choose(150, 45) * 0.3 ** 45 * 0.7 ** 105, 1e-12);
    // Products of few beyond the range of a double on the way.
    near(logBinomialTerm(1e9, 40, 1e-15), 40 * Math.log(1e-6) - Math.log(factorial(40)), 1e-8);
    near(logBinomialTerm(1e17, 40, 0.5) / (1e17 * Math.log(0.5)), 1, 1e-12);
  });

  test("Poisson ones of any few are sums of their terms", () => {
    for (const mean of [1e-9, 0.3, 1, 4, 9.5]) {
      const term = (k: number) => (Math.exp(-mean) * mean ** k) / factorial(k);
      for (const k of [0, 1, 2, 4, 5, 9, 10, 20]) {
        const what = `${k} of ${mean}`;
        near(Math.exp(logPoissonTerm(k, mean)), term(k), 1e-13, what);
        near(poissonTail(k, mean), sum(k, 120, term), 1e-12, what);
      }
      expect(poissonTail(-1, mean)).toBe(1);
    }
    expect(poissonTail(1, 0)).toBe(0);
    expect(poissonTail(0, 0)).toBe(1);
    expect(logPoissonTerm(0, 7)).toBe(-7);
  });

  test("clustered ones with one cluster parameter of one are geometric", () => {
    for (const mean of [0.01, 1, 30, 5000]) {
      const ratio = mean / (mean + 1);
      for (const k of [0, 1, 2, 7, 29, 31, 900, 1000, 1001, 4000]) {
        const power = Math.exp(k * Math.log1p(-1 / (mean + 1)));
        if (power < 1e-290) continue;
        near(clusteredTerm(k, mean, 1), (1 - ratio) * power, 3e-11, `${k} of ${mean}`);
        near(clusteredTail(k, mean, 1), power, 3e-11, `${k} of ${mean}`);
      }
    }
    // With two: (1 - r)^2 (k + 1) r^k, whose tail is r^k (1 + k (1 - r)).
    for (const [k, mean] of [
      [1, 3],
      [3, 3],
      [4, 3],
      [20, 3],
    ] as const) {
      const r = mean / (mean + 2);
      near(clusteredTerm(k, mean, 2), (1 - r) ** 2 * (k + 1) * r ** k, 1e-13);
      near(clusteredTail(k, mean, 2), r ** k * (1 + k * (1 - r)), 1e-12);
    }
    expect([clusteredTerm(0, 0, 1), clusteredTerm(3, 0, 1)]).toEqual([1, 0]);
    expect([clusteredTail(0, 5, 1), clusteredTail(-3, 5, 1)]).toEqual([1, 1]);
    // Beyond a million the law is continuous: with one, exp(-k / mean).
    near(clusteredTail(2e6, 1e6, 1), Math.exp(-2), 1e-5);
    near(clusteredTail(3, 2e6, 1), Math.exp(-3 / 2e6), 1e-5);
  });
});

test("W at its branch point, and of what has a whole answer", () => {
  near(lambertW(Math.E), 1);
  near(lambertW(2 * Math.exp(2)), 2);
  near(lambertW(-0.5 * Math.exp(-0.5)), -0.5);
  near(lambertW(0.1 * Math.exp(0.1)), 0.1);
  near(lambertWLower(-2 * Math.exp(-2)), -2);
  near(lambertWLower(-20 * Math.exp(-20)), -20);
  near(lambertWLower(-1.1 * Math.exp(-1.1)), -1.1, 1e-13);
  // By its series about the branch point: x loses the digits that w has beyond 1e-16 / (1 + w).
  for (const w of [-0.985, -0.99, -0.995, -0.999]) {
    near(lambertW(w * Math.exp(w)), w, 1e-13);
    near(lambertWLower((-2 - w) * Math.exp(-2 - w)), -2 - w, 1e-13);
  }
  expect(lambertW(-1 / Math.E)).toBeCloseTo(-1, 7);
  expect(lambertWLower(-1 / Math.E)).toBeCloseTo(-1, 7);
  expect(lambertW(0)).toBe(0);
  expect(lambertW(1 / 0)).toBe(1 / 0);
  expect(lambertWLower(0)).toBeNaN();
  expect(lambertWLower(-0.5)).toBeNaN();
});

test("rounding to whole numbers forgives one part in 1e12, and no more", () => {
  for (const [x, up, down, whole] of [
    [3, 3, 3, 3],
    [3 + 2e-12, 3, 3, 3],
    [3 - 2e-12, 3, 3, 3],
    [3 + 4e-12, 4, 3, 3],
    [3 - 4e-12, 3, 2, 3],
    [1000 + 0.9e-9, 1000, 1000, 1000],
    [1000 + 1.1e-9, 1001, 1000, 1000],
    [0.9e-12, 0, 0, 0],
    [1.1e-12, 1, 0, 0],
    [2.5, 3, 2, 3],
    [2.4999, 3, 2, 2],
    [-2.5, -2, -3, -3],
    [-2.4999, -2, -3, -2],
    [-3 + 2e-12, -3, -3, -3],
    [-3 + 4e-12, -2, -3, -3],
    [-3 - 4e-12, -3, -4, -3],
    [0, 0, 0, 0],
    [1e300, 1e300, 1e300, 1e300],
  ] as const) {
    expect([ceil(x) + 0, floor(x) + 0, round(x) + 0], `${x}`).toEqual([up, down, whole]);
  }
  expect([ceil, floor, round].map((f) => f(Number.NaN))).toEqual([NaN, NaN, NaN]);
  expect([ceil, floor, round].map((f) => f(-1 / 0))).toEqual([-1 / 0, -1 / 0, -1 / 0]);
});

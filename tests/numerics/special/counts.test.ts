/** Counts where products, sums and integrals take over from each other: identities of textbooks, to rounding. */
import { expect, test } from "vitest";
import { incompleteBeta } from "../../../src/numerics/special/beta.ts";
import {
  binomialCumulative,
  binomialTail,
  binomialTerm,
  clusteredTail,
  clusteredTerm,
  logBinomialTail,
  logBinomialTerm,
  poissonTail,
} from "../../../src/numerics/special/discrete.ts";

function near(got: number, want: number, relative: number): void {
  expect(Math.abs(got / want - 1), `${got}, not ${want}`).toBeLessThan(relative);
}

test("terms of few counts are products: a tiny one keeps all its digits", () => {
  near(binomialTerm(10, 5, 1e-30), 252e-150, 1e-15);
  // C(50, 40) = 10272278170.
  near(binomialTerm(50, 40, 2 ** -17), 10272278170 * 2 ** -680 * (1 - 2 ** -17) ** 10, 5e-15);
  // Six of a count with two: 6 r^5 (1 - r)^2.
  near(clusteredTerm(5, 2e-30, 2), 6e-150, 2e-15);
  // The product would overflow before what it is multiplied with vanishes.
  expect(binomialTerm(1e300, 5, 0.5)).toBe(0);
});

test("half of a fair count lies above its middle: 1/2 - P(middle)/2, of any size", () => {
  for (const [n, digits] of [
    [1e4, 1e-11],
    [1e6, 1e-11],
    [1e8, 1e-11],
    // By an integral, whose slope, 4e-14, is known to 1e-16: to 5e-10 of the standard deviation.
    [1e14, 2e-9],
  ] as const) {
    const middle = Math.exp(logBinomialTerm(n, n / 2, 0.5));
    near(binomialTail(n, n / 2 + 1, 0.5), 0.5 - middle / 2, digits);
    near(binomialCumulative(n, n / 2 - 1, 0.5), 0.5 - middle / 2, digits);
  }
});

test("ends of huge counts are certain", () => {
  const n = 1e14;
  expect([binomialTail(n, 0, 0.5), binomialTail(n, n + 1, 0.5)]).toEqual([1, 0]);
  expect([binomialCumulative(n, n, 0.5), binomialCumulative(n, -1, 0.5)]).toEqual([1, 0]);
  expect(logBinomialTail(n, 0, 0.5)).toBe(0);
  // Where the term at the end is below any double the other side counts.
  expect([binomialCumulative(1e4, 9000, 0.1), binomialTail(1e4, 1000, 0.9)]).toEqual([1, 1]);
});

test("far from the middle of a huge count terms fall by a constant ratio: 1/(1 - 2/3) at 3/5", () => {
  const [n, k] = [1e13, 6e12];
  const ratio = logBinomialTail(n, k, 0.5) - logBinomialTerm(n, k, 0.5);
  // The logarithms are 2e11: their last digit is 3e-5.
  expect(Math.abs(ratio - Math.log(3))).toBeLessThan(2e-4);
});

test("clustered tails are incomplete beta functions, also where no count at all is less than any double", () => {
  // P(X >= k) = I_p(k, alpha), p = mean / (mean + alpha): Digital Library of Mathematical Functions, 8.17.24.
  for (const [mean, alpha] of [
    [3, 0.4],
    [30, 7.5],
    [1000, 0.3],
    [1000, 2000],
    [1000, 60.5],
    [4000, 1e4],
    [2e4, 300],
  ] as const) {
    const spread = Math.sqrt(mean + (mean * mean) / alpha);
    for (const x of [-2, -0.5, 0, 0.5, 3]) {
      const k = Math.max(1, Math.round(mean + x * spread));
      const { lower } = incompleteBeta(k, alpha, mean / (mean + alpha), alpha / (mean + alpha));
      near(clusteredTail(k, mean, alpha), lower, 2e-11);
    }
  }
  expect(clusteredTail(1, 1e5, 1e9)).toBe(1);
});

test("hardly clustered counts are Poisson's", () => {
  for (const k of [1, 900, 1000, 1001, 1100]) {
    near(clusteredTail(k, 1000, 1e13), poissonTail(k, 1000), 1e-8);
  }
});

/** Counts of any size take no time, and join the sums that are taken one by one. */
import { expect, test } from "vitest";
import {
  binomialCumulative,
  binomialTail,
  clusteredTail,
  logBinomialTail,
  poissonTail,
} from "../../../src/numerics/special/discrete.ts";
import { normalTail } from "../../../src/numerics/special/normal.ts";

test("tails of huge counts follow the normal law that they tend to", () => {
  // Central limit theorem; the first correction is of the order of skewness, here below 1e-9.
  for (const x of [-3, -0.5, 0, 0.5, 3]) {
    const [n, p] = [1e22, 0.3];
    const sigma = Math.sqrt(n * p * (1 - p));
    const k = Math.round(n * p + x * sigma);
    expect(binomialTail(n, k, p) / normalTail(x) - 1).toBeCloseTo(0, 4);
    expect(binomialCumulative(n, k, p) / normalTail(-x) - 1).toBeCloseTo(0, 4);
    const mean = 1e24;
    const at = mean + x * 1e12;
    expect(poissonTail(at, mean) / normalTail(x) - 1).toBeCloseTo(0, 3);
  }
});

test("the integral joins the sum: a mean on each side of the seam gives the same tail at the same distance", () => {
  const tail = (mean: number, x: number) =>
    poissonTail(Math.round(mean + x * Math.sqrt(mean)), mean);
  for (const x of [0.2, 1, 2.5, 5]) {
    // The tail at a fixed distance moves by the skewness, some 1e-6 of it, between both.
    expect(tail(1.0001e12, x) / tail(0.9999e12, x) - 1).toBeCloseTo(0, 4);
  }
});

test("no count of any size takes a thousand times as long as one of a thousand", () => {
  const sizes = [1, 1e3, 1e9, 1e16, 1e100, 1e300];
  const took = sizes.map((n) => {
    const before = process.cpuUsage();
    for (const k of [...sizes, n / 10, n / 2, 0.999 * n].map(Math.ceil)) {
      for (const p of [1e-300, 1e-9, 0.1, 0.5, 0.999999, 1 - 1e-16]) {
        const all = [
          binomialTail(n, k, p),
          binomialCumulative(n, k, p),
          logBinomialTail(n, k, p),
          poissonTail(k, n * p),
          clusteredTail(k, n * p, 0.3),
          clusteredTail(k, n * p, 1e6),
        ];
        for (const value of all)
          expect(Number.isNaN(value), `${n}, ${k}, ${p}: ${all}`).toBe(false);
      }
    }
    return process.cpuUsage(before).user;
  });
  expect(Math.max(...took)).toBeLessThan(1000 * took[1]!);
});

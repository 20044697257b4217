import { describe, expect, test } from "vitest";
import {
  fitIntervals,
  fitLeastSquares,
  normalQuantile,
  profileIntervals,
  RandomStream,
  resampledIntervals,
} from "../../../src/numerics/index.ts";
import { REFERENCE_SETS, residualsOf } from "./reference-sets.ts";

const X = [1, 2, 4, 7, 8, 9, 11, 15];
const line = (y: readonly number[]) => (p: readonly number[]) =>
  X.map((v, i) => p[0]! + p[1]! * v - y[i]!);
const Y = [2.1, 2.9, 5.2, 7.7, 9.2, 9.6, 12.3, 15.8];

describe("intervals by refits of the other parameters", () => {
  test("of a straight line are Student's", () => {
    const fit = fitLeastSquares(line(Y), [0, 1]);
    const student = fitIntervals(fit);
    for (const [k, { low, high }] of profileIntervals(line(Y), fit).entries()) {
      const width = student[k]!.high - student[k]!.low;
      expect(Math.abs(low - student[k]!.low)).toBeLessThan(1e-3 * width);
      expect(Math.abs(high - student[k]!.high)).toBeLessThan(1e-3 * width);
    }
  });

  test("of one bent parameter are where the sum of squares has risen by t^2 variances", () => {
    // Residuals exp(a) - y: in closed form exp(a) is the mean, with a symmetric interval.
    const y = [3, 4, 5, 4.5];
    const bent = ([a]: readonly number[]) => y.map((v) => Math.exp(a!) - v);
    const fit = fitLeastSquares(bent, [0]);
    const [interval] = profileIntervals(bent, fit);
    const mean = 4.125;
    // Student's 97.5 % point with three degrees of freedom, from tables: 3.18245.
    const half = (3.18245 * fit.deviation) / 2;
    expect(Math.exp(interval!.low) / (mean - half)).toBeCloseTo(1, 3);
    expect(Math.exp(interval!.high) / (mean + half)).toBeCloseTo(1, 3);
  });

  test("of the certified oxygen demand are skew: the far side is the longer", () => {
    const set = REFERENCE_SETS.find(({ name }) => name.startsWith("oxygen"))!;
    const fit = fitLeastSquares(residualsOf(set), [100, 0.75]);
    const [demand, rate] = profileIntervals(residualsOf(set), fit, 0.68);
    const longer = ({ low, high }: { low: number; high: number }, best: number) =>
      high - best > best - low;
    expect(longer(demand!, fit.parameters[0]!)).toBe(true);
    expect(longer(rate!, fit.parameters[1]!)).toBe(true);
  });

  test("end at a range where the points do not bound a parameter", () => {
    // Saturated: any rate above a few is as good as any other.
    const flat = ([a, b]: readonly number[]) =>
      [3, 4, 5, 6, 7].map((x, i) => a! * -Math.expm1(-b! * x) - [1, 1.01, 0.99, 1.005, 0.995][i]!);
    const ranges = { low: [0.1, 0.1], high: [9, 5] };
    const fit = fitLeastSquares(flat, [1.1, 1], ranges);
    const [, rate] = profileIntervals(flat, fit, 0.95, ranges);
    expect(rate!.high).toBe(5);
    expect(rate!.low).toBeGreaterThan(0.5);
  });
});

describe("intervals by resampled residuals", () => {
  test("of a straight line are Student's within what 2000 refits can say, the same every time", () => {
    const fit = fitLeastSquares(line(Y), [0, 1]);
    const draw = { refits: 2000, seed: 1, confidence: 0.8 };
    const resampled = resampledIntervals(line(Y), fit, draw);
    expect(resampledIntervals(line(Y), fit, draw)).toEqual(resampled);
    expect(resampled.failed).toBe(0);
    for (const [k, { low, high }] of resampled.intervals.entries()) {
      const student = fitIntervals(fit, 0.8)[k]!;
      expect((high - low) / (student.high - student.low)).toBeGreaterThan(0.85);
      expect((high - low) / (student.high - student.low)).toBeLessThan(1.15);
    }
  });

  test("lie around the best value also where the law leaves residuals with a mean", () => {
    // A line through the origin for points on one that is not: by hand b = sum xy / sum xx.
    const y = X.map((v, i) => 2 * v + 1.5 + [0.3, -0.2, 0.1, -0.3, 0.2, -0.1, 0.25, -0.25][i]!);
    const through = ([b]: readonly number[]) => X.map((v, i) => b! * v - y[i]!);
    const fit = fitLeastSquares(through, [1]);
    const mean = fit.residuals.reduce((sum, r) => sum + r, 0) / X.length;
    expect(Math.abs(mean)).toBeGreaterThan(0.3);
    const draw = { refits: 400, seed: 5 };
    const [{ low, high }] = resampledIntervals(through, fit, draw).intervals as [
      { low: number; high: number },
    ];
    const middle = (low + high) / 2 - fit.parameters[0]!;
    expect(Math.abs(middle)).toBeLessThan(0.5 * fit.errors[0]!);
  });

  test("hold the truth about as often as they say, with noise that is not normal", () => {
    // Laplace's distribution: exponential both ways. 200 trials at 90 %: 180 of each parameter.
    const truth = [1, 1];
    const inside = [0, 0];
    for (let trial = 0; trial < 200; trial++) {
      const noise = RandomStream.of(20261125, "laplace", String(trial));
      const y = X.map((v, i) => {
        const u = noise.uniform(i) - 0.5;
        return truth[0]! + truth[1]! * v - 0.3 * Math.sign(u) * Math.log(1 - 2 * Math.abs(u));
      });
      const fit = fitLeastSquares(line(y), [0, 1]);
      const draw = { refits: 200, seed: trial, confidence: 0.9 };
      for (const [k, { low, high }] of resampledIntervals(line(y), fit, draw).intervals.entries()) {
        if (low <= truth[k]! && truth[k]! <= high) inside[k]!++;
      }
    }
    // Three binomial standard deviations of 4.2, and what eight points cost a resampling.
    for (const count of inside) {
      expect(count).toBeGreaterThan(180 - 13 - 8);
      expect(count).toBeLessThan(180 + 13);
    }
  });

  test("a fit that cannot be repeated is refused", () => {
    // The far points alone hold the rate; without them refits find no minimum.
    const noise = new RandomStream(3, "none");
    const y = X.map((_, i) => 1 + 0.3 * normalQuantile(noise.uniform(i)));
    let calls = 0;
    const failing = (p: readonly number[]) => {
      calls++;
      return calls > 200 ? y.map(() => Number.NaN) : line(y)(p);
    };
    const fit = fitLeastSquares(failing, [0, 1]);
    calls = 200;
    expect(() => resampledIntervals(failing, fit, { refits: 20, seed: 1 })).toThrow(
      /fit-not-settled/,
    );
  });
});

test("in 200 noisy trials of a bent law both ways' 95 % intervals hold the truth as they say", () => {
  // ln t = ln t0 - ln sinh(V/V0): switching times over ten decades, noise of 0.2 in ln t.
  const voltages = [0.6, 0.8, 1, 1.2, 1.4, 1.6, 1.8, 2];
  const law = (v: number, [logT, scale]: readonly number[]): number =>
    logT! - Math.log(Math.sinh(v / scale!));
  const truth = [-2, 0.12];
  const inside = { slopes: [0, 0], refits: [0, 0] };
  for (let trial = 0; trial < 200; trial++) {
    const noise = RandomStream.of(20261125, "law", String(trial));
    const measured = voltages.map((v, i) => law(v, truth) + 0.2 * normalQuantile(noise.uniform(i)));
    const residuals = (p: readonly number[]) => voltages.map((v, i) => law(v, p) - measured[i]!);
    const fit = fitLeastSquares(residuals, [0, 0.2], { low: [-60, 0.01], high: [60, 9] });
    const ways = { slopes: fitIntervals(fit), refits: profileIntervals(residuals, fit) };
    for (const way of ["slopes", "refits"] as const) {
      for (const [k, { low, high }] of ways[way].entries()) {
        if (low <= truth[k]! && truth[k]! <= high) inside[way][k]!++;
      }
    }
  }
  // 190 expected of each, binomial standard deviation 3.08: from 181 to 198 with 99.6 %.
  for (const count of [...inside.slopes, ...inside.refits]) {
    expect(count).toBeGreaterThanOrEqual(181);
    expect(count).toBeLessThanOrEqual(198);
  }
});

import { expect, test } from "vitest";
import {
  fitIntervals,
  fitLeastSquares,
  normalQuantile,
  RandomStream,
} from "../../src/numerics/index.ts";

/** Certified sets of the "Statistical Reference Datasets: nonlinear regression" (2003). */
const ADSORPTION = {
  x: [77.6, 114.9, 141.1, 190.8, 239.9, 289, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760],
  y: [
    10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47, 81.78,
  ],
};

test("certified results of a reference regression are met to seven digits from the far start", () => {
  const residuals = ([a, b]: readonly number[]): number[] =>
    ADSORPTION.x.map((x, i) => a! * -Math.expm1(-b! * x) - ADSORPTION.y[i]!);
  for (const start of [
    [500, 0.0001],
    [250, 0.0005],
  ]) {
    const fit = fitLeastSquares(residuals, start);
    expect(fit.parameters[0]! / 2.3894212918e2).toBeCloseTo(1, 7);
    expect(fit.parameters[1]! / 5.5015643181e-4).toBeCloseTo(1, 7);
    expect(fit.errors[0]! / 2.7070075241).toBeCloseTo(1, 6);
    expect(fit.errors[1]! / 7.2668688436e-6).toBeCloseTo(1, 6);
    expect(fit.deviation / 1.018787633e-1).toBeCloseTo(1, 8);
    expect(fit.degrees).toBe(12);
  }
});

test("noisy switching times give back their parameters within 95 % intervals in 200 trials", () => {
  // ln t = ln t0 - ln sinh(V/V0): the law of `disturb_kinetics`, noise of 0.2 in ln t.
  const voltages = [0.6, 0.8, 1, 1.2, 1.4, 1.6, 1.8, 2];
  const law = (v: number, [logT, scale]: readonly number[]): number =>
    logT! - Math.log(Math.sinh(v / scale!));
  const truth = [-2, 0.12];
  const noise = new RandomStream(20261125, "noise");
  let inside = 0;
  for (let trial = 0; trial < 200; trial++) {
    const measured = voltages.map((v, i) => {
      return law(v, truth) + 0.2 * normalQuantile(noise.uniform(trial * 8 + i));
    });
    const fit = fitLeastSquares((p) => voltages.map((v, i) => law(v, p) - measured[i]!), [0, 0.2]);
    for (const [k, { low, high }] of fitIntervals(fit).entries()) {
      if (low <= truth[k]! && truth[k]! <= high) inside++;
    }
  }
  // 400 intervals at 0.95: 380, within five binomial standard deviations (correlated pairs: 6.2).
  expect(Math.abs(inside - 380)).toBeLessThan(31);
});

test("units of the parameters do not matter", () => {
  const inUnit = (unit: number) =>
    fitLeastSquares(
      ([a, b]) => ADSORPTION.x.map((x, i) => (a! / unit) * -Math.expm1(-b! * x) - ADSORPTION.y[i]!),
      [250 * unit, 0.0005],
    );
  expect(inUnit(1e12).parameters[0]! / 1e12 / inUnit(1).parameters[0]!).toBeCloseTo(1, 9);
});

test("too few points and parameters without effect are refused", () => {
  expect(() => fitLeastSquares(([a]) => [a!], [1])).toThrow(/too-few-points/);
  expect(() => fitLeastSquares(([a]) => [a! - 1, a! - 2, a! - 3], [1, 2])).toThrow(
    /fit-undetermined/,
  );
});

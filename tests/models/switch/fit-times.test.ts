import { describe, expect, test } from "vitest";
import type { FittedParameter } from "../../../src/models/switch/fit.ts";
import { fittable, type Specimen } from "../../../src/models/switch/fit-parameters.ts";
import { fitSwitchingTimes, specimenTime } from "../../../src/models/switch/fit-times.ts";
import { DIRECT } from "../../../src/models/switch/geometry.ts";
import { normalQuantile, RandomStream } from "../../../src/numerics/index.ts";
import { EV, PLAUSIBLE } from "./geometry-examples.ts";

const TRUTH: Specimen = { geometry: PLAUSIBLE, circuit: DIRECT };
const FREE = ["hop_energy", "hop_distance"] as const;
const VOLTAGES = [0.5, 1, 1.5, 2, 2.5, 3, -1, -2];
const START: Specimen = {
  ...TRUTH,
  geometry: { ...PLAUSIBLE, hop_energy: 0.9 * EV, hop_distance: 0.2e-9 },
};

/** Points made by a specimen, with a scatter in ln t. */
function pointsOf(specimen: Specimen, voltages: readonly number[], scatter = 0, key = "") {
  const noise = RandomStream.of(20261125, "times", key);
  return voltages.map((voltage, i) => ({
    voltage,
    time:
      specimenTime(specimen, { voltage }) * Math.exp(scatter * normalQuantile(noise.uniform(i))),
  }));
}

const off = (value: number, truth: number) => Math.abs(value / truth - 1);
const of = (parameters: readonly FittedParameter[], name: string) =>
  parameters.find((one) => one.name === name)!;

describe("without noise a fit from afar gives back", () => {
  test("the energy of a hop and its distance to 1e-7", () => {
    const fit = fitSwitchingTimes(pointsOf(TRUTH, VOLTAGES), START, FREE);
    expect(off(fit.geometry.hop_energy, PLAUSIBLE.hop_energy)).toBeLessThan(1e-7);
    expect(off(fit.geometry.hop_distance, PLAUSIBLE.hop_distance)).toBeLessThan(1e-7);
    expect(fit.deviation).toBeLessThan(1e-6);
  });

  test("the series resistance that slows the writes at a low resistance", () => {
    const behind = { series_resistance: 30e3, current_limit: Number.POSITIVE_INFINITY };
    const truth = { geometry: PLAUSIBLE, circuit: behind };
    const start = { ...START, circuit: { ...behind, series_resistance: 5e3 } };
    const fit = fitSwitchingTimes(pointsOf(truth, VOLTAGES), start, [
      "hop_energy",
      "series_resistance",
      "hop_distance",
    ]);
    expect(off(fit.circuit.series_resistance, 30e3)).toBeLessThan(1e-5);
    expect(off(fit.geometry.hop_energy, PLAUSIBLE.hop_energy)).toBeLessThan(1e-6);
    // The same points without their circuit give another energy.
    const without = fitSwitchingTimes(pointsOf(truth, VOLTAGES), START, FREE, { quick: true });
    expect(off(without.geometry.hop_energy, PLAUSIBLE.hop_energy)).toBeGreaterThan(0.01);
  });

  test("both gaps, each inside its range", () => {
    const geometry = { ...PLAUSIBLE, least_gap: 0.4e-9, most_gap: 1.4e-9 };
    const start = { ...TRUTH, geometry };
    const fit = fitSwitchingTimes(pointsOf(TRUTH, VOLTAGES), start, ["least_gap", "most_gap"]);
    expect(off(fit.geometry.least_gap, PLAUSIBLE.least_gap)).toBeLessThan(1e-6);
    expect(off(fit.geometry.most_gap, PLAUSIBLE.most_gap)).toBeLessThan(1e-6);
  });

  test("energy and attempt frequency, told apart by points at several temperatures", () => {
    const points = [260, 300, 360].flatMap((temperature) =>
      [1, 2, 2.6].map((voltage) => {
        const time = specimenTime(TRUTH, { voltage, temperature });
        return { voltage, temperature, time };
      }),
    );
    const free = ["hop_energy", "attempt_frequency"] as const;
    const start = { ...TRUTH, geometry: { ...PLAUSIBLE, hop_energy: 1 * EV } };
    const fit = fitSwitchingTimes(points, { ...start }, free);
    expect(off(fit.geometry.hop_energy, PLAUSIBLE.hop_energy)).toBeLessThan(1e-7);
    expect(off(fit.geometry.attempt_frequency, PLAUSIBLE.attempt_frequency)).toBeLessThan(1e-5);
  });
});

test("in 200 noisy trials the 95 % intervals hold the truth as often as they say", () => {
  const inside = [0, 0];
  for (let trial = 0; trial < 200; trial++) {
    const points = pointsOf(TRUTH, VOLTAGES, 0.3, String(trial));
    const { parameters } = fitSwitchingTimes(points, START, FREE, { quick: true });
    FREE.forEach((name, k) => {
      const { low, high } = of(parameters, name).bySlopes!;
      if (low <= PLAUSIBLE[name] && PLAUSIBLE[name] <= high) inside[k]!++;
    });
  }
  // 190 expected of each, binomial standard deviation 3.08: from 181 to 198 with 99.6 %
  // probability. An interval that always holds would be too wide.
  for (const count of inside) {
    expect(count).toBeGreaterThanOrEqual(181);
    expect(count).toBeLessThanOrEqual(198);
  }
});

test("resampled intervals lie around the best value and are as wide as those by slopes", () => {
  const points = pointsOf(TRUTH, VOLTAGES, 0.3, "resampling");
  const settings = { refits: 100, seed: 4, quick: true };
  const { parameters, refits } = fitSwitchingTimes(points, START, FREE, settings);
  expect(refits).toEqual({ made: 100, failed: 0 });
  for (const { value, bySlopes, byResampling } of parameters) {
    expect(byResampling!.low).toBeLessThan(value);
    expect(byResampling!.high).toBeGreaterThan(value);
    const width = (interval: { low: number; high: number }) =>
      Math.log(interval.high / interval.low);
    expect(width(byResampling!) / width(bySlopes!)).toBeGreaterThan(0.5);
    expect(width(byResampling!) / width(bySlopes!)).toBeLessThan(2);
  }
});

test("a parameter that the points do not hold is told from one that they do", () => {
  // Points of a switch whose series resistance is nothing beside its own.
  const circuit = { series_resistance: 1, current_limit: Number.POSITIVE_INFINITY };
  const points = pointsOf(TRUTH, VOLTAGES, 0.3, "held");
  const fit = fitSwitchingTimes(points, { ...START, circuit }, [
    "hop_energy",
    "hop_distance",
    "series_resistance",
  ]);
  const held = of(fit.parameters, "series_resistance");
  // Held at an end of its range, or with an interval that reaches it.
  const open = held.held || held.byRefits!.low <= 1.0001e-3;
  expect(open).toBe(true);
  // The end of its range, a milliohm.
  expect(held.value).toBeGreaterThan(0.999e-3);
  expect(held.byRefits!.low).toBeGreaterThan(0.999e-3);
  expect(of(fit.parameters, "hop_energy").held).toBe(false);
});

test("a gap that is pulled past the other is held short of it", () => {
  // A way that takes next to no time is next to none.
  const instant = pointsOf(TRUTH, [1, 1.5, 2]).map((p) => ({ ...p, time: p.time * 1e-3 }));
  const least = fitSwitchingTimes(instant, TRUTH, ["least_gap"], { quick: true });
  expect(least.geometry.least_gap).toBeLessThanOrEqual((PLAUSIBLE.most_gap / 1.02) * (1 + 1e-12));
  expect(least.geometry.least_gap).toBeGreaterThan(PLAUSIBLE.least_gap);
  const most = fitSwitchingTimes(instant, TRUTH, ["most_gap"], { quick: true });
  expect(most.geometry.most_gap).toBeGreaterThanOrEqual(PLAUSIBLE.least_gap * 1.02 * (1 - 1e-12));
  expect(most.geometry.most_gap).toBeLessThan(PLAUSIBLE.most_gap);
});

test("what cannot be fitted is refused with the nearest name, or with what to state", () => {
  expect(() => fittable(["hop_energi"])).toThrow("can't be fitted");
  const points = pointsOf(TRUTH, VOLTAGES);
  expect(() => fitSwitchingTimes(points, START, ["series_resistance"])).toThrow(/above zero/);
  expect(() => fitSwitchingTimes(points, START, ["thermal_resistance"])).toThrow(/above zero/);
  expect(() => fitSwitchingTimes([{ voltage: 1, time: 0 }], START, FREE)).toThrow(/out-of-range/);
  expect(() => fitSwitchingTimes([{ voltage: 0, time: 1 }], START, FREE)).toThrow(/out-of-range/);
});

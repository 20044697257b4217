/**
 * Write current of a magnetic junction from its retention: closed forms, the equation of motion, the
 * Fokker-Planck equation, and a published device.
 */
import { readFileSync } from "node:fs";
import { load } from "js-yaml";
import { describe, expect, test } from "vitest";
import { ALTERNATIVES } from "../../../src/catalogue/index.ts";
import { checkSheet } from "../../../src/formulas/index.ts";
import { overdriveOf } from "../../../src/models/switch/spin-overdrive.ts";
import {
  barrierOfRetention,
  barrierSlope,
  retentionOfBarrier,
  spinTorque,
} from "../../../src/models/switch/spin-torque.ts";
import { evaluateOne, type Values } from "../evaluate.ts";
import { growth, unwritten } from "./macrospin.ts";

const YEAR = 31_557_600;
const BOLTZMANN = 1.380649e-23;

test.each(
  ALTERNATIVES.flatMap(({ sheet, also = [] }) => [sheet, ...also]).filter(
    (one) => one.kind === "sheet" && one.name.startsWith("spin_torque"),
  ),
)("$name has the right dimensions", (one) => {
  expect(one.kind === "sheet" && checkSheet(one)).toEqual([]);
});

describe("barrier and retention", () => {
  // Common practice: ten years at an attempt time of 1 ns take some 40 kT of a single bit.
  test("ten years of one bit at an attempt time of 1 ns take 40.3 kT", () => {
    const given = { retention_time: 10 * YEAR, attempt_time: 1e-9 };
    const { stability } = evaluateOne(barrierOfRetention, {
      ...given,
      retention_failure_share: 1 - Math.exp(-1),
    });
    expect(stability).toBeCloseTo(Math.log(10 * YEAR * 1e9), 10);
    expect(stability).toBeCloseTo(40.29, 2);
  });

  test.each([1e-9, 1e-6, 0.5])(
    "a barrier gives the retention back that asked for it, %d lost",
    (share) => {
      const given = { attempt_time: 1e-9, retention_failure_share: share };
      const { stability } = evaluateOne(barrierOfRetention, { ...given, retention_time: 3 * YEAR });
      const back = evaluateOne(retentionOfBarrier, { ...given, stability: stability! });
      expect(back["retention_time"]! / (3 * YEAR)).toBeCloseTo(1, 12);
    },
  );

  test("the activation energy is the slope of barrier over kT against 1/kT, by differences", () => {
    const layer = { bloch_temperature: 1120, barrier_exponent: 2.2, stability: 54 };
    const kept = (t: number) => (1 - (t / 1120) ** 1.5) ** 2.2;
    const barrier = 54 * BOLTZMANN * 423;
    const over = (t: number) => (barrier * kept(t)) / kept(423) / (BOLTZMANN * t);
    const [cold, hot] = [423 - 0.01, 423 + 0.01];
    const slope = (over(cold) - over(hot)) / (1 / (BOLTZMANN * cold) - 1 / (BOLTZMANN * hot));
    const { activation_energy: energy } = evaluateOne(barrierSlope, {
      ...layer,
      retention_temperature: 423,
    });
    expect(energy! / slope).toBeCloseTo(1, 7);
  });
});

/** A free layer of 50 nm. */
const LAYER: Values = {
  on_resistance: 3e3,
  off_resistance: 6.9e3,
  damping: 0.01,
  layer_moment: 1.6e-3,
  element_area: 2e-15,
  largest_element_area: 1e-14,
  bloch_temperature: 1120,
  barrier_exponent: 2.2,
  retention_temperature: 358.15,
  temperature: 300,
  stability: 54,
  set_time: 20e-9,
  reset_time: 20e-9,
};

describe("threshold of spin transfer", () => {
  const of = evaluateOne(spinTorque, LAYER);

  const motion = {
    damping: LAYER["damping"]!,
    moment: LAYER["layer_moment"]! * LAYER["element_area"]!,
    barrier: of["energy_barrier"]!,
    efficiency: of["spin_efficiency"]!,
  };

  // Landau, Lifshitz, Gilbert and Slonczewski: the equation of motion, integrated.
  test("is where a small precession neither grows nor decays", () => {
    const free = growth(motion, 0);
    expect(free).toBeLessThan(0);
    expect(Math.abs(growth(motion, of["threshold_current"]!) / free)).toBeLessThan(2e-4);
  });

  test.each([0, 0.5, 2, 3])(
    "at %d of it a precession grows by i - 1 in a time of the damping",
    (i) => {
      const rate = growth(motion, i * of["threshold_current"]!);
      // To second order in the damping.
      expect((rate * LAYER["set_time"]!) / (of["reduced_pulse"]! * (i - 1))).toBeCloseTo(1, 3);
    },
  );

  test("the efficiency is P / (1 + P²) of Julliere's polarisation", () => {
    const ratio = 1.3;
    const polarisation = Math.sqrt(ratio / (2 + ratio));
    const efficiency = polarisation / (1 + polarisation ** 2);
    expect(of["spin_efficiency"]! / efficiency).toBeCloseTo(1, 12);
  });

  test("at the retention's temperature the barrier is what was stated, colder it is higher", () => {
    const hot = evaluateOne(spinTorque, { ...LAYER, temperature: 358.15 });
    expect(hot["write_stability"]).toBeCloseTo(54, 10);
    expect(of["energy_barrier"]! / hot["energy_barrier"]!).toBeGreaterThan(1.05);
  });

  test("an element without room has the moment of the room it has", () => {
    const cut = evaluateOne(spinTorque, { ...LAYER, largest_element_area: 1e-15 });
    expect(cut["reduced_pulse"]! / of["reduced_pulse"]!).toBeCloseTo(2, 12);
    expect(cut["threshold_current"]).toBe(of["threshold_current"]);
  });

  // A perpendicular-anisotropy CoFeB-MgO magnetic tunnel junction, Nature Materials 2010: 49 uA at
  // 40 kT, from memory. The damping was chosen without it.
  test("a published junction of 40 kT takes 49 uA; its class gives 23, 45 at the end of its range", () => {
    const file = new URL("../../../shared/checks/measured-devices.yaml", import.meta.url);
    const { devices } = load(readFileSync(file, "utf8")) as {
      devices: Record<string, Record<string, { value: number }>>;
    };
    const device = devices["mtj-40nm"]!;
    const current = (damping: number) =>
      evaluateOne(spinTorque, {
        ...LAYER,
        damping,
        stability: device["thermal_stability_kT"]!.value,
        retention_temperature: 300,
        off_resistance: 3e3 * (1 + device["magnetoresistance_ratio"]!.value),
      })["threshold_current"]!;
    const published = device["switching_current_uA"]!.value * 1e-6;
    expect(published / current(0.01)).toBeGreaterThan(1);
    expect(published / current(0.01)).toBeLessThan(2.5);
    expect(published / current(0.02)).toBeLessThan(1.15);
  });
});

describe("overdrive of a pulse", () => {
  // The angle from the axis near it: d<θ²>/dτ = 2 (i - 1) <θ²> + 2/Δ from 1/Δ, whose solution has
  // spread to a right angle in all but a share.
  test.each([
    [64, 6, 1e-6],
    [64, 6, 1e-3],
    [40, 1, 0.1],
    [120, 300, 1e-9],
  ])(
    "of Δ = %d, τ = %d and a share of %d is that of an unstable process with noise",
    (stability, pulse, share) => {
      const i = overdriveOf(stability, pulse, share);
      const steps = 20_000;
      const h = pulse / steps;
      let square = 1 / stability;
      const slope = (x: number) => 2 * (i - 1) * x + 2 / stability;
      for (let k = 0; k < steps; k++) {
        const a = slope(square);
        const b = slope(square + (h / 2) * a);
        const c = slope(square + (h / 2) * b);
        square += (h / 6) * (a + 2 * b + 2 * c + slope(square + h * c));
      }
      expect(-Math.expm1(-((Math.PI / 2) ** 2) / square) / share).toBeCloseTo(1, 6);
    },
  );

  test.each([
    [40, 4, 1e-3],
    [60, 6, 1e-6],
  ])(
    "of Δ = %d, τ = %d and %d leaves as many unwritten by the Fokker-Planck equation, to a factor of 2",
    (stability, pulse, share) => {
      const i = overdriveOf(stability, pulse, share);
      const left = unwritten(stability, i, pulse);
      expect(left / share).toBeGreaterThan(1 / 2);
      expect(left / share).toBeLessThan(2);
    },
  );

  test("falls with the width of the pulse, to the threshold where that suffices", () => {
    const of = [0.5, 2, 8, 32, 1e6].map((pulse) => overdriveOf(60, pulse, 1e-6));
    expect([...of].sort((a, b) => b - a)).toEqual(of);
    expect(of.at(-1)! - 1).toBeLessThan(1e-4);
    expect(overdriveOf(60, 10, 0.99999999)).toBeGreaterThanOrEqual(1);
    expect(overdriveOf(1, 1, 0.9)).toBe(1);
  });

  test("of a pulse of no width is beyond all numbers, of what is no number none", () => {
    expect(overdriveOf(60, 0, 1e-6)).toBe(Number.POSITIVE_INFINITY);
    expect(overdriveOf(60, Number.NaN, 1e-6)).toBeNaN();
  });
});

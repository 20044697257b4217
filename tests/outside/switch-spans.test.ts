/**
 * Published spans of measured switches (`shared/checks/measured-devices.yaml`) reached by the
 * switch from geometry with physically plausible parameters. The parameters are printed by the
 * test's title where they differ from `PLAUSIBLE`; they are not fitted, and no accuracy is claimed.
 */
import { readFileSync } from "node:fs";
import { load } from "js-yaml";
import { expect, test } from "vitest";
import { hopSpeed } from "../../src/models/switch/geometry.ts";
import { switchingTime } from "../../src/models/switch/geometry-motion.ts";
import { solve } from "../../src/numerics/index.ts";
import { EV, PLAUSIBLE } from "../models/switch/geometry-examples.ts";

const file = new URL("../../shared/checks/measured-devices.yaml", import.meta.url);
const text = readFileSync(file, "utf8");
const { devices } = load(text) as { devices: Record<string, unknown> };

/** The value under a path of keys of a device. */
function published(...path: readonly string[]): number {
  const found = path.reduce<unknown>((at, key) => (at as Record<string, unknown>)[key], devices);
  return Number((found as { value: unknown }).value);
}

/** The voltage at which the switch sets in a time [s]. */
function voltageFor(time: number, g = PLAUSIBLE): number {
  const end = g.least_gap + 0.02 * (g.most_gap - g.least_gap);
  const excess = (v: number) => Math.log(switchingTime(g, v, g.most_gap, end) / time);
  return solve(excess, 0.05, 5, { relative: 1e-6 });
}

test("a set from 1e5 s to 250 ps lies between 0.1 and 4 V, fifteen decades on one switch", () => {
  const slow = published("taox-kinetics", "set_time_range_s", "max");
  const fast = published("taox-kinetics", "set_time_range_s", "min");
  expect(slow / fast).toBeGreaterThan(1e14);
  const [low, high] = [voltageFor(slow), voltageFor(fast)];
  expect(low).toBeGreaterThan(0.1);
  expect(high).toBeLessThan(4);
});

test("sets of 105 ps and 20 ps need below 4.5 V, each faster one more", () => {
  const subnanosecond = voltageFor(published("taox-subns", "set_pulse_ns") * 1e-9);
  const picoseconds = voltageFor(published("taox-20ps", "set_pulse_ns") * 1e-9);
  expect(subnanosecond).toBeLessThan(picoseconds);
  expect(picoseconds).toBeLessThan(4.5);
});

test("hop energy 1.8 eV, hop distance 0.5 nm: 30 h at 200 degC and a set in 10 ns below 5 V", () => {
  const hours = published("hfox-10nm", "retention", "time");
  const temperature = published("hfox-10nm", "retention", "temperature") + 273.15;
  const g = { ...PLAUSIBLE, hop_energy: 1.8 * EV, hop_distance: 0.5e-9, temperature };
  // Diffusivity from the mobility at a small field, by Einstein's relation.
  const thermal = 1.380649e-23 * temperature;
  const diffusivity = (hopSpeed(g, 1) * thermal) / (g.vacancy_charge * EV);
  expect(0.3e-9 ** 2 / (2 * diffusivity)).toBeGreaterThan(hours * 3600);
  expect(voltageFor(1e-8, { ...g, temperature: 300 })).toBeLessThan(5);
});

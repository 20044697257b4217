import fc from "fast-check";
import { expect, test } from "vitest";
import {
  diodeLaw,
  ohmic,
  scaleOf,
  series,
  sinhLaw,
  sinhThrough,
} from "../../../src/models/junction.ts";
import type { SelectorKind } from "../../../src/models/selector/bias.ts";
import { junctionCurrents } from "../../../src/models/selector/current.ts";
import { lambertWOfExp } from "../../numerics/special/lambert.ts";
import { evaluateOne } from "../evaluate.ts";

const given = {
  junction_voltage: 1.5,
  on_resistance: 1e4,
  off_resistance: 1e6,
  read_voltage: 0.2,
  scale_voltage: 0.4,
  selector_saturation_current: 1e-12,
  selector_emission_voltage: 0.06,
  selector_on_resistance: 2e3,
  selector_threshold_voltage: 1.2,
  selector_hold_voltage: 0.8,
  selector_off_current: 1e-9,
  selector_off_nonlinearity: 100,
  selector_prefactor: 1e-9,
  selector_scale_voltage: 0.1,
};
const at = (kind: SelectorKind, over: Partial<typeof given> = {}) =>
  evaluateOne(junctionCurrents[kind], { ...given, ...over });

test("a resistance behind a diode carries the closed form by Lambert's function", () => {
  const [saturation, emission, resistance] = [1e-12, 0.06, 1.2e4];
  for (const v of [1e-6, 0.1, 0.7, 3, 40]) {
    const x = (saturation! * resistance!) / emission!;
    const inside = Math.log(x) + (v + saturation! * resistance!) / emission!;
    const closed = (emission! / resistance!) * lambertWOfExp(inside) - saturation!;
    const got = series(ohmic(resistance!), diodeLaw(saturation!, emission!)).current(v);
    // Far below saturation the closed form is a difference of nearly equal numbers.
    expect(Math.abs(got - closed)).toBeLessThan(1e-12 * got + 4e-16 * saturation! * 10);
  }
});

test("voltages of the parts add up to the whole over eighteen decades of size", () => {
  for (const size of [1e-9, 1, 1e9]) {
    const law = series(ohmic(1e4 * size), sinhLaw(1e-9 / size, 0.1), diodeLaw(1e-12 / size, 0.05));
    for (const v of [1e-9, 0.3, 2, 50]) {
      expect(law.voltage(law.current(v)) / v).toBeCloseTo(1, 12);
    }
  }
});

test("the sinh law goes through its point and has the stated nonlinearity", () => {
  const law = sinhThrough(1.5, 3e-6, scaleOf(1.5, 200));
  expect(law.current(1.5) / 3e-6).toBeCloseTo(1, 13);
  expect(law.current(1.5) / law.current(0.75) / 200).toBeCloseTo(1, 12);
  expect(() => sinhThrough(1500, 3e-6, 1)).toThrow(/out-of-range/);
});

test("without a selector the on state is ohmic at every level", () => {
  const got = at("none");
  expect(got["on_full"]).toBe(1.5 / 1e4);
  expect(got["on_half"]).toBe(0.75 / 1e4);
  expect(got["on_third"]).toBeCloseTo(0.5 / 1e4, 18);
  expect(got["on_slope"]).toBe(1e-4);
});

test("a threshold selector holds when selected and stays off at half of the voltage", () => {
  const got = at("threshold");
  expect(got["on_full"]! / ((1.5 - 0.8) / 1.2e4)).toBeCloseTo(1, 12);
  expect(got["on_half"]!).toBeLessThan(1e-8);
  expect(at("threshold", { junction_voltage: 0.7 })["on_full"]).toBe(0);
});

test("a complementary pair has one switch off unless the read has set both", () => {
  const got = at("complementary");
  expect(got["on_full"]! / (1.5 / 2e4)).toBeCloseTo(1, 12);
  expect(got["on_half"]).toBe(got["off_half"]);
  expect(got["off_full"]!).toBeLessThan(got["on_full"]! / 10);
});

const kinds = Object.keys(junctionCurrents) as SelectorKind[];

test("more resistance never carries more current, more voltage never less", () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...kinds),
      fc.double({ min: 3, max: 8, noNaN: true }),
      fc.double({ min: 1, max: 5, noNaN: true }),
      fc.double({ min: 0.05, max: 5, noNaN: true }),
      fc.double({ min: 1, max: 3, noNaN: true }),
      (kind, decade, factor, v, more) => {
        const on_resistance = 10 ** decade;
        const base = { on_resistance, off_resistance: 1e9, junction_voltage: v };
        const first = at(kind, base);
        const resistive = at(kind, { ...base, on_resistance: on_resistance * factor });
        const driven = at(kind, { ...base, junction_voltage: v * more });
        for (const name of Object.keys(first).filter((key) => /^on_(full|half|third)$/.test(key))) {
          const slack = 1e-12 * first[name]!;
          expect(resistive[name]!).toBeLessThanOrEqual(first[name]! + slack);
          expect(driven[name]!).toBeGreaterThanOrEqual(first[name]! - slack);
        }
      },
    ),
    { seed: 20261125, numRuns: 300 },
  );
});

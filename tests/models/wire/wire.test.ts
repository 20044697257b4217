import fc from "fast-check";
import { expect, test } from "vitest";
import { crossbarWireInstances, wireInstance } from "../../../src/models/registry.ts";
import { lineCrossing } from "../../../src/models/wire/crossing.ts";
import { lineDelay, lineSettling } from "../../../src/models/wire/line-delay.ts";
import { entry, evaluate, evaluateOne, technology } from "../evaluate.ts";

const seed = 20261125;
const size = fc.double({ min: 0.1, max: 10, noNaN: true });
const line = fc.record({
  driver_resistance: size,
  line_resistance: size,
  line_capacitance: size,
  load_capacitance: size,
});

test("more resistance or capacitance is never faster, by the fit and by the exact response", () => {
  fc.assert(
    fc.property(line, fc.double({ min: 1, max: 3, noNaN: true }), (given, more) => {
      for (const name of Object.keys(given) as (keyof typeof given)[]) {
        const slower = { ...given, [name]: given[name] * more };
        const fitted = (one: typeof given) => evaluateOne(lineDelay, one);
        const exact = (one: typeof given) =>
          evaluateOne(lineCrossing, { ...one, share: 0.5 })["crossing_time"]!;
        expect(fitted(slower)["delay"]!).toBeGreaterThanOrEqual(
          fitted(given)["delay"]! * (1 - 1e-12),
        );
        expect(exact(slower)).toBeGreaterThanOrEqual(exact(given) * (1 - 1e-12));
      }
    }),
    { seed, numRuns: 60 },
  );
});

test("the fit is within 4 % of the exact half time, 6 % of that of nine tenths", () => {
  fc.assert(
    fc.property(line, (given) => {
      const fit = evaluateOne(lineDelay, given);
      for (const [name, share, bound] of [
        ["delay", 0.5, 0.04],
        ["delay_90", 0.9, 0.06],
      ] as const) {
        const exact = evaluateOne(lineCrossing, { ...given, share })["crossing_time"]!;
        expect(Math.abs(fit[name]! / exact - 1)).toBeLessThan(bound);
      }
    }),
    { seed, numRuns: 200 },
  );
});

test("the settling to a stated share is that of nine tenths there, and within 7 % of the exact one beyond", () => {
  fc.assert(
    fc.property(line, (given) => {
      const left = (settling_error: number) =>
        evaluateOne(lineSettling, { ...given, settling_error })["settling_delay"]!;
      expect(left(0.1) / evaluateOne(lineDelay, given)["delay_90"]!).toBeCloseTo(1, 12);
      for (const error of [0.05, 0.01]) {
        const share = 1 - error;
        const exact = evaluateOne(lineCrossing, { ...given, share })["crossing_time"]!;
        expect(Math.abs(left(error) / exact - 1)).toBeLessThan(0.07);
      }
    }),
    { seed, numRuns: 100 },
  );
});

test("a line's delay scales with resistance times capacitance over eighteen decades", () => {
  for (const scale of [1e-9, 1e9]) {
    const given = {
      driver_resistance: 2,
      line_resistance: 1,
      line_capacitance: 1,
      load_capacitance: 0.5,
      share: 0.5,
    };
    const one = evaluateOne(lineCrossing, given)["crossing_time"]!;
    const scaled = { ...given, driver_resistance: 2 * scale, line_resistance: scale };
    expect(evaluateOne(lineCrossing, scaled)["crossing_time"]! / scale / one).toBeCloseTo(1, 12);
  }
});

test("temperature raises the resistance of a wire by the bulk part only", () => {
  const at = (temperature: number) =>
    evaluate([wireInstance("row_wire_", "local")], { ...technology("cmos-65"), temperature });
  const cold = at(300)["row_wire_resistance_per_length"]!;
  const hot = at(400)["row_wire_resistance_per_length"]!;
  // 1.68e-8 ohm m x 0.0039 1/K x 100 K over 3.0e-8 ohm m
  expect(hot / cold - 1).toBeCloseTo(0.2184, 4);
});

test("a fine crossbar wire of copper resists more per square the finer it is", () => {
  const at = (feature: number) =>
    evaluate(crossbarWireInstances("row_wire_"), {
      ...technology("cmos-65"),
      ...entry("wires/copper"),
      feature,
    });
  let last = 0;
  for (const feature of [100e-9, 50e-9, 30e-9, 20e-9, 14e-9]) {
    const got = at(feature);
    expect(got["row_wire_resistivity"]!).toBeGreaterThan(last);
    last = got["row_wire_resistivity"]!;
  }
  // 20 nm: above the 6.26e-8 of the bare conductor (its barrier takes a part), below twice that.
  const { row_wire_resistivity } = at(20e-9);
  expect(row_wire_resistivity!).toBeGreaterThan(6.26e-8);
  expect(row_wire_resistivity!).toBeLessThan(12.6e-8);
});

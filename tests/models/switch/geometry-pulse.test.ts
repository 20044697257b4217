import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { DIRECT, operatingPoint } from "../../../src/models/switch/geometry.ts";
import { drive } from "../../../src/models/switch/geometry-motion.ts";
import { gapAfterRamp, pulse } from "../../../src/models/switch/geometry-pulse.ts";
import { wayOf, writeTime } from "../../../src/models/switch/geometry-way.ts";
import { PLAUSIBLE } from "./geometry-examples.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Gap, voltage, how much of a whole write the pulse lasts, and the circuit. */
const PULSES = fc.record({
  share: between(0, 1),
  voltage: fc.oneof(between(0.3, 3), between(-3, -0.3)),
  length: between(-3, 1).map((x) => 10 ** x),
  series: fc.constantFrom(0, 1e3, 2e4),
  limit: fc.constantFrom(Number.POSITIVE_INFINITY, 2e-5),
});

function caseOf(c: typeof PULSES extends fc.Arbitrary<infer C> ? C : never) {
  const { least_gap, most_gap } = PLAUSIBLE;
  const gap = least_gap + c.share * (most_gap - least_gap);
  const circuit = { series_resistance: c.series, current_limit: c.limit };
  return { gap, circuit, width: c.length * writeTime(PLAUSIBLE, c.voltage) };
}

describe("a pulse", () => {
  test("is what the recorded transient of the same drive says: gap and energies to 1e-4", () => {
    fc.assert(
      fc.property(PULSES, (c) => {
        const { gap, circuit, width } = caseOf(c);
        const short = pulse(PLAUSIBLE, gap, c.voltage, width, circuit);
        const long = drive(PLAUSIBLE, gap, () => c.voltage, width, { circuit }).last;
        // Steps are right to 1e-6 each; what runs away multiplies that.
        expect(Math.abs(short.gap / long.gap - 1)).toBeLessThan(1e-4);
        expect(Math.abs(short.sourceEnergy / long.sourceEnergy - 1)).toBeLessThan(1e-4);
        expect(Math.abs(short.switchEnergy / long.switchEnergy - 1)).toBeLessThan(1e-4);
        expect(short.switchEnergy).toBeLessThanOrEqual(short.sourceEnergy * (1 + 1e-12));
      }),
      { seed: 20261125, numRuns: 60 },
    );
  });

  test("cut in two is the same pulse", () => {
    fc.assert(
      fc.property(PULSES, between(0.05, 0.95), (c, cut) => {
        const { gap, circuit, width } = caseOf(c);
        const whole = pulse(PLAUSIBLE, gap, c.voltage, width, circuit);
        const first = pulse(PLAUSIBLE, gap, c.voltage, cut * width, circuit);
        const second = pulse(PLAUSIBLE, first.gap, c.voltage, (1 - cut) * width, circuit);
        const energy = first.sourceEnergy + second.sourceEnergy;
        expect(Math.abs(second.gap / whole.gap - 1)).toBeLessThan(1e-4);
        expect(Math.abs(energy / whole.sourceEnergy - 1)).toBeLessThan(1e-4);
      }),
      { seed: 20261125, numRuns: 60 },
    );
  });

  test("at an end of the gap takes the power of that end, for as long as it lasts", () => {
    const { current } = operatingPoint(PLAUSIBLE, PLAUSIBLE.least_gap, 1);
    const held = pulse(PLAUSIBLE, PLAUSIBLE.least_gap, 1, 1e-6, DIRECT);
    expect(held.gap).toBe(PLAUSIBLE.least_gap);
    expect(held.switchEnergy / (current * 1e-6)).toBeCloseTo(1, 12);
    // As long as a whole set, the gap arrives; ten times as long, it stays.
    const time = writeTime(PLAUSIBLE, 2.5);
    expect(pulse(PLAUSIBLE, PLAUSIBLE.most_gap, 2.5, 10 * time, DIRECT).gap).toBe(
      PLAUSIBLE.least_gap,
    );
    // 98 % of the way is where the time of a set ends; the gap runs away there, so that a part in
    // ten thousand of the time is far before or beyond it.
    const { to } = wayOf(PLAUSIBLE, 2.5);
    const left = (share: number) => pulse(PLAUSIBLE, PLAUSIBLE.most_gap, 2.5, share * time, DIRECT);
    expect(left(0.9999).gap).toBeGreaterThan(to);
    expect(left(1.0001).gap).toBeLessThan(to);
  });
});

test("a ramp is what the recorded transient of it says, also through zero", () => {
  const ramps = [
    [0, 2.5],
    [2.5, 0],
    [2.4, -2.4],
    [1.2, -2.4],
    [-1, -2.6],
    [0, 0],
  ] as const;
  for (const gap of [0.3e-9, 0.7e-9, 1.2e-9]) {
    for (const [from, to] of ramps) {
      const time = 1e-5;
      const wave = (t: number) => from + ((to - from) * t) / time;
      const recorded = drive(PLAUSIBLE, gap, wave, time, { longestStep: time / 100 }).last.gap;
      const plain = gapAfterRamp(PLAUSIBLE, gap, { from, to, time }, DIRECT);
      expect(Math.abs(plain / recorded - 1)).toBeLessThan(1e-6);
    }
  }
});

test("a ramp there and back is undone: motion under -V(t) runs V(t) backwards", () => {
  // Where the way back is no runaway, which would multiply the errors of the steps.
  for (const gap of [0.7e-9, 0.9e-9]) {
    for (const v of [1.6, 1.8]) {
      const time = 1e-3;
      const half = gapAfterRamp(PLAUSIBLE, gap, { from: -v, to: 0, time: time / 2 }, DIRECT);
      const back = gapAfterRamp(PLAUSIBLE, gap, { from: -v, to: v, time }, DIRECT);
      expect(half).toBeGreaterThan(1.01 * gap);
      expect(Math.abs(back / gap - 1)).toBeLessThan(1e-5);
      const wave = (t: number) => v * ((2 * t) / time - 1);
      const recorded = drive(PLAUSIBLE, gap, wave, time).last.gap;
      expect(Math.abs(recorded / gap - 1)).toBeLessThan(1e-5);
    }
  }
});

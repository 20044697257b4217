import fc from "fast-check";
import { expect, test } from "vitest";
import type { SwitchGeometry } from "../../../src/models/switch/geometry.ts";
import { drive, triangle } from "../../../src/models/switch/geometry-motion.ts";
import { EV, PLAUSIBLE } from "./geometry-examples.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Films, circuits and drives over all that is plausible: 0.1 to 5 V, 0.1 ns to ten years. */
const CASES = fc.record({
  film: between(2e-9, 15e-9),
  share: between(0.2, 0.9),
  energy: between(0.7, 1.8),
  barrier: between(0.4, 3),
  temperature: between(250, 420),
  heating: fc.constantFrom(0, 1e3, 1e5, 3e6),
  series: fc.constantFrom(0, 100, 1e4, 1e5),
  limit: fc.constantFrom(Number.POSITIVE_INFINITY, 1e-6, 1e-4),
  voltage: between(-1, 0.7).map((x) => 10 ** x),
  duration: between(-10, 8.5).map((x) => 10 ** x),
  shape: fc.constantFrom("constant", "negative", "triangle", "sine"),
  on: fc.boolean(),
});
type Case = typeof CASES extends fc.Arbitrary<infer C> ? C : never;

function transientOf(c: Case) {
  const g: SwitchGeometry = {
    ...PLAUSIBLE,
    film_thickness: c.film,
    most_gap: c.film * c.share,
    least_gap: 0.15e-9,
    hop_energy: c.energy * EV,
    barrier_height: c.barrier * EV,
    temperature: c.temperature,
    thermal_resistance: c.heating,
  };
  const shapes: Record<string, (time: number) => number> = {
    constant: () => c.voltage,
    negative: () => -c.voltage,
    triangle: triangle(c.voltage, c.voltage, c.duration),
    sine: (time) => c.voltage * Math.sin((2 * Math.PI * time) / c.duration),
  };
  const circuit = { series_resistance: c.series, current_limit: c.limit };
  const start = c.on ? g.least_gap * 1.01 : g.most_gap;
  return { g, result: drive(g, start, shapes[c.shape]!, c.duration, { circuit }) };
}

test("any film under any drive: energy balances, power is never negative, the loop is pinched", () => {
  fc.assert(
    fc.property(CASES, (c) => {
      const { g, result } = transientOf(c);
      const { sourceEnergy, switchEnergy, seriesEnergy } = result.last;
      const imbalance = Math.abs(switchEnergy + seriesEnergy - sourceEnergy);
      expect(imbalance).toBeLessThanOrEqual(1e-12 * sourceEnergy + 1e-30);
      expect(result.last.time).toBe(c.duration);
      expect(result.moments.length).toBeLessThan(5000);
      for (const m of result.moments) {
        expect(m.current * m.switchVoltage).toBeGreaterThanOrEqual(0);
        expect(m.gap).toBeGreaterThanOrEqual(g.least_gap);
        expect(m.gap).toBeLessThanOrEqual(g.most_gap);
        if (m.voltage === 0) expect(Math.abs(m.current)).toBe(0);
      }
    }),
    { seed: 20261125, numRuns: 150 },
  );
});

test("time never runs back and the gap moves only the way that the drive pushes", () => {
  fc.assert(
    fc.property(CASES, (c) => {
      const { result } = transientOf(c);
      result.moments.slice(1).forEach((m, i) => {
        const before = result.moments[i]!;
        expect(m.time).toBeGreaterThanOrEqual(before.time);
        const pushes = before.voltage > 0 && m.voltage > 0 ? -1 : 1;
        if (Math.sign(before.voltage) !== Math.sign(m.voltage)) return;
        const move = (m.gap - before.gap) * pushes;
        expect(move).toBeGreaterThanOrEqual(-1e-8 * before.gap);
      });
    }),
    { seed: 7, numRuns: 100 },
  );
});

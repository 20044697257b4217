import { expect, test } from "vitest";
import { fitLoop, loopCurrents } from "../../../src/models/switch/fit-loop.ts";
import { triangle } from "../../../src/models/switch/geometry-motion.ts";
import { normalQuantile, RandomStream } from "../../../src/numerics/index.ts";
import { EV, PLAUSIBLE } from "./geometry-examples.ts";

const CIRCUIT = { series_resistance: 2e3, current_limit: 1e-4 };
const TRUTH = { geometry: PLAUSIBLE, circuit: CIRCUIT };
const PERIOD = 1e-3;
const WAVE = triangle(2.5, 2.5, PERIOD);
const BARE = Array.from({ length: 41 }, (_, i) => {
  const time = (i * PERIOD) / 40;
  return { time, voltage: WAVE(time), current: 0 };
});
const START = {
  circuit: CIRCUIT,
  geometry: { ...PLAUSIBLE, hop_energy: 1.12 * EV, barrier_height: 1.05 * EV },
};

test("a measured loop gives back barrier and hop energy within its 99.9 % intervals", () => {
  const noise = new RandomStream(20261125, "loop");
  const points = loopCurrents(TRUTH, BARE).map((current, i) => ({
    ...BARE[i]!,
    current: current * Math.exp(0.02 * normalQuantile(noise.uniform(i))),
  }));
  const fit = fitLoop(points, START, ["barrier_height", "hop_energy"], 1e-8, { confidence: 0.999 });
  for (const { name, bySlopes, byRefits } of fit.parameters) {
    const truth = PLAUSIBLE[name as "hop_energy"];
    for (const { low, high } of [bySlopes!, byRefits!]) {
      expect(low).toBeLessThan(truth);
      expect(high).toBeGreaterThan(truth);
      expect(high / low).toBeLessThan(1.1);
    }
  }
});

test("without noise the series resistance of the loop's circuit comes back too", () => {
  const points = loopCurrents(TRUTH, BARE).map((current, i) => ({ ...BARE[i]!, current }));
  const start = { ...START, circuit: { ...CIRCUIT, series_resistance: 1e3 } };
  const free = ["barrier_height", "hop_energy", "series_resistance"] as const;
  const fit = fitLoop(points, start, free, 1e-8, { quick: true });
  expect(fit.circuit.series_resistance / 2e3).toBeCloseTo(1, 4);
  expect(fit.geometry.hop_energy / PLAUSIBLE.hop_energy).toBeCloseTo(1, 6);
});

test("a loop whose time runs back is refused", () => {
  const points = [BARE[1]!, BARE[0]!, ...BARE];
  expect(() => fitLoop(points, START, ["hop_energy"], 1e-8)).toThrow(/out-of-range/);
});

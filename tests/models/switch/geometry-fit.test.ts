import { expect, test } from "vitest";
import { resistanceAt, tunnelDecay } from "../../../src/models/switch/geometry.ts";
import {
  fitLoop,
  fitSwitchingTimes,
  loopCurrents,
} from "../../../src/models/switch/geometry-fit.ts";
import { switchingTime, triangle } from "../../../src/models/switch/geometry-motion.ts";
import { resistanceSpread } from "../../../src/models/switch/geometry-spread.ts";
import { normalQuantile, RandomStream, sorted, varianceOf } from "../../../src/numerics/index.ts";
import { EV, PLAUSIBLE } from "./geometry-examples.ts";

const VOLTAGES = [0.5, 1, 1.5, 2, 2.5, 3];
const END = PLAUSIBLE.least_gap + 0.02 * (PLAUSIBLE.most_gap - PLAUSIBLE.least_gap);
const time = (v: number) => switchingTime(PLAUSIBLE, v, PLAUSIBLE.most_gap, END);

test("a fit from afar finds barrier of the hop and its distance again, without noise to 1e-6", () => {
  const points = VOLTAGES.map((voltage) => ({ voltage, time: time(voltage) }));
  const start = { ...PLAUSIBLE, hop_energy: 0.9 * EV, hop_distance: 0.2e-9 };
  const fit = fitSwitchingTimes(points, start, ["hop_energy", "hop_distance"]);
  expect(Math.abs(fit.geometry.hop_energy / PLAUSIBLE.hop_energy - 1)).toBeLessThan(1e-6);
  expect(Math.abs(fit.geometry.hop_distance / PLAUSIBLE.hop_distance - 1)).toBeLessThan(1e-6);
  expect(fit.deviation).toBeLessThan(1e-5);
});

test("with noise the intervals hold the truth, and points left out are predicted", () => {
  const noise = new RandomStream(20261125, "switching times");
  const points = VOLTAGES.map((voltage, i) => ({
    voltage,
    time: time(voltage) * Math.exp(0.3 * normalQuantile(noise.uniform(i))),
  }));
  const start = { ...PLAUSIBLE, hop_energy: 1 * EV };
  const fit = fitSwitchingTimes(points, start, ["hop_energy", "hop_distance"], {
    confidence: 0.999,
  });
  for (const { name, low, high } of fit.parameters) {
    expect(low).toBeLessThan(PLAUSIBLE[name]);
    expect(high).toBeGreaterThan(PLAUSIBLE[name]);
  }
  for (const v of [0.75, 1.75, 2.75]) {
    const predicted = switchingTime(fit.geometry, v, PLAUSIBLE.most_gap, END);
    expect(Math.abs(Math.log(predicted / time(v)))).toBeLessThan(3 * 0.3);
  }
});

test("a measured loop gives back barrier and hop energy within its 99.9 % intervals", () => {
  const circuit = { series_resistance: 2e3, current_limit: 1e-4 };
  const wave = triangle(2.5, 2.5, 1e-3);
  const times = Array.from({ length: 41 }, (_, i) => (i * 1e-3) / 40);
  const bare = times.map((time) => ({ time, voltage: wave(time), current: 0 }));
  const noise = new RandomStream(20261125, "loop");
  const points = loopCurrents(PLAUSIBLE, bare, circuit).map((current, i) => ({
    ...bare[i]!,
    current: current * Math.exp(0.02 * normalQuantile(noise.uniform(i))),
  }));
  const start = { ...PLAUSIBLE, hop_energy: 1.12 * EV, barrier_height: 1.05 * EV };
  const fit = fitLoop(points, start, ["barrier_height", "hop_energy"], {
    circuit,
    confidence: 0.999,
    scale: 1e-8,
  });
  for (const { name, low, high } of fit.parameters) {
    expect(low).toBeLessThan(PLAUSIBLE[name]);
    expect(high).toBeGreaterThan(PLAUSIBLE[name]);
    expect(high / low).toBeLessThan(1.1);
  }
  expect(() => loopCurrents(PLAUSIBLE, [bare[1]!, bare[0]!], circuit)).toThrow(/out-of-range/);
});

test("points without a time or voltage are refused", () => {
  const points = [{ voltage: 1, time: 0 }];
  expect(() => fitSwitchingTimes(points, PLAUSIBLE, ["hop_energy"])).toThrow(/out-of-range/);
});

test("a spread of the gap is a spread of ln R: closed form, and a sample of 20000", () => {
  const gap = 1e-9;
  const spread = { gap: 0.02e-9, area: 0.05 };
  const thin = { ...PLAUSIBLE, conductive_resistivity: 1e-12 };
  const first = resistanceSpread(thin, gap, 1e-3, spread);
  // ln R = kappa s + ln s - ln A.
  const closed = Math.hypot((tunnelDecay(1 * EV, 1) + 1 / gap) * spread.gap, spread.area);
  expect(Math.abs(first / closed - 1)).toBeLessThan(1e-6);
  const stream = new RandomStream(20261125, "spread");
  const logs = Array.from({ length: 20_000 }, (_, i) => {
    const s = gap + spread.gap * normalQuantile(stream.uniform(2 * i));
    const area = Math.exp(spread.area * normalQuantile(stream.uniform(2 * i + 1)));
    const g = { ...thin, electrode_area: thin.electrode_area * area };
    return Math.log(resistanceAt(g, s, 1e-3));
  });
  const deviation = Math.sqrt(varianceOf(sorted(logs)));
  // Five standard errors of a deviation of 20000 draws.
  expect(Math.abs(deviation / first - 1)).toBeLessThan(5 / Math.sqrt(2 * 20_000));
});

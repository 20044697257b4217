import { expect, test } from "vitest";
import { resistanceAt, tunnelDecay } from "../../../src/models/switch/geometry.ts";
import { resistanceSpread, withDeviations } from "../../../src/models/switch/geometry-spread.ts";
import { normalQuantile, RandomStream, sorted, varianceOf } from "../../../src/numerics/index.ts";
import { EV, PLAUSIBLE } from "./geometry-examples.ts";

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

test("a device's deviations move both gaps and the film alike, and never take a gap away", () => {
  const shifted = withDeviations(PLAUSIBLE, 0.1e-9, 0.5);
  for (const name of ["least_gap", "most_gap", "film_thickness"] as const)
    expect(shifted[name] - PLAUSIBLE[name]).toBeCloseTo(0.1e-9, 22);
  expect(shifted.electrode_area / PLAUSIBLE.electrode_area).toBeCloseTo(Math.exp(0.5), 12);
  const thin = withDeviations(PLAUSIBLE, -5e-9, 0);
  expect(thin.least_gap / PLAUSIBLE.least_gap).toBeCloseTo(0.2, 12);
  expect(thin.most_gap).toBeGreaterThan(thin.least_gap);
});

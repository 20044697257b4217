import { describe, expect, it } from "vitest";
import type { TenfoldError } from "../../../src/errors/problem.ts";
import { resistanceAt } from "../../../src/models/switch/geometry.ts";
import { withDeviations } from "../../../src/models/switch/geometry-spread.ts";
import { normalQuantile, RandomStream, sorted, varianceOf } from "../../../src/numerics/index.ts";
import { modelOf, quantitiesOf } from "../../estimate/study.ts";
import { EV, PLAUSIBLE } from "../../models/switch/geometry-examples.ts";

const GEOMETRY = {
  film_thickness: "3 nm",
  electrode_area: "100 nm^2",
  least_gap: "0.3 nm",
  most_gap: "0.9 nm",
  barrier_height: "1 eV",
  conductive_resistivity: "5e-5 ohm m",
  hop_distance: "0.3 nm",
  hop_energy: "1.4 eV",
  set_voltage: "2.6 V",
  reset_voltage: "2.6 V",
  read_voltage: "0.2 V",
};
const FILM = { ...PLAUSIBLE, most_gap: 0.9e-9, hop_energy: 1.4 * EV };

const designWith = (more: object, reliability: object = {}) => ({
  cell: { switch: { ...GEOMETRY, ...more }, selector: { kind: "transistor" } },
  reliability,
});
const SPREAD = { gap_spread: "0.02 nm", area_spread: 0.05, gap_cycle_spread: "0.01 nm" };

/** Standard deviation of ln R of devices drawn one by one. */
function sampled(gap: "least_gap" | "most_gap", gapSpread: number, areaSpread: number): number {
  const random = new RandomStream(20261125, "devices");
  const normal = (i: number) => normalQuantile(random.uniform(i));
  const logs = Array.from({ length: 4000 }, (_, i) => {
    const g = withDeviations(FILM, gapSpread * normal(2 * i), areaSpread * normal(2 * i + 1));
    return Math.log(resistanceAt(g, g[gap], 0.2));
  });
  return Math.sqrt(varianceOf(sorted(logs)));
}

describe("a study of a switch whose geometry spreads", () => {
  const of = quantitiesOf(designWith(SPREAD));

  it("takes the spread of its resistance from it, from device to device, by a sample of 4000", () => {
    // First order against a sample: five standard errors of 1.1 %, and 4 % for the curvature.
    for (const [name, gap] of [
      ["device_spread_on", "least_gap"],
      ["device_spread_off", "most_gap"],
    ] as const) {
      expect(Math.abs(of(name) / sampled(gap, 0.02e-9, 0.05) - 1)).toBeLessThan(0.1);
    }
    // The off state's exponent is of its gap alone; half of the on state is ohmic.
    expect(of("device_spread_off")).toBeGreaterThan(of("device_spread_on"));
  });

  it("keeps cycle to cycle apart from device to device", () => {
    expect(of("cycle_spread") / sampled("most_gap", 0.01e-9, 0)).toBeCloseTo(1, 1);
    const steady = quantitiesOf(designWith({ gap_spread: "0.02 nm", area_spread: 0.05 }));
    expect(steady("cycle_spread")).toBe(0);
    expect(steady("device_spread_off")).toBe(of("device_spread_off"));
    const alike = quantitiesOf(designWith({ gap_cycle_spread: "0.01 nm" }));
    expect(alike("device_spread_off")).toBe(0);
    expect(alike("cycle_spread")).toBe(of("cycle_spread"));
    expect(of("off_spread")).toBeCloseTo(
      Math.hypot(of("device_spread_off"), of("cycle_spread")),
      12,
    );
  });

  it("has the spread of its area alone in both states, since R is as one over the area", () => {
    const area = quantitiesOf(designWith({ area_spread: 0.07 }));
    expect(area("device_spread_on")).toBeCloseTo(0.07, 12);
    expect(area("device_spread_off")).toBeCloseTo(0.07, 12);
    expect(area("cycle_spread")).toBe(0);
  });

  it("has bit errors from it, more of them for a thicker spread", () => {
    const rough = quantitiesOf(designWith({ ...SPREAD, gap_spread: "0.06 nm" }));
    expect(of("bit_error_rate")).toBeGreaterThan(0);
    expect(rough("bit_error_rate")).toBeGreaterThan(10 * of("bit_error_rate"));
  });

  it("is refused beside measured spreads, and without a geometry", () => {
    const problemOf = (cell: object) => {
      try {
        modelOf({ cell: { switch: cell, selector: { kind: "transistor" } } });
      } catch (error) {
        return (error as TenfoldError).problems[0]!;
      }
      return expect.unreachable();
    };
    expect(problemOf({ ...GEOMETRY, ...SPREAD, cycle_spread: 0.1 }).code).toBe("conflicting-keys");
    expect(problemOf({ ...GEOMETRY, gap_spread: "0.1 nm", device_spread: 0.1 }).code).toBe(
      "conflicting-keys",
    );
    const measured = { on_resistance: "1 kohm", off_resistance: "1 Mohm", gap_spread: "0.1 nm" };
    expect(problemOf(measured)).toMatchObject({
      code: "missing-key",
      what: "`gap_spread` is the spread of a geometry that the switch does not give",
    });
  });
});

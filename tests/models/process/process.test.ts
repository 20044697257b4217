import { expect, test } from "vitest";
import { processInstances } from "../../../src/models/registry.ts";
import { evaluate, technologies, technology } from "../evaluate.ts";

const at = (name: string, over: Readonly<Record<string, number>> = {}) =>
  evaluate(processInstances, { ...technology(name), ...over });

test.each(technologies)(
  "%s: delay, current and gate capacitance agree within a factor of two",
  (name) => {
    const { delay_consistency } = at(name);
    expect(delay_consistency!).toBeGreaterThan(0.5);
    expect(delay_consistency!).toBeLessThan(2);
  },
);

test("the off-current is the technology's at its temperature and rises with heat", () => {
  for (const name of technologies) {
    const own = technology(name);
    expect(at(name)["off_current"]).toBe(own["nmos_off_current"]);
    let last = 0;
    for (const temperature of [250, 283.15, 300, 330, 358.15, 398.15]) {
      const { off_current } = at(name, { temperature });
      expect(off_current!).toBeGreaterThan(last);
      last = off_current!;
    }
  }
});

test("leakage doubles within 10 to 30 K for thresholds of 0.25 to 0.45 V", () => {
  // The rule of thumb says 10 to 15 K for a threshold of some 0.4 V; lower thresholds rise less.
  for (const name of technologies) {
    const rise = Math.log2(
      at(name, { temperature: 320 })["off_current"]! / at(name)["off_current"]!,
    );
    expect(20 / rise, name).toBeGreaterThan(10);
    expect(20 / rise, name).toBeLessThan(30);
  }
});

test("65 nm by hand: resistances, areas and energy of the minimum inverter", () => {
  const got = at("cmos-65");
  // 1 V / (2 ln 2 x 0.55 x 1000 A/m)
  expect(got["unit_resistance_n"]! / 1.311541e-3).toBeCloseTo(1, 6);
  // 0.8 (1 - 0.33) V / (2 x 1000 A/m)
  expect(got["unit_linear_resistance"]! / 2.68e-4).toBeCloseTo(1, 12);
  // 1 / (4 x 0.9 M/mm2)
  expect(got["transistor_area"]! / 2.7777777778e-13).toBeCloseTo(1, 9);
  // (1 + 0.8) fF/um x 0.12 um x (1 + 1/0.55) x 1 V2
  expect(got["unit_gate_energy"]! / 6.0872727e-16).toBeCloseTo(1, 6);
  expect(got["tau"]! / 4e-12).toBeCloseTo(1, 12);
});

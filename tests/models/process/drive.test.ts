import { describe, expect, test } from "vitest";
import { processInstances } from "../../../src/models/registry.ts";
import { evaluate, technologies, technology } from "../evaluate.ts";

const at = (name: string, over: Readonly<Record<string, number>> = {}) => {
  const found = evaluate(processInstances, { ...technology(name), ...over });
  return (quantity: string) => found[quantity]!;
};
/** 60 mV per decade at 300 K: k T / q ln 10. */
const THERMAL = (1.380649e-23 * 300) / 1.602176634e-19;

test.each(technologies)(
  "%s: at its own supply currents and delay are the published ones",
  (name) => {
    const own = technology(name);
    const got = at(name);
    expect(got("on_current")).toBe(own["nmos_on_current"]);
    expect(got("off_current")).toBe(own["nmos_off_current"]);
    expect(got("fan_out_delay")).toBe(own["fo4_delay"]);
  },
);

describe("limits of the current over the supply", () => {
  const free = { drain_barrier_lowering: 0 };

  test("far below threshold a decade of current takes one swing", () => {
    for (const name of technologies) {
      const { subthreshold_swing: swing, threshold_voltage: threshold } = technology(name);
      const low = threshold! - 0.5;
      const decade = (v: number) => at(name, { ...free, supply: v })("on_current");
      // The next term of the logarithm's series: half of the exponent times exp(-0.4 V / s).
      expect(Math.abs(decade(low + swing!) / decade(low) / 10 - 1), name).toBeLessThan(0.0005);
    }
  });

  test("far above threshold the current is the power of the overdrive", () => {
    for (const name of technologies) {
      const { threshold_voltage: threshold } = technology(name);
      const on = (v: number) => at(name, { ...free, supply: v })("on_current");
      const power = Math.log(on(threshold! + 2) / on(threshold! + 1)) / Math.log(2);
      expect(Math.abs(power / 1.3 - 1), name).toBeLessThan(1e-6);
    }
  });

  test("with the exponent 2 it is the charge-based law of long channels, ln2(1 + exp(v / 2))", () => {
    // ln^2(1 + e^(v/2)) with v in units of n k T / q: values worked out by hand for v = -4, 0, 4, 10.
    const law = [-4, 0, 4, 10].map((v) => Math.log(1 + Math.exp(v / 2)) ** 2);
    const own = technology("cmos-65");
    const unit = own["subthreshold_swing"]! / Math.log(10);
    const on = (v: number) =>
      at("cmos-65", {
        ...free,
        drive_exponent: 2,
        supply: own["threshold_voltage"]! + v * unit,
      })("on_current");
    for (const [i, v] of [-4, 0, 4, 10].entries()) {
      expect(on(v) / on(0) / (law[i]! / law[1]!)).toBeCloseTo(1, 9);
    }
    expect(law[1]!).toBeCloseTo(0.480453, 6);
  });

  test("nothing jumps: current and delay are smooth and steady over the supply", () => {
    for (const name of ["cmos-180", "cmos-65", "cmos-7"]) {
      let [last, slope] = [Number.NaN, Number.NaN];
      for (let supply = 0.15; supply < 1.9; supply += 0.02) {
        const now = Math.log(at(name, { supply })("on_current"));
        if (supply > 0.15) {
          expect(now).toBeGreaterThan(last);
          // Between two steps the slope changes by little, and only downwards.
          if (supply > 0.18) {
            expect(now - last).toBeLessThan(slope * (1 + 1e-9));
            expect(now - last).toBeGreaterThan(slope * 0.8);
          }
          slope = now - last;
        }
        last = now;
      }
    }
  });

  test("a linear resistance below threshold is the thermal voltage over the current", () => {
    const got = at("cmos-65", { supply: 0.2 });
    expect(got("unit_linear_resistance") * got("on_current")).toBeCloseTo(THERMAL, 6);
  });
});

test("near threshold gates are some ten times slower, below it some hundred times more", () => {
  // "Near-threshold computing", Proceedings of the IEEE 98(2), 2010: from nominal to 400 to 500 mV delay rises about
  // tenfold, and by a further 50 to 100 down into the sub-threshold region, for technologies of 130 to 45 nm. Its
  // curves end near 200 mV. Orders of magnitude, so that a factor of three is allowed at each end.
  for (const name of ["cmos-90", "cmos-65", "cmos-45"]) {
    const delay = (supply: number) => at(name, { supply })("fan_out_delay");
    const { supply: nominal } = technology(name);
    const near = delay(0.45) / delay(nominal!);
    expect(near, name).toBeGreaterThan(10 / 3);
    expect(near, name).toBeLessThan(10 * 3);
    const below = delay(0.22) / delay(0.45);
    expect(below, name).toBeGreaterThan(50 / 3);
    expect(below, name).toBeLessThan(100 * 3);
  }
});

test("a volt less at the drain at 100 mV/V and 100 mV per decade leaks a tenth", () => {
  // The worked figure of every textbook on leakage: 0.1 V of threshold is one decade.
  const over = { drain_barrier_lowering: 0.1, subthreshold_swing: 0.1 };
  const full = at("cmos-180", over)("off_current");
  const less = at("cmos-180", { ...over, supply: 0.8 })("off_current");
  expect(full / less).toBeCloseTo(10, 9);
});

test("gates and junctions leak alike at all temperatures, and a decade less for each step of voltage", () => {
  const fixed = (over: Readonly<Record<string, number>>) => at("cmos-90", over)("fixed_current");
  expect(fixed({ temperature: 398.15 }) / fixed({})).toBeCloseTo(1, 9);
  expect(fixed({}) / fixed({ supply: 0.5 })).toBeCloseTo(10, 9);
});

test("circuits leak through fast devices where an access waits, and through slow ones elsewhere", () => {
  // 50 nA/um: three tenths of the widths in full, seven tenths a tenth of it; 5 nA/um through gates and junctions.
  expect(at("cmos-65")("standing_current") / (0.3 * 0.05 + 0.7 * 0.005 + 0.005)).toBeCloseTo(1, 12);
  // Nothing in a process of 20 pA/um is slower than the rest of it.
  expect(at("cmos-180")("memory_off_ratio")).toBe(1);
});

test("heat slows gates at the full supply and speeds them up near threshold", () => {
  // Common knowledge as "temperature inversion": mobility falls, but so does the threshold.
  for (const name of ["cmos-90", "cmos-65", "cmos-45", "cmos-28"]) {
    const hot = (supply: number) =>
      at(name, { supply, temperature: 398.15 })("fan_out_delay") /
      at(name, { supply })("fan_out_delay");
    expect(hot(technology(name)["supply"]!), name).toBeGreaterThan(1);
    expect(hot(0.4), name).toBeLessThan(1);
  }
});

test("thick-oxide devices are slower when hot, and the stated ones at the reference temperature", () => {
  for (const name of technologies) {
    const [own, hot] = [at(name), at(name, { temperature: 398.15 })];
    expect(own("thick_heat_ratio"), name).toBe(1);
    // Mobility falls by (398/300)^1.2, 29 %; the threshold's 90 mV give a part back at 1.2 to 3.3 V.
    expect(hot("thick_heat_ratio"), name).toBeLessThan(0.95);
    expect(hot("thick_heat_ratio"), name).toBeGreaterThan(0.71);
    expect(hot("thick_unit_resistance") * hot("thick_heat_ratio")).toBeCloseTo(
      own("thick_unit_resistance"),
      12,
    );
  }
});

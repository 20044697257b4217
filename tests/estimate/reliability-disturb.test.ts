import { describe, expect, it } from "vitest";
import type { TenfoldError } from "../../src/errors/problem.ts";
import { holdTime } from "../../src/estimate/reliability-disturb.ts";
import type { SwitchGeometry } from "../../src/models/switch/geometry.ts";
import { switchingTime } from "../../src/models/switch/geometry-motion.ts";
import { type Keys, modelOf, OXIDE_TRANSISTOR, quantitiesOf } from "./study.ts";

const BARE: Keys = {
  cell: { switch: "oxide-bilayer", selector: { kind: "none" } },
  bias: { read: "grounded", write: "one-half" },
  tile: { rows: 32, columns: 32 },
  word: "8 bit",
};
const GEOMETRY: SwitchGeometry = {
  film_thickness: 5e-9,
  electrode_area: 400e-18,
  least_gap: 0.5e-9,
  most_gap: 2e-9,
  barrier_height: 1.5 * 1.602176634e-19,
  effective_mass: 0.3,
  conductive_resistivity: 1e-5,
  hop_distance: 0.5e-9,
  attempt_frequency: 1e13,
  hop_energy: 1 * 1.602176634e-19,
  vacancy_charge: 2,
  temperature: 300,
  thermal_resistance: 0,
};

describe("disturbance by a stated law", () => {
  it("is the sinh law whether its volts are stated by the scale or by the decade", () => {
    const decades = quantitiesOf({ ...BARE, reliability: { voltage_per_decade: "0.1 V" } });
    const scale = 0.1 / Math.LN10;
    const stated = quantitiesOf({ ...BARE, reliability: { rate_voltage: `${scale} V` } });
    for (const name of ["disturb_accesses", "disturb_rewrites", "read_disturb_accesses"])
      expect(decades(name) / stated(name), name).toBeCloseTo(1, 9);
    // Half of the write voltage of 1.2 V is 0.6 V; the weaker pulse is the set at 0.9 V.
    const slowdown = Math.sinh(0.9 / scale) / Math.sinh(decades("disturb_voltage") / scale);
    expect(decades("disturb_accesses") / (slowdown / 10)).toBeCloseTo(1, 9);
  });

  it("lets a read stand for as long as the law gives, in the direction that is faster", () => {
    const of = quantitiesOf({
      cell: OXIDE_TRANSISTOR,
      reliability: { voltage_per_decade: "0.15 V" },
    });
    const scale = 0.15 / Math.LN10;
    const hold = Math.min(
      20e-9 * (Math.sinh(0.9 / scale) / Math.sinh(0.2 / scale)),
      30e-9 * (Math.sinh(1.2 / scale) / Math.sinh(0.2 / scale)),
    );
    expect(of("read_hold_time") / hold).toBeCloseTo(1, 9);
    const read = of("bit_line_delay") + of("sense_delay");
    expect(of("read_disturb_accesses") / (hold / read / 10)).toBeCloseTo(1, 9);
  });

  it("reaches a switch only as far as its selector lets the voltage through", () => {
    const kinds = ["none", "diode", "nonlinear", "threshold"];
    const accesses = kinds.map((kind) => {
      const keys = { ...BARE, cell: { switch: "oxide-bilayer", selector: { kind } } };
      const of = quantitiesOf({ ...keys, reliability: { voltage_per_decade: "0.1 V" } });
      expect(of("switch_disturb_voltage")).toBeLessThanOrEqual(of("disturb_voltage"));
      return of("disturb_accesses");
    });
    expect([...accesses].sort((a, b) => a - b)).toEqual(accesses);
    expect(accesses[3]!).toBeGreaterThan(1e3 * accesses[0]!);
  });

  it("can't be stated twice", () => {
    try {
      modelOf({ ...BARE, reliability: { voltage_per_decade: "0.1 V", rate_voltage: "0.05 V" } });
      expect.unreachable();
    } catch (error) {
      const [problem] = (error as TenfoldError).problems;
      expect(problem!.code).toBe("conflicting-keys");
      expect(problem!.path).toBe("/designs/one/reliability/voltage_per_decade");
    }
  });
});

describe("disturbance of a switch from its geometry", () => {
  it("is the time to half of the travel, whichever way is faster", () => {
    const middle = 1.25e-9;
    for (const voltage of [0.2, 0.6, 1]) {
      const ways = [
        switchingTime(GEOMETRY, voltage, GEOMETRY.most_gap, middle),
        switchingTime(GEOMETRY, -voltage, GEOMETRY.least_gap, middle),
      ];
      expect(holdTime(GEOMETRY, voltage)).toBe(Math.min(...ways));
    }
  });

  it("grows by e with each 2 k T gap / (z q a) less, at the gap where the field is weakest", () => {
    // Far above that voltage the law is exponential in the field of the widest gap that is passed.
    const thin = { ...GEOMETRY, most_gap: 2e-9, least_gap: 1.99e-9, conductive_resistivity: 1e-9 };
    const scale = (2 * 1.380649e-23 * 300 * 2e-9) / (2 * 1.602176634e-19 * 0.5e-9);
    const ratio = holdTime(thin, 1) / holdTime(thin, 1 + 0.1 * scale);
    // The gap changes by half a percent on the way, and the fastest way is that of the thinner gap.
    expect(Math.log(ratio) / 0.1).toBeGreaterThan(0.99);
    expect(Math.log(ratio) / 0.1).toBeLessThan(1.01);
  });

  it("needs no stated slope in a study", () => {
    const device: Keys = {
      film_thickness: "5 nm",
      electrode_area: "400 nm^2",
      least_gap: "0.5 nm",
      most_gap: "2 nm",
      barrier_height: "1.5 eV",
      effective_mass: 0.3,
      conductive_resistivity: "1e-5 ohm m",
      hop_distance: "0.5 nm",
      attempt_frequency: "1e13 1/s",
      hop_energy: "1 eV",
      read_voltage: "0.2 V",
      set_voltage: "2 V",
      reset_voltage: "2 V",
    };
    const of = quantitiesOf({
      ...BARE,
      cell: { switch: device, selector: { kind: "none" } },
      reliability: {},
    });
    expect(of("disturb_slowdown") * Math.max(of("set_time"), of("reset_time"))).toBeCloseTo(
      of("write_hold_time"),
      12,
    );
    expect(of("write_hold_time")).toBeLessThan(of("read_hold_time"));
    expect(of("read_disturb_accesses")).toBeGreaterThan(1);
  });
});

/** Magnetic junctions that are made for a retention, in whole designs. */
import { describe, expect, test } from "vitest";
import { CATALOGUE, type Keys, modelOf, quantitiesOf } from "../estimate/study.ts";

const MACRO = { capacity: "1 Mib", word: "64 bit", technology: "cmos-28-low-power" };
const cell = (device: unknown): Keys => ({
  ...MACRO,
  cell: { switch: device, selector: { kind: "transistor" } },
});
const made = (figures: Keys): Keys => cell({ from: "magnetic-for-retention", ...figures });
const YEAR = 31_557_600;

describe("a junction made for a retention", () => {
  test("of ten years at 85 degC takes what its class does, to a third, at the class's size and pulse", () => {
    const [retained, typical] = [made({}), cell("magnetic-tunnel")].map((keys) =>
      quantitiesOf(keys)("switch_write_current"),
    );
    expect(retained! / typical!).toBeGreaterThan(1 / 1.35);
    expect(retained! / typical!).toBeLessThan(1.35);
  });

  test("takes more current and room for ten years at 200 degC", () => {
    const [cool, hot] = ["85 degC", "200 degC"].map((temperature) =>
      quantitiesOf(made({ retention_temperature: temperature })),
    );
    expect(hot!("switch_write_current")).toBeGreaterThan(1.2 * cool!("switch_write_current"));
    expect(hot!("cell_area")).toBeGreaterThan(cool!("cell_area"));
  });

  test("has the barrier that keeps it: at its own temperature the reliability finds the time again", () => {
    const stated = { mission_time: "1 year" };
    const of = quantitiesOf({ ...made({}), temperature: "85 degC", reliability: stated });
    expect(of("retention") / (10 * YEAR)).toBeCloseTo(1, 10);
    // -ln(1 - 1e-6) t0 exp(barrier / kT), with the barrier that the write current stands against.
    const barrier = of("energy_barrier") / (1.380649e-23 * 358.15);
    expect((-Math.log1p(-1e-6) * 1e-9 * Math.exp(barrier)) / (10 * YEAR)).toBeCloseTo(1, 6);
  });

  test("loses its states at another temperature as its barrier there says, to a tenth of a decade", () => {
    const stated = { mission_time: "1 year" };
    const hot = { retention_temperature: "200 degC" };
    const of = quantitiesOf({ ...made(hot), temperature: "150 degC", reliability: stated });
    const barrier = of("energy_barrier") / (1.380649e-23 * 423.15);
    const exact = -Math.log1p(-1e-6) * 1e-9 * Math.exp(barrier);
    expect(Math.abs(Math.log10(of("retention") / exact))).toBeLessThan(0.1);
  });

  test("may state its barrier, from which the retention follows", () => {
    const keys = made({ stability: 60, retention_temperature: "300 K" });
    const of = quantitiesOf(keys);
    expect(of("retention_time") / (-Math.log1p(-1e-6) * 1e-9 * Math.exp(60))).toBeCloseTo(1, 10);
    expect(of("energy_barrier") / (60 * 1.380649e-23 * 300)).toBeCloseTo(1, 10);
  });

  test("is written at the voltage that drives its current through the parallel state", () => {
    const of = quantitiesOf(made({ element_area: "300 nm^2" }));
    expect(of("switch_write_voltage") / (of("current_limit") * of("on_resistance"))).toBe(1);
    expect(of("switch_write_current") / of("current_limit")).toBeCloseTo(1, 12);
  });

  test("keeps what the study states itself: a write current, a density, a voltage", () => {
    const of = quantitiesOf(made({ current_limit: "60 uA" }));
    expect(of("switch_write_current") / 60e-6).toBeCloseTo(1, 12);
    expect(of("switch_write_voltage") / (60e-6 * of("on_resistance"))).toBeCloseTo(1, 12);
    const dense = quantitiesOf(made({ switching_current_density: "5e6 A/cm^2" }));
    expect(dense("current_limit") / 100e-6).toBeCloseTo(1, 12);
    const over = quantitiesOf({ ...made({}), overrides: { current_limit: "30 uA" } });
    expect(over("current_limit")).toBe(30e-6);
  });

  test("is refused with a damping alone, with shares that are none, above its Bloch temperature", () => {
    expect(() => modelOf(cell({ from: "magnetic-tunnel", damping: 0.01 }))).toThrow(
      /has `damping`, but not all that its write current follows from/,
    );
    expect(() => modelOf(made({ write_error_rate: 0 }))).toThrow(/can't be `0`/);
    expect(() => modelOf(made({ retention_failure_share: 1 }))).toThrow(
      /share of some but not all/,
    );
    expect(() => modelOf(made({ bloch_temperature: "350 K" }))).toThrow(/no magnetisation/);
    expect(() => modelOf(made({ stability: 60, retention_time: "1 year" }))).toThrow(
      /say the same thing twice/,
    );
    expect(() => modelOf(made({ damping: 0.01, current_limit: "1 mA" }))).toThrow(/twice/);
  });
});

// "45nm low power CMOS logic compatible embedded STT MRAM utilizing a reverse-connection 1T/1MTJ cell", IEDM 2009,
// and its patent: the lesser current, from the antiparallel state, flows where the source is lifted.
describe("the transistor of a junction", () => {
  test.each(["magnetic-tunnel", "magnetic-in-plane", "magnetic-for-retention", "mtj-40nm"])(
    "of %s carries both directions at its slow corner, one of them just",
    (device) => {
      const of = quantitiesOf(cell(device));
      const saturation =
        of("access_wanted_width") * of("worst_drive_share") * of("access_write_on_current");
      const spare = [
        (of("unipolar_drive_share") * saturation) / of("worst_write_current"),
        (of("access_drive_share") * saturation) /
          (of("worst_write_current") * of("lesser_write_share")),
      ];
      expect(Math.min(...spare)).toBeCloseTo(1, 10);
    },
  );

  test("meets a lesser current that is the larger one times the ratio of resistances at the write's voltage", () => {
    const of = quantitiesOf(cell("magnetic-tunnel"));
    // 0.5 V in a write, 0.1 V in a read, 0.5 V the scale of the sinh law, a ratio of 2.3 in a read.
    const current = (volt: number) => Math.sinh(volt / 0.5);
    const ratio = (2.3 * (0.5 / current(0.5))) / (0.1 / current(0.1));
    expect(of("lesser_write_share") * ratio).toBeCloseTo(1, 10);
  });

  test("of filaments is sized by the direction that lifts its source, as long as both need the same", () => {
    for (const device of ["oxide-filament", "metal-bridge", "oxide-bilayer"]) {
      const of = quantitiesOf(cell(device));
      expect(of("lesser_write_share")).toBe(1);
      expect(of("write_drive_share")).toBe(of("access_drive_share"));
    }
  });

  test("of a junction without magnetoresistance is that of a filament", () => {
    const of = quantitiesOf(
      cell({ from: "magnetic-tunnel", on_off_ratio: 1.000001, scale_voltage: "100 V" }),
    );
    expect(of("write_drive_share")).toBeCloseTo(of("access_drive_share"), 5);
  });
});

test("classes without a barrier keep their activation energy and their current", () => {
  const resolved = CATALOGUE.resolve("switch", "mtj-40nm");
  expect(resolved.parameters["current_limit"]!.value).toBe(49e-6);
  expect(resolved.sheets.some((one) => one.name.startsWith("spin_torque"))).toBe(false);
});

// "A 7Mb STT-MRAM in 22[...] FinFET technology ...", ISSCC 2019, by a report of it: 216 nm by 225 nm, two
// word lines per cell, in a process with a gate pitch of 108 nm.
test("a cell of two gates is two gate pitches high, as the published one of fins", () => {
  const keys: Keys = {
    capacity: "1 Mib",
    word: "64 bit",
    technology: { from: "cmos-22", contacted_gate_pitch: "108 nm" },
    cell: { switch: "magnetic-tunnel", selector: { kind: "transistor" } },
    overrides: { current_limit: "300 uA" },
  };
  const of = quantitiesOf(keys);
  expect(of("access_gates")).toBe(2);
  expect(of("cell_height") / 216e-9).toBeCloseTo(1, 12);
});

// "A 10nm high performance and low-power CMOS technology ...", IEDM 2017: one dummy gate instead of two.
test("a cell of one gate between fins takes a dummy gate and a half less from 10 nm on", () => {
  const height = (technology: string) => {
    const of = quantitiesOf({ ...cell("magnetic-tunnel"), technology });
    return of("one_gate_height") / of("access_pitch");
  };
  expect(height("cmos-16")).toBeCloseTo(2, 12);
  expect(height("cmos-7")).toBeCloseTo(1.5, 12);
  expect(height("cmos-5")).toBeCloseTo(1.5, 12);
});

import { expect, it } from "vitest";
import { OXIDE_TRANSISTOR, quantitiesOf } from "./study.ts";

const KEYS = { cell: OXIDE_TRANSISTOR };
const at = (self_terminated: string) => quantitiesOf({ ...KEYS, overrides: { self_terminated } });

it("a pulse that ends itself is one, shorter than the one made for the slowest cell, and no read follows", () => {
  const [verified, ended] = [at("0"), at("1")];
  // The class's pulse of 30 ns; one and a half of them and as many reads, or six tenths of one.
  const reads = 1.5 * (verified("bit_line_delay") + verified("sense_delay"));
  expect(verified("pulse_time") / (45e-9 + reads)).toBeCloseTo(1, 12);
  expect(ended("pulse_time") / 18e-9).toBeCloseTo(1, 12);
  expect(ended("cell_write_energy") / verified("cell_write_energy")).toBeCloseTo(0.4, 12);
  expect(ended("verify_energy")).toBe(0);
  expect(verified("verify_energy")).toBeGreaterThan(0);
  for (const name of ["read_latency", "macro_area", "standby_power"])
    expect(ended(name), name).toBe(verified(name));
});

it("a word of a crossbar takes a pulse for each polarity, and one where a diode lets one through", () => {
  const at = (selector: string) => {
    const tile = { rows: 16, columns: 64, column_share: 2 };
    const cell = { switch: "oxide-bilayer", selector };
    return quantitiesOf({ cell, tile, capacity: "16 Kib" });
  };
  const [tunnel, diode] = [at("nonlinear-tunnel"), at("diode-silicon")];
  expect(diode("polarity_share")).toBe(1);
  // The budget is for three cells at once: 11 groups of 30 ns, and one of 20 ns for what is set in the last of resets.
  expect([tunnel("row_cells_written"), tunnel("groups")]).toEqual([3, 11]);
  expect(tunnel("polarity_share")).toBeCloseTo(1 + 20 / 30 / 11, 12);
  const pulses = (11 * tunnel("write_time") + (20 / 30) * tunnel("write_time")) / 11;
  const reads = 1.5 * (tunnel("bit_line_delay") + tunnel("sense_delay"));
  expect(tunnel("pulse_time") / (pulses + reads)).toBeCloseTo(1, 12);
  const held = tunnel("half_selected_power") * pulses * 11;
  expect(tunnel("half_select_energy") / held).toBeCloseTo(1, 12);
});

it("an unverified write is one pulse without a read, and costs what it costs", () => {
  const q = quantitiesOf({ ...KEYS, overrides: { write_verified: 0 } });
  expect(q("pulse_time") / 30e-9).toBeCloseTo(1, 12);
  expect(q("verify_energy")).toBe(0);
  expect(q("cell_write_energy") / at("0")("cell_write_energy")).toBeCloseTo(1 / 1.5, 12);
});

it("a floating-gate memory has no such writes, and reads none of it", () => {
  expect(() => quantitiesOf({ cell: "split-gate-flash" })("pulse_share")).toThrow("no quantity");
});

it("a sleeping static array keeps its data at seven tenths of the supply, at less current", () => {
  const q = quantitiesOf({ cell: "sram-6t" });
  // 65 nm at 1 V and 0.1 V of threshold per volt: 0.3 V less at the drain are 30 mV, a third of a decade of 92 mV.
  const ratio = 0.7 * 10 ** (-0.03 / 0.092);
  const off = q("standby_power") - q("all_cells_leakage");
  const share = q("power_switch_leak_share");
  const paper = ratio * q("all_cells_leakage") + share * off;
  expect(q("sleep_power") / paper).toBeCloseTo(1, 9);
});

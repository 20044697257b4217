// The far corner's figures against sums that ideal wires allow, and against laws by hand.
import { expect, test } from "vitest";
import { cornerCase } from "../../../src/estimate/crossbar/procedure.ts";
import { solveCorner } from "../../../src/estimate/crossbar/solve.ts";
import type { Scheme } from "../../../src/models/crossbar/contract.ts";
import { junctionOf } from "../../../src/models/selector/current.ts";

const SWITCH = {
  on_resistance: 20e3,
  off_resistance: 1e6,
  read_voltage: 0.3,
  scale_voltage: 0.25,
  array_read_voltage: 0.3,
  array_write_voltage: 1.2,
  switch_write_current: 50e-6,
};
const THRESHOLD = {
  ...SWITCH,
  selector_threshold_voltage: 1.5,
  selector_hold_voltage: 0.9,
  selector_off_current: 1e-9,
  selector_on_resistance: 2e3,
  selector_off_nonlinearity: 100,
  array_read_voltage: 1.65,
  array_write_voltage: 2.2,
};

function corner(kind: "none" | "threshold" | "diode", scheme: Scheme, values: object) {
  return solveCorner(
    cornerCase(kind, { read: scheme, write: scheme }, values as Record<string, number>),
  );
}

const tile = (rows: number, columns: number, wire: number) => ({
  rows,
  columns,
  row_segment_resistance: wire,
  column_segment_resistance: wire,
});

test("with ideal wires one-half bias gives the half-select sums", () => {
  const [m, n] = [7, 5];
  const got = corner("none", "one-half", { ...SWITCH, ...tile(m, n, 0) });
  const off = (v: number) => (0.3 / 1e6 / Math.sinh(0.3 / 0.25)) * Math.sinh(v / 0.25);
  expect(got.read_on_column_current / (0.3 / 20e3 + (m - 1) * off(0.15)) - 1).toBeCloseTo(0, 9);
  expect(got.read_off_column_current / (off(0.3) + ((m - 1) * 0.15) / 20e3) - 1).toBeCloseTo(0, 9);
  expect(got.half_selected_power / (((m + n - 2) * 0.6 ** 2) / 20e3) - 1).toBeCloseTo(0, 9);
  expect(got.write_leak_current / (((n - 1) * 0.6) / 20e3) - 1).toBeCloseTo(0, 9);
  expect(got.disturb_voltage).toBeCloseTo(0.6, 9);
  expect(got.write_delivered_voltage).toBeCloseTo(1.2, 9);
  expect(got.write_line_drop).toBeCloseTo(0, 9);
});

test("with ideal wires one-third bias puts a third across every other junction", () => {
  const [m, n] = [6, 9];
  const got = corner("none", "one-third", { ...SWITCH, ...tile(m, n, 0) });
  expect(got.half_selected_power / (((m * n - 1) * 0.4 ** 2) / 20e3) - 1).toBeCloseTo(0, 9);
  expect(got.disturb_voltage).toBeCloseTo(0.4, 9);
});

test("a grounded read leaves the column alone and loads the row", () => {
  const [m, n] = [7, 5];
  const got = corner("none", "grounded", { ...SWITCH, ...tile(m, n, 0) });
  expect(got.read_on_column_current / (0.3 / 20e3) - 1).toBeCloseTo(0, 9);
  expect(got.read_off_column_current / 0.3e-6 - 1).toBeCloseTo(0, 9);
  expect(got.row_leak_current / (((n - 1) * 0.3) / 20e3) - 1).toBeCloseTo(0, 9);
});

test("floating lines read the sneak current of three groups of junctions", () => {
  const [m, n, r] = [4, 6, 20e3];
  const got = corner("none", "floating", { ...SWITCH, ...tile(m, n, 0) });
  const sneak = r / (n - 1) + r / ((m - 1) * (n - 1)) + r / (m - 1);
  expect(got.read_off_column_current / (0.3e-6 + 0.3 / sneak) - 1).toBeCloseTo(0, 9);
});

test("drivers that are raised by the stated drop give the far corner its write voltage", () => {
  const values = { ...SWITCH, ...tile(24, 24, 5) };
  const plain = corner("none", "one-half", values);
  expect(plain.write_delivered_voltage).toBeLessThan(1.19);
  const edge = 1.2 + plain.write_line_drop;
  // The same cell, as a resistance, asked at the raised voltage: its delivered voltage is 1.2 V.
  const raised = corner("none", "one-half", {
    ...values,
    array_write_voltage: edge,
    switch_write_current: (50e-6 * edge) / 1.2,
  });
  expect(raised.write_delivered_voltage / 1.2 - 1).toBeCloseTo(0, 7);
});

test("a snapped selector holds its voltage and the lines theirs", () => {
  const got = corner("threshold", "one-half", { ...THRESHOLD, ...tile(32, 32, 5) });
  const { selected } = junctionOf("threshold", THRESHOLD, true);
  const across = 1.65 - got.read_line_drop;
  expect(got.cell_on_current / selected.current(across) - 1).toBeCloseTo(0, 8);
  expect(got.cell_on_current / ((across - 0.9) / 22e3) - 1).toBeCloseTo(0, 8);
  expect(got.read_line_drop).toBeGreaterThan(0);
});

test("longer wires and more lines only take more", () => {
  const of = (m: number, wire: number) =>
    corner("none", "one-half", { ...SWITCH, ...tile(m, m, wire) });
  const [base, wires, lines] = [of(16, 2), of(16, 4), of(24, 2)];
  for (const more of [wires, lines]) {
    expect(more.write_delivered_voltage).toBeLessThan(base.write_delivered_voltage);
    expect(more.read_line_drop).toBeGreaterThan(base.read_line_drop);
    expect(more.disturb_voltage).toBeGreaterThan(base.disturb_voltage);
  }
});

test("a 2 x 2 floating array with all neighbours on reads 333 times the off cell's current", () => {
  const off = 1000 * 20e3;
  // Three on junctions in series past an off one: 1000 / 3.
  const got = corner("none", "floating", {
    ...SWITCH,
    off_resistance: off,
    ...tile(2, 2, 0),
  });
  const own = 0.3 / off;
  expect((got.read_off_column_current - own) / own).toBeCloseTo(1000 / 3, 4);
});

test("a network that would take the machine's memory is refused before any of it is made", () => {
  const many = { ...SWITCH, ...tile(65536, 65536, 1) };
  expect(() => corner("none", "one-half", many)).toThrow(/too-large: .*65536 rows/);
});

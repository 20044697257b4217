// A designer's paper: circuits as lists of devices, chains sized inverter by inverter. Nothing is read from the sheets
// but their inputs, and those have no round values, since a one hides a missing factor.
import { expect } from "vitest";
import type { Sheet } from "../../../../src/formulas/index.ts";
import { effort } from "../../../../src/models/periphery/effort.ts";
import { evaluate, GIVEN } from "../fixture.ts";

/** A number in [0, 1) of a name. */
function spread(name: string): number {
  let h = 7;
  for (const letter of name) h = (h * 31 + letter.charCodeAt(0)) % 1009;
  return h / 1009;
}

const WHOLE: Readonly<Record<string, number>> = {
  decks: 2,
  groups: 3,
  column_lines: 2,
  row_lines: 2,
  tiles_active: 2,
  tiles_per_bank: 6,
  check_bits: 7,
  spare_rows: 3,
  spare_columns: 9,
  cells_written: 13,
  row_cells_written: 5,
  row_write_current: 3.1e-4,
  supply: 0.93,
  wide_layout_share: 1.13,
  inverter_parasitic: 1.07,
  route_share: 1.21,
  drive_effort: 6.5,
};

/** Inputs without round values: whole numbers stay whole. */
export const ODD: Readonly<Record<string, number>> = Object.fromEntries(
  Object.entries({ ...GIVEN, ...WHOLE }).map(([name, value]) => {
    if (WHOLE[name] !== undefined || Number.isInteger(value)) return [name, value];
    return [name, value * (0.9 + 0.3 * spread(name))];
  }),
);

const TYPICAL: Readonly<Record<string, number>> = {
  m: 3e-6,
  F: 40e-15,
  A: 60e-6,
  V: 0.7,
  ohm: 3e3,
  s: 60e-12,
  J: 2e-12,
  W: 1e-6,
  "m^2": 4e-9,
  "1": 6,
};

export type Values = Readonly<Record<string, number>>;

/** All inputs and results of a sheet at odd values, some of them replaced. */
export function valuesOf(sheet: Sheet, more: Values = {}): Values {
  const missing = Object.entries(sheet.inputs).filter(([name]) => ODD[name] === undefined);
  const typical = missing.map(([name, { unit }]) => {
    const value = TYPICAL[unit] ?? Number.NaN;
    return [name, unit === "1" ? value : value * (0.9 + 0.3 * spread(name))] as const;
  });
  const given = { ...ODD, ...Object.fromEntries(typical), ...more };
  // With the stage effort of the inverters that the sheets share, and their thick-oxide units.
  const sheets = sheet === effort ? [effort] : [effort, sheet];
  return {
    ...given,
    ...evaluate(
      sheets.map((of) => ({ of })),
      given,
    ),
  };
}

/** Expects figures of a sheet as the paper has them, to nine digits. */
export function expectPaper(values: Values, paper: Values, where = ""): void {
  for (const [name, wanted] of Object.entries(paper)) {
    const got = values[name];
    const error = wanted === 0 ? Math.abs(got ?? Number.NaN) : Math.abs(got! / wanted - 1);
    expect(error, `${where} ${name}: ${got}, on paper ${wanted}`).toBeLessThan(1e-9);
  }
}

/** What differs between core and thick-oxide devices. */
export function devices(raised: boolean, v: Values) {
  return raised
    ? {
        gate: v["thick_gate_capacitance"]!,
        linear: v["thick_unit_linear_resistance"]!,
        saturated: v["thick_unit_resistance"]!,
        perWidth: v["thick_device_area_per_width"]!,
        leak: v["thick_leakage_power_per_width"]!,
        contacted: v["thick_contacted_pitch"]!,
        tau: v["thick_tau"]!,
        smallest: v["thick_unit_capacitance"]!,
      }
    : {
        gate: v["gate_capacitance"]!,
        linear: v["unit_linear_resistance"]!,
        saturated: v["unit_resistance_n"]!,
        perWidth: v["device_area_per_width"]!,
        leak: v["leakage_power_per_width"]!,
        contacted: v["contacted_gate_pitch"]!,
        tau: v["tau"]!,
        smallest: v["unit_gate_input_capacitance"]!,
      };
}

/** An n-type device and a p-type one beside it that carries as much. */
export const pair = (v: Values): number => 1 + 1 / v["p_to_n_current"]!;

/** A chain of inverters from the smallest one to a load, sized from the load backwards. */
export function chainTo(load: number, raised: boolean, v: Values, odd = false) {
  const { gate, tau, smallest } = devices(raised, v);
  const inputs: number[] = [];
  let drives = Math.max(load, smallest);
  const end = drives;
  while (drives / v["drive_effort"]! > smallest * (1 + 1e-12)) {
    drives /= v["drive_effort"]!;
    inputs.unshift(drives);
  }
  inputs.unshift(smallest);
  if (odd && inputs.length % 2 === 0) inputs.unshift(smallest);
  const loads = [...inputs.slice(1), end];
  const delay = inputs.reduce((t, c, i) => t + tau * (loads[i]! / c + v["inverter_parasitic"]!), 0);
  return { inverters: inputs.length, delay, width: inputs.reduce((w, c) => w + c / gate, 0) };
}

/** Devices side by side, each with its isolation; on the pitch of the lines or beside them. */
export function layout(
  width: number,
  count: number,
  raised: boolean,
  place: "wide" | "pitch",
  v: Values,
): number {
  let area = 0;
  for (let k = 0; k < Math.round(count); k++) {
    area +=
      (width / count + v["isolation_pitches"]! * v["contacted_gate_pitch"]!) *
      devices(raised, v).perWidth;
  }
  return area * v[`${place}_layout_share`]!;
}

/** Swing of a switch's gate in a read: the input-output supply will do, unless a write has less. */
export function readSwing(raised: boolean, v: Values): number {
  const core = v["supply"]!;
  if (!raised) return core;
  return Math.min(Math.max(core, v["io_supply"]!), writeSwing(true, v));
}

/** In a write it stands above what it passes. */
export function writeSwing(raised: boolean, v: Values): number {
  return raised ? Math.max(v["supply"]!, v["write_voltage"]!) : v["supply"]!;
}

/** Energy of one charge and discharge of gates and drains of so much width. */
export function own(width: number, raised: boolean, swing: number, v: Values): number {
  return width * (devices(raised, v).gate + v["drain_capacitance"]!) * swing * swing;
}

/** Rows of circuits behind each other where lines are closer than the circuits. */
export function behind(needed: number, pitch: number): number {
  let rows = 1;
  while (rows * pitch < needed * (1 - 1e-12)) rows++;
  return rows;
}

/** Widest of a device that loses a share of the write voltage at a current, and of the narrowest device. */
export function switchFor(current: number, raised: boolean, voltage: number, v: Values): number {
  const allowed = v["drop_share"]! * voltage;
  return Math.max(v["gate_width"]!, (devices(raised, v).linear * current) / allowed);
}

/** Points of design: small and large currents, voltages below and above the supplies. */
export const POINTS: readonly Values[] = [
  {},
  {
    write_voltage: 3.4,
    write_current: 2.3e-3,
    line_current: 4.1e-3,
    row_swing: 0.6,
    write_row_swing: 3.1,
    cell_width: 0.19e-6,
    cell_height: 0.11e-6,
    line_pitch: 0.13e-6,
    row_capacitance: 3.3e-12,
    column_capacitance: 0.7e-12,
  },
  {
    write_voltage: 0.7,
    write_current: 1e-7,
    line_current: 1e-7,
    row_swing: 1.7,
    write_row_swing: 0.5,
    row_capacitance: 0.11e-15,
    column_capacitance: 4e-15,
    selected_columns: 8,
  },
];

/**
 * A flip-flop of two latches behind switches: in a clock its two own inverters and the gates of four
 * pairs of switches; where its bit changes, every other time a rise of what is left: drains on both
 * sides of the switches, and all other inverters.
 */
export function flipFlop(activity: number, v: Values): number {
  const gates = v["unit_gate_input_capacitance"]! * v["supply"]! ** 2;
  const drains = v["unit_gate_energy"]! - gates;
  const inverters = (v["flip_flop_transistors"]! - 8 - 4) / 2;
  const clocked = 2 * v["unit_gate_energy"]! + 4 * gates;
  return clocked + (activity / 2) * (inverters * v["unit_gate_energy"]! + 2 * 4 * drains);
}

/** A 65 nm process and one tile, as the periphery's sheets read them. */
import {
  assemble,
  type Compiled,
  compile,
  type Instance,
  parseFormula,
} from "../../../src/formulas/index.ts";
import { KNOWN } from "../../../src/models/known.ts";
import { defaults } from "../../../src/models/periphery/defaults.ts";
import { GLOBALS } from "../../../src/models/periphery/globals.ts";

/** Published middle values of the node (shared/technology) and round organisation figures. SI. */
export const GIVEN: Readonly<Record<string, number>> = {
  ...Object.fromEntries(defaults.map((one) => [one.name, one.value])),
  supply: 1,
  io_supply: 2.5,
  threshold_voltage: 0.33,
  nmos_on_current: 1000,
  // On-current over an overdrive of 0.67 V.
  transconductance: 1000 / 0.67,
  fan_out_delay: 20e-12,
  overdrive: 0.67,
  swing_at_temperature: 0.092,
  drive_exponent: 1.3,
  p_to_n_current: 0.55,
  gate_capacitance: 1e-9,
  drain_capacitance: 0.8e-9,
  fo4_delay: 20e-12,
  minimum_width: 120e-9,
  contacted_gate_pitch: 220e-9,
  flip_flop_area: 7.5e-12,
  matching_coefficient: 2.8e-9,
  thick_gate_length: 0.3e-6,
  thick_contacted_pitch: 0.75e-6,
  thick_gate_capacitance: 1.7e-9,
  intermediate_wire_width: 140e-9,
  intermediate_wire_spacing: 140e-9,
  tau: 4e-12,
  unit_resistance_n: 1.3e-3,
  unit_linear_resistance: 0.27e-3,
  thick_unit_resistance: 6e-3,
  thick_unit_linear_resistance: 1.4e-3,
  thick_leakage_power_per_width: 2.5e-5,
  transistor_area: 0.28e-12,
  device_area_per_width: 286e-9,
  thick_device_area_per_width: 975e-9,
  unit_gate_input_capacitance: 0.338e-15,
  unit_gate_energy: 0.61e-15,
  logic_pair_energy: 2.03e-15,
  transistor_leakage: 6e-9,
  leakage_power_per_width: 0.05,
  gate_width: 240e-9,
  route_wire_resistance_per_length: 0.743e6,
  route_wire_capacitance_per_length: 0.1945e-9,
  line_write_current: 6e-3,
  active_read_energy: 1e-11,
  active_write_energy: 1e-11,
  column_series_resistance: 2e3,
  row_sink_current: 100e-6,
  access_drive_share: 0.5,
  worst_drive_share: 0.75,
  write_polarities: 2,
  source_lines_per_cell: 1,
  set_time: 50e-9,
  reset_time: 25e-9,
  erase_voltage: 10,
  capacity: 2 ** 20,
  word: 32,
  banks: 4,
  rows: 256,
  columns: 256,
  decks: 1,
  bits_per_cell: 1,
  cells_per_bit: 1,
  on_resistance: 6e3,
  off_resistance: 40e3,
  read_voltage: 0.2,
  self_terminated: 0,
  column_share: 8,
  check_bits: 0,
  spare_rows: 0,
  spare_columns: 0,
  tiles_per_bank: 4,
  tiles_active: 1,
  sense_amplifiers: 32,
  data_ports: 32,
  groups: 1,
  cell_width: 1e-6,
  cell_height: 0.5e-6,
  column_lines: 1,
  row_lines: 1,
  row_swing: 1.5,
  write_row_swing: 1.8,
  column_swing: 0.15,
  write_column_swing: 1,
  cell_on_current: 30e-6,
  cell_off_current: 4.9e-6,
  signal_current: 25e-6,
  tail_on_spread: 0.1,
  tail_off_spread: 0.2,
  column_leak_current: 0.1e-6,
  write_current: 100e-6,
  switch_write_current: 90e-6,
  write_leak_current: 10e-6,
  write_voltage: 1.5,
  write_time: 50e-9,
  verify_pulses: 2,
  row_length: 256e-6,
  column_length: 128e-6,
  row_capacitance: 200e-15,
  column_capacitance: 80e-15,
  column_resistance: 50,
  write_pulses: 2,
  macro_side: 1e-3,
  row_line_delay: 20e-12,
  column_line_delay: 30e-12,
  corrected_bits: 2,
};

const UNITS: Readonly<Record<string, string>> = {
  ...Object.fromEntries(
    Object.entries({ ...KNOWN, ...GLOBALS }).map(([name, { unit }]) => [name, unit]),
  ),
  ...Object.fromEntries(defaults.map(({ name, unit }) => [name, unit])),
};

function unitOf(name: string, instances: readonly Instance[]): string {
  for (const { of, bind = {} } of instances) {
    for (const [input, { unit }] of Object.entries(of.inputs)) {
      if ((bind[input] ?? input) === name) return unit;
    }
  }
  return UNITS[name] ?? "1";
}

const kept = new WeakMap<readonly Instance[], Map<string, Compiled>>();

/** The program of these instances; kept, because a property runs it some hundred times. */
function programOf(instances: readonly Instance[], names: readonly string[]): Compiled {
  const own = kept.get(instances) ?? new Map<string, Compiled>();
  kept.set(instances, own);
  const key = names.join(" ");
  const known = own.get(key);
  if (known !== undefined) return known;
  const given = names.map((name) => ({ name, unit: unitOf(name, instances) }));
  const made = compile(assemble(instances, given, parseFormula));
  own.set(key, made);
  return made;
}

/** All quantities of these instances at the fixture's values, with some of them replaced. */
export function evaluate(
  instances: readonly Instance[],
  replaced: Readonly<Record<string, number>> = {},
): Readonly<Record<string, number>> {
  const written = new Set(
    instances.flatMap(({ of, prefix = "" }) =>
      Object.keys(of.kind === "sheet" ? of.formulas : of.outputs).map((name) => prefix + name),
    ),
  );
  const values: Record<string, number> = { ...GIVEN, ...replaced };
  const compiled = programOf(
    instances,
    Object.keys(values).filter((name) => !written.has(name)),
  );
  const inputs = Float64Array.from(compiled.inputs, (name) => values[name] ?? Number.NaN);
  const outputs = new Float64Array(compiled.names.length);
  compiled.evaluate(inputs, outputs);
  return Object.fromEntries(compiled.names.map((name, i) => [name, outputs[i] ?? Number.NaN]));
}

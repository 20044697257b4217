/**
 * The quantities that model sheets read from elsewhere: name, SI unit, meaning, symbol. Stated
 * once.
 */
import type { InputDefinition } from "../formulas/sheet.ts";

type Entry = readonly [unit: string, meaning: string, symbol?: string];

const TECHNOLOGY: Record<string, Entry> = {
  feature: ["m", "half pitch of the crossbar's wires", "F"],
  metal_half_pitch: ["m", "half pitch of the tightest metal"],
  contacted_gate_pitch: ["m", "contacted gate pitch"],
  supply: ["V", "core supply", "V_{DD}"],
  nominal_supply: ["V", "supply at which the technology states currents and delay", "V_0"],
  io_supply: ["V", "supply of thick-oxide devices", "V_{IO}"],
  nmos_on_current: ["A/m", "on-current of an n-type device per width", "I_{on}"],
  nmos_off_current: [
    "A/m",
    "off-current of an n-type device per width at the reference temperature",
  ],
  reference_temperature: ["K", "temperature at which the technology is stated", "T_0"],
  temperature: ["K", "temperature", "T"],
  gate_capacitance: ["F/m", "gate capacitance per width", "C_g"],
  drain_capacitance: ["F/m", "drain capacitance per width", "C_d"],
  fo4_delay: ["s", "delay of an inverter that drives four like itself", "t_{FO4}"],
  minimum_width: ["m", "smallest device width"],
  gate_density: ["1/m^2", "two-input gates per area"],
  threshold_voltage: ["V", "threshold voltage of an n-type device", "V_{t0}"],
  subthreshold_swing: [
    "V",
    "gate voltage per decade of current at the reference temperature",
    "S_0",
  ],
  threshold_temperature_slope: ["V/K", "change of the threshold with temperature"],
  drain_barrier_lowering: ["1", "fall of the threshold per drain voltage", "\\sigma"],
  fixed_leakage_current: [
    "A/m",
    "current per width through gate and junctions at nominal supply",
    "I_g",
  ],
  p_to_n_current: ["1", "on-current of a p-type device over that of an n-type one"],
  thick_gate_length: ["m", "gate length of a thick-oxide device"],
  thick_on_current: ["A/m", "on-current of a thick-oxide device per width"],
  thick_contacted_pitch: ["m", "contacted gate pitch of thick-oxide devices"],
  thick_gate_capacitance: ["F/m", "gate capacitance of a thick-oxide device per width"],
  sram_6t_cell_area: ["m^2", "published 6T cell of the node, 0 where none is"],
  local_wire_permittivity: ["1", "relative permittivity between local wires"],
  bulk_resistivity: ["ohm m", "resistivity of the bulk metal", "\\rho_0"],
  mean_free_path: ["m", "mean free path of the electrons", "\\lambda"],
  surface_specularity: ["1", "share of mirror-like reflection at surfaces", "p"],
  grain_reflection: ["1", "reflection at grain boundaries", "R"],
  geometry_factor: ["1", "fitted factor of the surface term", "C"],
};

const SWITCH: Record<string, Entry> = {
  on_resistance: ["ohm", "resistance of the on state", "R_{on}"],
  off_resistance: ["ohm", "resistance of the off state at the read voltage", "R_{off}"],
  nonlinearity: ["1", "current at the read voltage over that at half of it", "K"],
  read_voltage: ["V", "voltage at the switch in a read", "V_r"],
  scale_voltage: ["V", "scale of the off state's sinh law", "S"],
  set_voltage: ["V", "voltage of the set pulse", "V_{set}"],
  reset_voltage: ["V", "voltage of the reset pulse", "V_{reset}"],
  set_time: ["s", "width of the set pulse"],
  reset_time: ["s", "width of the reset pulse"],
  current_limit: ["A", "largest current of the set pulse", "I_c"],
  film_thickness: ["m", "thickness of the switch film"],
  write_polarities: ["1", "polarities of the pulses that write"],
  spin_transfer: ["1", "1 where the torque of the current's spins writes"],
  lesser_write_share: ["1", "current of the lesser write direction over that of the other"],
  line_write_current: ["A", "current of each of two wires whose field writes the element"],
  element_width: ["m", "short side of a magnetic element"],
  element_length: ["m", "long side of a magnetic element"],
  film_permittivity: ["1", "relative permittivity of the switch film"],
  junction_voltage: ["V", "voltage of the selected junction", "V"],
};

const SELECTOR: Record<string, Entry> = {
  selector_threshold_voltage: ["V", "voltage at which the selector snaps on"],
  selector_hold_voltage: ["V", "least voltage at which it stays on"],
  selector_off_current: ["A", "off current at half of the threshold, or of the stated voltage"],
  selector_on_resistance: ["ohm", "series resistance of the selector when on"],
  selector_turn_on_time: ["s", "time the selector takes to snap on"],
  selector_saturation_current: ["A", "saturation current of the diode", "I_s"],
  selector_emission_voltage: ["V", "voltage per factor e of current"],
  selector_nonlinearity: ["1", "current at the stated voltage over that at half of it"],
  selector_nonlinearity_voltage: ["V", "voltage at which the nonlinearity is stated"],
  selector_least_cell_squares: ["1", "least area of an array transistor's cell in squares of F"],
  selector_width_ratio: ["1", "effective over layout width of an array transistor"],
  selector_on_current: ["A/m", "saturation current of an array transistor per effective width"],
  selector_closed_current: ["A", "current of an array transistor that is off"],
  selector_strap_cells: ["1", "cells of a row between two straps"],
  selector_current_gain: ["1", "collector over base current of a bipolar selector"],
  read_junction_voltage: ["V", "voltage of a junction in silicon at the read current"],
  row_sink_share: ["1", "share of a cell's current that its row carries"],
  selector_gate_voltage: ["V", "boosted row voltage of an array transistor"],
  selector_prefactor: ["A", "current scale of the selector's sinh law"],
  selector_scale_voltage: ["V", "voltage scale of the selector's sinh law"],
};

const ORGANISATION: Record<string, Entry> = {
  rows: ["1", "rows of a tile", "m"],
  columns: ["1", "columns of a tile", "n"],
  decks: ["1", "stacked crossbars"],
  bits_per_cell: ["1", "bits of one cell", "b"],
  row_capacitance: ["F", "capacitance of a whole row"],
  column_capacitance: ["F", "capacitance of a whole column", "C_{BL}"],
  column_resistance: ["ohm", "resistance of a whole column wire", "R_{BL}"],
  row_wire_resistance_per_length: ["ohm/m", "resistance per length of a row wire"],
  column_wire_resistance_per_length: ["ohm/m", "resistance per length of a column wire"],
};

const BASELINE: Record<string, Entry> = {
  cell_area_to_sram_6t: ["1", "area of the cell over that of a 6T cell"],
  cell_area_in_feature_squared: ["1", "area of the cell in squares of the half pitch"],
  retention_time: ["s", "time a charge lasts at the stated temperature"],
  storage_capacitance: ["F", "capacitor of a dynamic cell", "C_s"],
  read_current: ["A", "read current of an erased floating-gate cell"],
  program_current: ["A", "current of a floating-gate cell while programmed"],
  program_voltage: ["V", "gate voltage while programming"],
  drain_voltage: ["V", "drain voltage while programming"],
  erase_voltage: ["V", "erase voltage"],
  program_time: ["s", "program time of one cell"],
  erase_time: ["s", "erase time of a block"],
  read_gate_voltage: ["V", "gate voltage of a floating-gate read"],
  tunnel_oxide_thickness: ["m", "thickness of the tunnel oxide"],
};

/** What the sheets of one folder compute and those of another read. */
const COMPUTED: Record<string, Entry> = {
  on_current: ["A/m", "on-current of an n-type device per width at supply and temperature"],
  off_current: ["A/m", "off-current of an n-type device per width at the temperature", "I_{off}"],
  leakage_heat_ratio: ["1", "off-current at the temperature over that at the reference"],
  standing_current: ["A/m", "leakage per width of circuits, gate and junctions included"],
  memory_drive_ratio: ["1", "on-current of memory devices over that at nominal supply"],
  fixed_current: ["A/m", "current per width through gate and junctions at the supply"],
  memory_off_ratio: ["1", "leakage of devices with a high threshold over that of fast ones"],
  sram_leakage_share: ["1", "leakage of memory devices over that of fast logic devices"],
  memory_least_off_current: ["A/m", "off-current below which memory devices are not pushed"],
  drive_exponent: ["1", "power of the overdrive that the on-current follows", "\\alpha"],
  swing_at_temperature: ["V", "gate voltage per decade of current at the temperature", "S"],
  drive_ratio: ["1", "on-current over the published one"],
  mobility_ratio: ["1", "mobility over that at the reference temperature"],
  overdrive_scale: ["V", "voltage over which the overdrive fades into an exponential"],
  nominal_overdrive_scale: ["V", "the same at the reference temperature"],
  overdrive: ["V", "effective overdrive", "V_{ov}"],
  nominal_overdrive: ["V", "effective overdrive at nominal supply"],
  threshold_at_supply: ["V", "threshold voltage with the supply at the drain"],
  transconductance: ["A/(V m)", "transconductance per width of a device at full drive"],
  fan_out_delay: ["s", "fan-out-of-four delay at supply and temperature"],
  tau: ["s", "unit of logical effort"],
  unit_resistance_n: ["ohm m", "switching resistance of an n-type device times its width", "R_n"],
  unit_linear_resistance: [
    "ohm m",
    "resistance of an n-type device at small drain voltage times its width",
  ],
  thick_unit_linear_resistance: [
    "ohm m",
    "resistance of a thick-oxide device at small drain voltage times its width",
  ],
  drain_saturation_voltage: ["V", "drain voltage at which a core device saturates", "V_{D0}"],
  thick_drain_saturation_voltage: ["V", "drain voltage at which a thick-oxide device saturates"],
  thick_off_current: ["A/m", "off-current of the thick-oxide device at the reference temperature"],
  layout_width_ratio: ["1", "layout width of a device over its effective width"],
  set_current: ["A", "current of the set pulse", "I_{set}"],
  reset_current: ["A", "largest current of the reset pulse", "I_{reset}"],
  switch_write_current: ["A", "current that the write path must carry"],
  switch_write_voltage: ["V", "voltage that the switch needs in a write"],
  switch_write_time: ["s", "pulses of one write of the switch"],
  write_pulses: ["1", "pulses of one write, verified"],
  junction_capacitance: ["F", "capacitance of the switch film at a junction", "C_j"],
  selector_delay: ["s", "time until the selector conducts"],
  array_read_voltage: ["V", "junction voltage of the selected cell in a read"],
  array_write_voltage: ["V", "junction voltage of the selected cell in a write"],
  access_cell_width: ["m", "outline along the row that the access transistor needs"],
  access_cell_height: ["m", "outline along the column that the access transistor needs"],
  access_gate_load: ["F", "gate capacitance of the access transistor"],
  access_drain_load: ["F", "drain capacitance of the access transistor"],
  access_gate_voltage: ["V", "gate voltage of the access transistor in a read"],
  access_write_gate_voltage: ["V", "gate voltage of the access transistor in a write"],
  access_resistance: ["ohm", "resistance of the access transistor in a read"],
  access_off_current: ["A", "current of the access transistor when off"],
  access_drop: ["V", "drain voltage of the access transistor at the write current"],
  half_select_share: [
    "1",
    "largest voltage of an unselected junction over that of the selected one, in a write",
  ],
  column_bias_share: [
    "1",
    "voltage of an unselected column over that of the selected row in a read",
  ],
  write_column_bias_share: [
    "1",
    "voltage of an unselected column over that of the selected row in a write",
  ],
  disturb_on_current: ["A", "current of an unselected junction that is on, in a write"],
  disturb_off_current: ["A", "current of an unselected junction that is off, in a write"],
  disturb_voltage: ["V", "largest voltage of an unselected junction in a write"],
  cell_width: ["m", "outline of the cell along the row"],
  cell_height: ["m", "outline of the cell along the column"],
  cell_on_current: ["A", "current of the selected cell, on"],
  cell_off_current: ["A", "current of the selected cell, off"],
  column_leak_current: ["A", "current of the unselected cells of a column"],
  read_margin_current: ["A", "least difference of column current between the two states"],
  write_leak_current: ["A", "current of all half-selected cells of the selected row in a write"],
  write_line_drop: ["V", "voltage beyond the cell's own at the driver, for the far corner"],
  sram_6t_area: ["m^2", "area of the 6T cell"],
  access_width: ["m", "width of the access device"],
  access_saturation_current: ["A", "saturation current of the access device"],
  read_stack_current: ["A", "current through access and driver in series"],
  cell_leak_current: ["A", "leakage of the cell's core"],
  read_buffer_leak_current: ["A", "leakage of one read buffer that is off"],
  node_capacitance: ["F", "capacitance of one inner node"],
  write_row_swing: ["V", "swing of the row in a write"],
  stored_energy: ["J", "energy that restores the charge of the cell"],
  restore_swing: ["V", "by how much a column moves in a refresh"],
};

/** Currents of a junction at the read or write voltage, and what is made of them. */
function junctionEntries(at: string): Record<string, Entry> {
  const found: Record<string, Entry> = {};
  for (const state of ["on", "off"]) {
    for (const [part, what] of [
      ["full", "the selected junction"],
      ["unselected", "an unselected junction at the whole voltage"],
      ["half", "an unselected junction at half of the voltage"],
      ["third", "an unselected junction at a third of the voltage"],
    ]) {
      found[`${at}_${state}_${part}`] = ["A", `${at} current of ${what}, ${state}`];
    }
    found[`${at}_${state}_slope`] = [
      "1/ohm",
      `slope of the ${at} current of the selected junction, ${state}`,
    ];
    found[`${at}_sneak_${state}_sneak_current`] = [
      "A",
      `${at} current past the selected junction, all ${state}`,
    ];
  }
  return found;
}

function entries(...groups: readonly Record<string, Entry>[]): Record<string, InputDefinition> {
  const all: Record<string, InputDefinition> = {};
  for (const group of groups) {
    for (const [name, [unit, meaning, symbol]] of Object.entries(group)) {
      all[name] = symbol === undefined ? { unit, meaning } : { unit, meaning, symbol };
    }
  }
  return all;
}

/**
 * What sheets of this project may read from the technology, the switch, the selector, the
 * organisation, a baseline.
 */
export const KNOWN: Readonly<Record<string, InputDefinition>> = entries(
  TECHNOLOGY,
  SWITCH,
  SELECTOR,
  ORGANISATION,
  BASELINE,
  COMPUTED,
  junctionEntries("read"),
  junctionEntries("write"),
);

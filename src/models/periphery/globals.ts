/**
 * The quantities that only periphery sheets read from the rest of a design, beside the common list:
 * name, SI unit, meaning. Stated once.
 */
import type { InputDefinition } from "../../formulas/sheet.ts";

type Entry = readonly [unit: string, meaning: string];

const PROCESS: Record<string, Entry> = {
  flip_flop_area: ["m^2", "area of one flip-flop"],
  matching_coefficient: ["V m", "matching coefficient of the threshold of a pair"],
  intermediate_wire_width: ["m", "width of an intermediate wire"],
  intermediate_wire_spacing: ["m", "spacing of intermediate wires"],
  thick_unit_resistance: ["ohm m", "resistance of a thick-oxide device times its width"],
  thick_leakage_power_per_width: ["W/m", "leakage power per width of a thick-oxide device"],
  transistor_area: ["m^2", "area of an average logic transistor"],
  device_area_per_width: ["m", "layout area of a wide device per width"],
  thick_device_area_per_width: ["m", "layout area of a wide thick-oxide device per width"],
  unit_gate_input_capacitance: ["F", "input capacitance of the minimum inverter"],
  unit_gate_energy: ["J", "switching energy of the minimum inverter"],
  transistor_leakage: ["W", "leakage power of an average logic transistor"],
  leakage_power_per_width: ["W/m", "leakage power of a wide device per width"],
  gate_width: ["m", "average n-type width in logic"],
  route_wire_resistance_per_length: ["ohm/m", "resistance per length of a routing wire"],
  route_wire_capacitance_per_length: ["F/m", "capacitance per length of a routing wire"],
};

const ORGANISATION: Record<string, Entry> = {
  capacity: ["1", "stored bits"],
  word: ["1", "data bits of one access"],
  banks: ["1", "banks of the macro"],
  cells_per_bit: ["1", "cells that store one symbol together"],
  column_share: ["1", "columns that share a sense amplifier"],
  check_bits: ["1", "check bits of a word"],
  spare_rows: ["1", "spare rows of a tile"],
  spare_columns: ["1", "spare columns of a tile"],
  tiles_per_bank: ["1", "tiles of a bank"],
  tiles_active: ["1", "tiles that take part in one access"],
  sense_amplifiers: ["1", "sense amplifiers of a tile"],
  data_ports: ["1", "symbols of a tile that enter or leave it at once"],
  groups: ["1", "groups that are written one after another because of the current limit"],
};

const CELL: Record<string, Entry> = {
  column_lines: ["1", "column wires of one cell"],
  row_lines: ["1", "row wires of one cell"],
  row_swing: ["V", "swing of the selected row in a read"],
  column_swing: ["V", "by how much a column moves in a read"],
  write_row_swing: ["V", "swing of the selected row in a write"],
  write_column_swing: ["V", "by how much a column moves in a write"],
  cell_off_current: ["A", "current of the selected cell, off"],
  tail_on_spread: ["1", "standard deviation of ln R, on"],
  tail_off_spread: ["1", "standard deviation of ln R, off"],
  signal_current: ["A", "difference of current that the sense amplifier can use"],
  write_current: ["A", "write current of one cell, at the driver"],
  switch_write_current: ["A", "write current of one switch"],
  line_write_current: ["A", "current of each of two wires whose field writes the element"],
  write_polarities: ["1", "polarities of the pulses that write"],
  source_lines_per_cell: ["1", "source lines beside each bit line"],
  worst_drive_share: ["1", "saturation current at the worst corner over the typical one"],
  access_drive_share: ["1", "current over the saturation current of a device in its path"],
  write_leak_current: ["A", "current of all half-selected cells of the selected row in a write"],
  write_voltage: ["V", "largest voltage at the edge of the array in a write"],
  write_time: ["s", "pulses of one write of one cell"],
  row_sink_current: ["A", "current of one written cell that its row carries"],
  erase_voltage: ["V", "voltage that erases a block"],
  write_pulses: ["1", "pulses of one write of all levels, each followed by a verify read"],
  self_terminated: ["1", "1 where a write ends each pulse with its own cell's switching"],
  verify_pulses: ["1", "pulses of one write, each followed by a verify read"],
  row_length: ["m", "length of a row wire"],
  column_length: ["m", "length of a column wire"],
  macro_side: ["m", "side of the macro, a guess that the floor plan confirms"],
  row_line_delay: ["s", "delay of the distributed row wire"],
  column_line_delay: ["s", "delay of the distributed column wire"],
};

/** What the periphery's own unprefixed sheets (effort, lines) give to all parts. */
const SHARED: Record<string, Entry> = {
  best_stage_effort: ["1", "stage effort that makes a chain fastest"],
  thick_tau: ["s", "unit of logical effort of thick-oxide inverters"],
  thick_unit_capacitance: ["F", "input capacitance of the smallest thick-oxide inverter"],
  logic_pair_energy: ["J", "energy of an average pair of logic transistors and its wires"],
  driven_rows: ["1", "row wires of a tile that need a driver"],
  driven_columns: ["1", "column wires of a tile that need a switch or a driver"],
  decoded_rows: ["1", "row addresses of a tile, of all its decks, spare rows included"],
  selected_columns: ["1", "columns among which a sense amplifier is switched"],
  row_cells_written: ["1", "cells of one row that are written at once"],
  cells_written: ["1", "cells of the macro that are written at once"],
  coded_word: ["1", "bits of one access with their check bits"],
  address_bits: ["1", "bits of a word's address"],
  tiles_along_row: ["1", "tiles of a bank beside each other along the rows"],
  tiles_along_column: ["1", "tiles of a bank above each other along the columns"],
  row_groups: ["1", "rows of tiles in a bank"],
  column_groups: ["1", "columns of tiles in a bank"],
  main_rows: ["1", "main row lines over a row of tiles"],
  main_row_length: ["m", "length of a main row line"],
  global_column_length: ["m", "length of a global column line"],
  level_references: ["1", "references between the levels of a cell"],
  second_level_current: ["A", "median current of the level after the one of least resistance"],
  last_but_one_level_current: ["A", "median current of the level before the one of most"],
  first_pair_signal: ["A", "difference between the two levels of least resistance"],
  last_pair_signal: ["A", "difference between the two levels of most resistance"],
};

export const GLOBALS: Readonly<Record<string, InputDefinition>> = Object.fromEntries(
  Object.entries({ ...PROCESS, ...ORGANISATION, ...CELL, ...SHARED }).map(
    ([name, [unit, meaning]]) => [name, { unit, meaning }],
  ),
);

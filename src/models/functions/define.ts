/**
 * Writing sheets of functions: short formula entries, and inputs that are read off the formulas.
 */
import type { FormulaDefinition, InputDefinition, Sheet } from "../../formulas/sheet.ts";
import { formula, model } from "../define.ts";
import { functionDefaults } from "./defaults.ts";

export type Formulas = Record<string, FormulaDefinition>;

/** One formula, its text first. */
export function given(
  text: string,
  unit: string,
  meaning: string,
  source = "this project",
  note?: string,
): FormulaDefinition {
  return formula(unit, text, meaning, source, note === undefined ? {} : { note });
}

/** Quantities of processes, cells, arrays and periphery that sheets of functions read. */
const READ: Readonly<Record<string, readonly [unit: string, meaning: string]>> = {
  transistor_area: ["m^2", "area of an average logic transistor"],
  device_area_per_width: ["m", "layout area of a wide device per width"],
  thick_device_area_per_width: ["m", "layout area of a wide thick-oxide device per width"],
  unit_gate_energy: ["J", "switching energy of the minimum inverter"],
  logic_pair_energy: ["J", "energy of an average pair of logic transistors and its wires"],
  unit_gate_input_capacitance: ["F", "input capacitance of the minimum inverter"],
  gate_width: ["m", "average n-type width in logic"],
  tau: ["s", "unit of logical effort: a fifth of the fan-out-of-four delay"],
  best_stage_effort: ["1", "stage effort that makes a chain fastest"],
  inverter_parasitic: ["1", "parasitic delay of an inverter"],
  flip_flop_area: ["m^2", "area of one flip-flop"],
  flip_flop_transistors: ["1", "transistors of a flip-flop"],
  multiplexer_transistors: ["1", "transistors of a two-input multiplexer"],
  control_activity: ["1", "share of the control's gates that switch in one access"],
  data_activity: ["1", "share of data bits that change from one access to the next"],
  drop_share: ["1", "share of the write voltage that one switch of the write path may lose"],
  cells_per_bit: ["1", "cells that store one symbol together"],
  word: ["1", "data bits of one access"],
  row_length: ["m", "length of a row wire"],
  column_length: ["m", "length of a column wire"],
  row_wire_capacitance_per_length: ["F/m", "row wire capacitance per length"],
  column_wire_capacitance_per_length: ["F/m", "column wire capacitance per length"],
  row_load: ["F", "load of one cell on its row wire"],
  column_load: ["F", "load of one cell on one column wire"],
  column_lines: ["1", "column wires of one cell"],
  cell_transistors: ["1", "transistors of one cell"],
  write_current: ["A", "write current of one cell, at the driver"],
  write_voltage: ["V", "largest voltage at the edge of the array in a write"],
  bitline_swing: ["V", "by how much a column of a static memory moves in a read"],
  read_static_current: ["A", "mean current of a sensed column"],
};

const INPUTS: Readonly<Record<string, InputDefinition>> = Object.fromEntries(
  Object.entries(READ).map(([name, [unit, meaning]]) => [name, { unit, meaning }]),
);

/** Declares a sheet of a function; `inputs` describes what is to be bound. */
export function part(definition: {
  readonly name: string;
  readonly title: string;
  readonly about: string;
  readonly inputs?: Readonly<Record<string, InputDefinition>>;
  readonly formulas: Formulas;
}): Sheet {
  const inputs = { ...INPUTS, ...definition.inputs };
  return model({ ...definition, inputs, parameters: functionDefaults });
}

/** Area and energy of static logic of which only the transistors are counted. */
export function logicCosts(activity: string): Formulas {
  return {
    area: given("transistors * transistor_area", "m^2", "area, at the density of the library"),
    energy: given(
      `${activity} * transistors / 2 * logic_pair_energy`,
      "J",
      "energy of one operation",
      "this project",
      "two transistors count as one inverter",
    ),
  };
}

/** Delay of some gates one behind another, each with the best stage effort. */
export function gateDelay(gates: string): string {
  return `${gates} * tau * (best_stage_effort + inverter_parasitic)`;
}

/** Cells of several bits: their levels, and the logic that makes bits of comparisons. */

import type { Sheet } from "../../../formulas/sheet.ts";
import { CHANGE_ENERGY, CLOCK_ENERGY } from "../../flip-flop.ts";
import { type Formulas, given, part } from "../define.ts";
import { chain } from "../effort.ts";

const BETWEEN = "(2 ^ bits_per_cell - 1)";

/** Current of a level between on and off; `share` of the way from on to off in ln R. */
function currentAt(share: string, inSeries: boolean): string {
  if (!inSeries) return `cell_on_current * (cell_off_current / cell_on_current) ^ (${share})`;
  return (
    `read_voltage / (on_resistance * (off_resistance / on_resistance) ^ (${share}) + ` +
    "read_voltage / cell_on_current - on_resistance)"
  );
}

function pairs(inSeries: boolean): Sheet {
  const severalBits = (several: string, one: string) => `bits_per_cell > 1 ? ${several} : ${one}`;
  return part({
    name: inSeries ? "level_pairs_in_series" : "level_pairs",
    title: `Neighbouring levels of a cell${inSeries ? ", a resistance in series" : ""}`,
    about:
      "Levels lie evenly in ln R from on to off. What a comparison has to tell apart is least " +
      "between the two levels of least resistance, where a resistance in series takes most of " +
      "the voltage, or between the two of most, where the current is small beside the leak: the " +
      "step of the current over the current has no minimum between the ends.",
    formulas: {
      level_references: given(BETWEEN, "1", "references between the levels of a cell"),
      second_level_current: given(
        severalBits(currentAt(`1 / ${BETWEEN}`, inSeries), "cell_off_current"),
        "A",
        "median current of the level after the one of least resistance",
      ),
      last_but_one_level_current: given(
        severalBits(currentAt(`1 - 1 / ${BETWEEN}`, inSeries), "cell_on_current"),
        "A",
        "median current of the level before the one of most resistance",
      ),
      pair_leak: given(
        "max(0, cell_on_current - cell_off_current - signal_current)",
        "A",
        "what the other cells of a column may add to a current, worst pattern",
      ),
      first_pair_signal: given(
        severalBits("cell_on_current - second_level_current - pair_leak", "signal_current"),
        "A",
        "difference between the two levels of least resistance, worst pattern",
      ),
      last_pair_signal: given(
        severalBits("last_but_one_level_current - cell_off_current - pair_leak", "signal_current"),
        "A",
        "difference between the two levels of most resistance, worst pattern",
      ),
      least_pair_signal: given(
        "min(first_pair_signal, last_pair_signal)",
        "A",
        "least difference between neighbouring levels",
      ),
      level_data_lines: given(
        "data_ports * bits_per_cell",
        "1",
        "bits of a tile that enter or leave it at once",
      ),
      level_bits_written: given(
        "cells_written * bits_per_cell",
        "1",
        "bits whose cells are written at once",
      ),
    },
    inputs: {
      on_resistance: { unit: "ohm", meaning: "resistance of the on state" },
      off_resistance: { unit: "ohm", meaning: "resistance of the off state" },
      read_voltage: { unit: "V", meaning: "voltage of a read" },
    },
  });
}

export const levelPairs = pairs(false);
export const levelPairsInSeries = pairs(true);

const gateCosts: Formulas = {
  leakage: given("transistors * transistor_leakage", "W", "leakage of one instance"),
  write_energy: given("read_energy", "J", "energy of one verifying read"),
};

/** Thermometer to bits behind the amplifiers of one column. */
export const levelEncoder = part({
  name: "level_encoder",
  title: "Level encoder",
  about:
    "Makes b bits of the 2^b - 1 decisions of a column, in the reflected binary code: a bit is " +
    "the sum of products of two decisions each, 2^(b-1) - 1 products in all, and a gate joins " +
    "two of them. Amplifiers give both polarities, so that no inverter is counted.",
  formulas: {
    gates: given(
      "2 ^ bits_per_cell - 1 - bits_per_cell",
      "1",
      "gates of two inputs: 1 for two bits, 4 for three, 11 for four",
      "this project",
      "2^(b-1) - 1 products, and as many less one for each bit that has any to join them",
    ),
    transistors: given("4 * gates", "1", "transistors of one encoder", "cmosvlsi"),
    area: given("transistors * transistor_area * pitch_layout_share", "m^2", "area of one encoder"),
    read_energy: given(
      "data_activity * transistors / 2 * logic_pair_energy",
      "J",
      "energy of one read: two transistors count as one inverter",
    ),
    ...gateCosts,
    delay: given(
      "(bits_per_cell - 1) * tau * (best_stage_effort + 2 * inverter_parasitic)",
      "s",
      "delay of the bit with most products: one gate, and the tree that joins them",
      "logical-effort",
      "a gate of two inputs has twice the parasitic delay of an inverter",
    ),
  },
});

/** What successive approximation keeps beside each amplifier. */
export const levelRegister = part({
  name: "level_register",
  title: "Level register",
  about:
    "A flip-flop for each bit, which the decision of its step sets; the bits found so far " +
    "choose the next reference: a gate of as many inputs as steps for each reference, in gates " +
    "of two, and a switch that lets the reference's copied current through. The copies stand " +
    "settled all the time, so that a step waits for register, gates and switch alone.",
  formulas: {
    choosing_gates: given(
      "(bits_per_cell - 2) * 2 ^ bits_per_cell + 2",
      "1",
      "gates of two inputs that choose a reference: 2 for two bits, 10 for three",
      "this project",
      "the 2^(j-1) references of step j are told by j - 1 bits and the step itself",
    ),
    switch_transistors: given(
      "column_switch_transistors * level_references",
      "1",
      "transistors of the switches of all references",
    ),
    transistors: given(
      "bits_per_cell * flip_flop_transistors + 4 * choosing_gates + switch_transistors",
      "1",
      "transistors of one register with its switches",
      "cmosvlsi",
    ),
    area: given(
      "bits_per_cell * flip_flop_area + (4 * choosing_gates + switch_transistors) * " +
        "transistor_area * pitch_layout_share",
      "m^2",
      "area of one register with its switches",
    ),
    read_energy: given(
      `bits_per_cell * (bits_per_cell * ${CLOCK_ENERGY} + data_activity * ${CHANGE_ENERGY}) + ` +
        "bits_per_cell * control_activity * (4 * choosing_gates + switch_transistors) / 2 * " +
        "logic_pair_energy",
      "J",
      "energy of one read: what hangs on the clock in every step, the rest where a bit changes",
    ),
    ...gateCosts,
    delay: given(
      "2 * tau * (best_stage_effort + inverter_parasitic) + bits_per_cell * tau * " +
        "(best_stage_effort + 2 * inverter_parasitic)",
      "s",
      "delay of a step: flip-flop, gates that choose, switch",
      "logical-effort",
    ),
  },
});

/** Paces the steps of a tile's amplifiers. */
export const levelSequencer = part({
  name: "level_sequencer",
  title: "Level sequencer",
  about:
    "A chain of flip-flops, one for each step and one to rest in, and a gate for each step that " +
    "lets the clock of its bit through, with the drivers of the step's line along the amplifiers.",
  formulas: {
    line_load: given(
      "route_wire_capacitance_per_length * row_length + sense_amplifiers * 4 * " +
        "unit_gate_input_capacitance",
      "F",
      "load of the line of one step",
    ),
    ...chain({ name: "chain", load: "line_load" }),
    logic_transistors: given(
      "(bits_per_cell + 1) * flip_flop_transistors + 4 * bits_per_cell",
      "1",
      "transistors of flip-flops and gates",
      "cmosvlsi",
    ),
    transistors: given(
      "logic_transistors + 2 * chain_stages * bits_per_cell",
      "1",
      "transistors of one sequencer with its drivers",
    ),
    area: given(
      "(bits_per_cell + 1) * flip_flop_area + 4 * bits_per_cell * transistor_area + " +
        "bits_per_cell * max(chain_width * device_area_per_width * wide_layout_share, 2 * " +
        "chain_stages * transistor_area)",
      "m^2",
      "area of one sequencer with its drivers",
    ),
    leakage: given(
      "logic_transistors * transistor_leakage + bits_per_cell * chain_width / 2 * " +
        "leakage_power_per_width",
      "W",
      "leakage of one sequencer",
    ),
    read_energy: given(
      "bits_per_cell * ((line_load + chain_width * (gate_capacitance + drain_capacitance)) * " +
        "supply ^ 2 + control_activity * logic_transistors / 2 * logic_pair_energy)",
      "J",
      "energy of one read: every step's line rises once",
      "dic",
    ),
    write_energy: given("read_energy", "J", "energy of one verifying read"),
    delay: given("chain_delay", "s", "delay of a step's line", "logical-effort"),
  },
});

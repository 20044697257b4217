/**
 * Figures of functions that no catalogue file has: choices of size, and counts of small circuits.
 */
import { type DefaultRow, defaultsOf } from "../define.ts";

const choice = (name: string, value: number, meaning: string): DefaultRow => [
  name,
  "1",
  value,
  value,
  value,
  "common practice",
  "default",
  meaning,
];

const memory = (
  name: string,
  unit: string,
  [value, low, high]: readonly [number, number, number],
  source: string,
  meaning: string,
): DefaultRow => [name, unit, value, low, high, source, "memory", meaning];

export const functionDefaults = defaultsOf([
  choice("table_inputs", 4, "inputs of a look-up table"),
  choice("weight_bits", 8, "bits of a weight"),
  choice("input_bits", 8, "bits of the number that a weight is multiplied with, one after another"),
  choice("state_bits", 4, "state bits of a finite-state machine"),
  choice("output_bits", 2, "outputs of a finite-state machine"),
  choice("multiplexer_inputs", 16, "inputs of a routing multiplexer"),
  choice("store_group", 32, "flip-flops that are stored and restored by one control"),
  memory(
    "test_gates",
    "1",
    [1000, 300, 5000],
    "common practice",
    "two-input gates of the self-test of a macro, where it is counted",
  ),
  memory(
    "table_buffer_transistors",
    "1",
    [4, 4, 16],
    "fpga-arch",
    "transistors of the inner and output inverters of a table",
  ),
  memory(
    "isolation_transistors",
    "1",
    [2, 1, 4],
    "general",
    "transistors that part one signal wire from the drivers that program it",
  ),
  memory(
    "signal_buffer_transistors",
    "1",
    [4, 4, 6],
    "general",
    "transistors of the buffer behind a routed wire",
  ),
  memory(
    "level_restorer_transistors",
    "1",
    [1, 1, 2],
    "cmosvlsi",
    "transistors that restore the level behind an n-type pass transistor",
  ),
  memory("full_adder_transistors", "1", [28, 24, 28], "dic", "transistors of a full adder"),
  memory(
    "converter_transistors",
    "1",
    [900, 300, 3000],
    "general",
    "transistors of a column converter of 6 to 8 bits",
  ),
  memory(
    "columns_per_converter",
    "1",
    [8, 1, 16],
    "common practice",
    "columns that share a converter one after another",
  ),
  memory(
    "converter_area_share",
    "1",
    [2, 1, 4],
    "common practice",
    "area of a converter with its capacitors over that of its transistors as logic",
  ),
  memory(
    "converter_energy",
    "J",
    [2e-12, 0.3e-12, 10e-12],
    "common practice",
    "energy of one conversion of 6 to 8 bits",
  ),
  memory(
    "converter_time",
    "s",
    [10e-9, 2e-9, 100e-9],
    "common practice",
    "time of one conversion of 6 to 8 bits",
  ),
  memory(
    "store_transistors",
    "1",
    [8, 2, 12],
    "nvff-mtj",
    "transistors that store and restore one flip-flop",
  ),
  memory(
    "store_control_gates",
    "1",
    [20, 10, 60],
    "common practice",
    "two-input gates of the control that stores and restores one group",
  ),
]);

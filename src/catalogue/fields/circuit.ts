import type { Field, FieldTable } from "./field.ts";

/** Circuits of which a count of transistors is known. */
const COUNTED = {
  sense_amplifier: "sense amplifier of a resistive column, clamp included",
  sense_latch: "clocked regenerative sense amplifier with input pair",
  sense_pair: "cross-coupled latch sense amplifier",
  sense_current: "current-mode sense amplifier",
  differential_amplifier: "differential amplifier with mirror load",
  output_latch: "latch behind a sense amplifier",
  generator: "reference generator beside its reference cells",
  pull_up: "precharge and equalisation of a pair of columns",
  column_switch: "switch between a column wire and its sense amplifier",
  row_driver: "driver of one row",
  bipolar_row_driver: "driver of one row of a crossbar to one of several levels",
  plain_driver: "write driver of a pair of columns",
  limited_driver: "resistive write driver with level shift and current limit",
  level_shifter: "cross-coupled level shifter",
  pump_stage: "stage of a charge pump",
  oscillator: "oscillator of a charge pump",
  regulator: "voltage regulator",
  refresh_timer: "timer that paces refresh",
  fixed_control: "timing and control of one array",
  inverter: "inverter",
  nand2: "two-input NAND or NOR",
  xor: "two-input exclusive or",
  multiplexer: "two-input multiplexer",
  half_adder: "half adder",
  full_adder: "full adder",
  pass_full_adder: "full adder of pass transistors",
  fault_bit: "store for one bit of the address of a fault",
  latch: "static latch",
  flip_flop: "static flip-flop",
  scan_flip_flop: "scan flip-flop with reset",
  converter: "column converter of 6 to 8 bits",
} as const;

/** Transistor counts of one instance of each circuit. */
export const CIRCUIT_FIELDS: FieldTable = Object.fromEntries(
  Object.entries(COUNTED).map(([circuit, meaning]): [string, Field] => [
    `${circuit}_transistors`,
    { unit: "1", meaning: `transistors of one ${meaning}` },
  ]),
);

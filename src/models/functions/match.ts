/** Content-addressable tables: match cells and the lines of a search. */
import { CHANGE_ENERGY, CLOCK_ENERGY } from "../flip-flop.ts";
import { type Formulas, given, logicCosts, part } from "./define.ts";

/** A static compare of four transistors at each symbol. */
export const staticCompare = part({
  name: "static_compare",
  title: "Static match cell in a search",
  about:
    "Two stacks of two devices hang on the match line; one pulls when the symbol differs. Devices " +
    "are those of the memory cell.",
  inputs: { addition_growth: { unit: "1", meaning: "length of the lines over the memory's" } },
  formulas: {
    match_load: given(
      "2 * drain_capacitance * access_width",
      "F",
      "load of one symbol on its match line",
      "cmosvlsi",
    ),
    search_load: given(
      "gate_capacitance * access_width",
      "F",
      "load of one symbol on one search line",
      "cmosvlsi",
    ),
    mismatch_current: given("read_stack_current", "A", "current of one symbol that differs", "dic"),
    matched_current: given(
      "2 * read_buffer_leak_current",
      "A",
      "leak of one symbol that agrees",
      "cmosvlsi",
    ),
    line_growth: given("addition_growth", "1", "length of the lines over those of the memory"),
    match_swing: given("bitline_swing", "V", "swing of a match line before it is sensed"),
  },
});

/** Two switches at each symbol: the off state of every symbol that agrees leaks. */
export const resistiveCompare = part({
  name: "resistive_compare",
  title: "Match cell of two switches in a search",
  about:
    "A symbol that differs opens a path through its on switch, one that agrees a path through its " +
    "off switch: the leak of the agreeing symbols adds up along the match line.",
  formulas: {
    match_load: given(
      "cells_per_bit * column_lines * column_load",
      "F",
      "load of one symbol on its match line",
    ),
    search_load: given("row_load / column_lines", "F", "load of one symbol on one search line"),
    mismatch_current: given("cell_on_current", "A", "current of one symbol that differs"),
    matched_current: given("cell_off_current", "A", "current of one symbol that agrees"),
    line_growth: given("1", "1", "length of the lines over those of the memory"),
    match_swing: given("read_voltage", "V", "voltage of a match line while it is sensed"),
  },
});

const lines: Formulas = {
  symbols: given("word / cells_of_symbol", "1", "symbols of one entry"),
  search_lines: given("2 * symbols", "1", "search lines of a tile"),
  match_line_capacitance: given(
    "row_length * line_growth * row_wire_capacitance_per_length + symbols * match_load",
    "F",
    "capacitance of a match line",
  ),
  search_line_capacitance: given(
    "column_length * line_growth * column_wire_capacitance_per_length + rows * search_load",
    "F",
    "capacitance of a search line",
  ),
  match_signal_current: given(
    "mismatch_current - matched_current",
    "A",
    "least difference of current between a match and a mismatch",
    "this project",
    "one symbol differs",
  ),
  match_leak_current: given(
    "(symbols - 1) * matched_current",
    "A",
    "current of a match line from symbols that agree",
  ),
  search_line_energy: given(
    "symbols * search_line_capacitance * supply ^ 2",
    "J",
    "energy of the search lines of a tile: one of each pair rises",
    "dic",
  ),
  match_line_energy: given(
    "rows * match_line_capacitance * match_swing * max(supply, match_swing)",
    "J",
    "energy of the match lines of a tile: nearly all of them differ and move",
    "dic",
  ),
};

/** The lines of a search; reads what a compare sheet gives. */
export const matchLines = part({
  name: "match_lines",
  title: "Lines of a search",
  about: "Match lines lie along the rows, search lines along the columns. One entry is one row.",
  inputs: {
    cells_of_symbol: { unit: "1", meaning: "cells of one row that hold one symbol" },
    match_load: { unit: "F", meaning: "load of one symbol on its match line" },
    search_load: { unit: "F", meaning: "load of one symbol on one search line" },
    mismatch_current: { unit: "A", meaning: "current of one symbol that differs" },
    matched_current: { unit: "A", meaning: "current of one symbol that agrees" },
    line_growth: { unit: "1", meaning: "length of the lines over those of the memory" },
    match_swing: { unit: "V", meaning: "swing of a match line" },
  },
  formulas: lines,
});

/** The first of the entries that match, as an address. */
export const priorityEncoder = part({
  name: "priority_encoder",
  title: "Priority encoder",
  about:
    "A binary tree: each node passes on whether one of its two sides is valid (an OR gate), tells " +
    "which (an inverter), and selects the address bits of that side (a multiplexer for each).",
  inputs: { encoder_inputs: { unit: "1", meaning: "lines among which the first is sought" } },
  formulas: {
    bits: given("max(0, ceil(log2(encoder_inputs)))", "1", "address bits"),
    nodes: given("max(0, encoder_inputs - 1)", "1", "nodes of the tree", "counting"),
    multiplexers: given(
      "max(0, encoder_inputs - 1 - bits)",
      "1",
      "multiplexers of address bits",
      "counting",
      "sum over the levels j of 2^(b-j) (j-1); exact for powers of two",
    ),
    transistors: given(
      "8 * nodes + multiplexer_transistors * multiplexers",
      "1",
      "transistors: an OR gate of six and an inverter for each node",
      "counting",
    ),
    ...logicCosts("control_activity"),
    delay: given(
      "2 * bits * tau * (best_stage_effort + inverter_parasitic)",
      "s",
      "delay through all levels, two gates each",
      "logical-effort",
    ),
  },
});

/** The devices that charge one match line before a search. */
export const matchPrecharge = part({
  name: "match_precharge",
  title: "Precharge of a match line",
  about: "One p-type device for each match line.",
  formulas: {
    transistors: given("1", "1", "transistors of one match line's precharge", "cam-survey"),
    area: given("2 * gate_width * device_area_per_width", "m^2", "area of one precharge"),
    energy: given("2 * gate_width * gate_capacitance * supply ^ 2", "J", "energy of its gate"),
  },
});

/** A bank of flip-flops; bind `held_bits` [1]. */
export const holdRegister = part({
  name: "hold_register",
  title: "Register",
  about: "Flip-flops that hold a search word, a state or a result.",
  inputs: { held_bits: { unit: "1", meaning: "bits held" } },
  formulas: {
    transistors: given("held_bits * flip_flop_transistors", "1", "transistors", "cmosvlsi"),
    area: given("held_bits * flip_flop_area", "m^2", "area"),
    energy: given(
      `held_bits * (${CLOCK_ENERGY} + data_activity * ${CHANGE_ENERGY})`,
      "J",
      "energy of one clock: what hangs on the clock always, the rest where the bit changes",
      "cmosvlsi",
    ),
    delay: given(
      "2 * tau * (best_stage_effort + inverter_parasitic)",
      "s",
      "delay from the clock to the output",
      "logical-effort",
    ),
  },
});

/** Look-up tables: what selects one of the stored bits. */
import { gateDelay, given, part } from "./define.ts";

/** The multiplexer of one table. */
export const tableMultiplexer = part({
  name: "table_multiplexer",
  title: "Multiplexer of a look-up table",
  about:
    "A tree of pass transistors over the stored bits, an inverter for each input, and inverters " +
    "inside and at the output.",
  formulas: {
    stored_bits: given("2 ^ table_inputs", "1", "bits of one table", "counting"),
    tree_transistors: given(
      "2 ^ (table_inputs + 1) - 2",
      "1",
      "pass transistors of the tree",
      "micro-sol",
    ),
    inverter_transistors: given(
      "2 * table_inputs + table_buffer_transistors",
      "1",
      "transistors of the inverters",
      "micro-sol",
    ),
    transistors: given(
      "tree_transistors + inverter_transistors",
      "1",
      "transistors of one multiplexer",
    ),
    area: given("transistors * transistor_area", "m^2", "area of one multiplexer"),
    node_capacitance: given(
      "3 * drain_capacitance * gate_width",
      "F",
      "capacitance of a node of the tree: two drains below, one above",
      "dic",
    ),
    path_capacitance: given(
      "table_inputs * node_capacitance",
      "F",
      "capacitance of all nodes of the selected path",
    ),
    delay: given(
      `log(2) * unit_resistance_n / gate_width * node_capacitance * table_inputs * ` +
        `(table_inputs + 1) / 2 + ${gateDelay("2")}`,
      "s",
      "delay through the tree and the output inverters",
      "dic",
      "Elmore's sum over a chain of equal sections",
    ),
    energy: given(
      "data_activity / 2 * (path_capacitance + 2 * table_inputs * (2 ^ table_inputs - 1) / " +
        "table_inputs * gate_capacitance * gate_width) * supply ^ 2",
      "J",
      "energy of one look-up: the path, and the gates of the levels whose input changed",
      "dic",
    ),
  },
});

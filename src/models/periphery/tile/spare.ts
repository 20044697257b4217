/** Spare rows and columns: which lines they replace, and how accesses are steered to them. */
import { given, part } from "../define.ts";

/** Comparators and steering of one tile's spare rows and columns. */
export const spareSteering = part({
  name: "spare_steering",
  title: "Spare row and column steering",
  about:
    "For each spare row the address of the line it replaces and a comparator; for each spare " +
    "column the address of the amplifier it replaces and one more input at each amplifier's " +
    "output. Where the addresses are kept while the supply is off is not modelled: a latch for " +
    "each bit is.",
  formulas: {
    row_bits: given("ceil(log2(max(2, rows)))", "1", "address bits of a row"),
    column_bits: given("ceil(log2(max(2, sense_amplifiers)))", "1", "address bits of an amplifier"),
    row_transistors: given(
      "spare_rows * (row_bits * (fault_bit_transistors + xor_transistors) + 2 * row_bits + 2)",
      "1",
      "transistors that hold and compare the addresses of replaced rows",
    ),
    spare_amplifiers: given(
      "ceil(spare_columns / column_share)",
      "1",
      "amplifiers whose columns are spare",
    ),
    column_transistors: given(
      "spare_amplifiers * (column_bits * fault_bit_transistors + sense_amplifiers * " +
        "(multiplexer_transistors + 2))",
      "1",
      "transistors that steer bits around replaced amplifiers, in a chain of shifts",
    ),
    transistors: given("row_transistors + column_transistors", "1", "transistors of the steering"),
    area: given("transistors * transistor_area", "m^2", "area of the steering"),
    leakage: given("transistors * transistor_leakage", "W", "leakage of the steering"),
    read_energy: given(
      "(spare_rows * row_bits * xor_transistors * address_activity + sense_amplifiers * " +
        "multiplexer_transistors * data_activity) / 2 * logic_pair_energy",
      "J",
      "energy of one access",
    ),
    write_energy: given("read_energy", "J", "energy of one access"),
    delay: given(
      "tau * (8 + ceil(log2(row_bits + 1)) * (best_stage_effort + 2))",
      "s",
      "delay of the comparison that may stop the regular row",
      "logical-effort",
      "an exclusive or of effort 4 and parasitic 4, then a tree of gates",
    ),
  },
});

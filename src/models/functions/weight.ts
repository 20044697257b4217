/** Weights with multiplication: digital cells, or columns of conductances with their converters. */
import { type Formulas, gateDelay, given, logicCosts, part } from "./define.ts";

const serial = "data_activity * input_bits";

/** The gates that multiply one weight with one bit. */
export const partialProduct = part({
  name: "partial_product",
  title: "Partial product of a weight",
  about: "A two-input gate for each bit of the weight; the other number comes bit by bit.",
  formulas: {
    transistors: given("4 * weight_bits", "1", "transistors of one weight's gates", "counting"),
    ...logicCosts(serial),
    delay: given(gateDelay("1"), "s", "delay of one gate", "logical-effort"),
  },
});

/** One weight's share of the tree that adds the products of a column. */
export const adderShare = part({
  name: "adder_share",
  title: "Share of an adder tree",
  about:
    "A tree that adds n numbers of b bits has close to b full adders for each of them: n - 1 " +
    "adders, each a little wider than the numbers below it.",
  inputs: { summed: { unit: "1", meaning: "products that are added" } },
  formulas: {
    levels: given("max(1, ceil(log2(summed)))", "1", "levels of the tree"),
    adders: given(
      "(weight_bits * (summed - 1) + summed - 1 - levels) / summed",
      "1",
      "full adders for each weight",
      "arithmetic",
      "sum over the levels j of 2^(L-j) (b + j - 1), for summed = 2^L",
    ),
    transistors: given(
      "adders * full_adder_transistors",
      "1",
      "transistors of one weight's share",
      "dic",
    ),
    ...logicCosts(serial),
    delay: given(
      `2 * (weight_bits + 2 * levels) * tau * (best_stage_effort + inverter_parasitic)`,
      "s",
      "delay of the tree: the carry of the widest sum, and a sum for each level",
      "logical-effort",
      "two gates for each carry",
    ),
  },
});

/** Shift and add of the bits that come one after another. */
export const accumulator = part({
  name: "accumulator",
  title: "Shift accumulator",
  about: "A register and an adder as wide as the result of one column.",
  inputs: { summed: { unit: "1", meaning: "products that are added" } },
  formulas: {
    bits: given(
      "weight_bits + input_bits + max(1, ceil(log2(summed)))",
      "1",
      "bits of the result",
      "arithmetic",
    ),
    transistors: given(
      "bits * (full_adder_transistors + flip_flop_transistors)",
      "1",
      "transistors of one accumulator",
    ),
    ...logicCosts(serial),
    delay: given(
      "2 * bits * tau * (best_stage_effort + inverter_parasitic)",
      "s",
      "delay of one addition",
      "logical-effort",
    ),
  },
});

const converterCosts: Formulas = {
  transistors: given("converter_transistors", "1", "transistors of one converter", "general"),
  area: given(
    "transistors * transistor_area * converter_area_share",
    "m^2",
    "area of one converter with its capacitors",
  ),
  energy: given(
    "input_bits * columns_per_converter * converter_energy",
    "J",
    "energy of the conversions of all its columns, for all bits of the input",
  ),
  delay: given(
    "columns_per_converter * converter_time",
    "s",
    "time of its columns, one after another, for one bit of the input",
  ),
};

/** The converter of some columns. */
export const columnConverter = part({
  name: "column_converter",
  title: "Column converter",
  about:
    "Turns the current of a column into a number. It has 6 to 8 bits: a column whose sum has more " +
    "levels loses precision, which is left out here.",
  formulas: converterCosts,
});

/** What flows through the switches of a weight while a column is converted. */
export const columnCurrent = part({
  name: "column_current",
  title: "Current of a weight",
  about:
    "Half of the inputs are up; each switch of a weight has a middle conductance. A column that " +
    "waits for its converter is open and draws nothing.",
  inputs: {
    weight_switches: { unit: "1", meaning: "switches of one weight" },
    conversion_time: { unit: "s", meaning: "time for which a column is converted" },
  },
  formulas: {
    energy: given(
      "weight_switches * input_bits / 2 * max(supply, read_voltage) * " +
        "(cell_on_current + cell_off_current) / 2 * conversion_time",
      "J",
      "energy through the switches of one weight",
      "dic",
    ),
  },
});

/** Decoders: predecoded static gates from n address bits to any number of outputs. */
import type { Sheet } from "../../../formulas/sheet.ts";
import { type Formulas, given, part } from "../define.ts";
import { nandEffort, path } from "../effort.ts";

const counts: Formulas = {
  bits: given("max(0, ceil(log2(decoder_outputs)))", "1", "address bits"),
  predecoders: given("max(1, ceil(bits / predecode_bits))", "1", "predecoders"),
  small_bits: given("floor(bits / predecoders)", "1", "address bits of the smaller predecoders"),
  large_predecoders: given(
    "bits - predecoders * small_bits",
    "1",
    "predecoders that have one address bit more",
  ),
  small_predecoders: given(
    "predecoders - large_predecoders",
    "1",
    "predecoders of the smaller kind",
  ),
  predecode_outputs: given(
    "large_predecoders * 2 ^ (small_bits + 1) + small_predecoders * 2 ^ small_bits",
    "1",
    "predecoded wires",
  ),
  group_bits: given(
    "large_predecoders > 0 ? small_bits + 1 : small_bits",
    "1",
    "address bits of the largest predecoder",
  ),
  address_inverter_transistors: given(
    "2 * bits",
    "1",
    "transistors of the inverters that complement the address",
    "micro-sol",
  ),
  predecoder_transistors: given(
    "bits < 1 ? 0 : large_predecoders * 2 ^ (small_bits + 1) * (2 * small_bits + 4) + " +
      "small_predecoders * 2 ^ small_bits * (2 * small_bits + 2)",
    "1",
    "transistors of the predecoders: a gate of 2g transistors and an inverter for each wire",
    "micro-sol",
  ),
  output_gate_transistors: given(
    "predecoders < 2 ? 0 : decoder_outputs * (2 * predecoders + 2)",
    "1",
    "transistors of the output gates: a gate of 2k transistors and an inverter for each output",
    "micro-sol",
  ),
  static_transistors: given(
    "address_inverter_transistors + predecoder_transistors + output_gate_transistors",
    "1",
    "transistors of all gates of the decoder without buffers",
    "micro-sol",
  ),
};

const timing: Formulas = {
  output_gate_effort: given(
    `predecoders < 2 ? 1 : ${nandEffort("predecoders")}`,
    "1",
    "logical effort of the output gate",
    "logical-effort",
  ),
  predecode_gate_effort: given(
    nandEffort("group_bits"),
    "1",
    "logical effort of the predecode gate",
    "logical-effort",
  ),
  wire_capacitance: given(
    "route_wire_capacitance_per_length * decoder_span",
    "F",
    "capacitance of a predecoded wire",
  ),
  wire_resistance: given(
    "route_wire_resistance_per_length * decoder_span",
    "ohm",
    "resistance of a predecoded wire",
  ),
  wire_gates: given(
    "decoder_outputs / 2 ^ group_bits",
    "1",
    "output gates on a wire of the largest predecoder",
  ),
  gate_load: given(
    "wire_gates * output_gate_effort * unit_gate_input_capacitance",
    "F",
    "input capacitance of the output gates on a predecoded wire",
  ),
  predecode_load: given("wire_capacitance + gate_load", "F", "whole load of a predecoded wire"),
  ...path({
    name: "predecode",
    effort:
      "predecode_gate_effort * 2 ^ max(0, group_bits - 1) * predecode_load / " +
      "unit_gate_input_capacitance",
    fewest: 3,
    step: 2,
    extraParasitic: "(group_bits - 1)",
  }),
  wire_delay: given(
    "0.377 * wire_resistance * wire_capacitance + log(2) * wire_resistance * gate_load",
    "s",
    "delay of a predecoded wire itself",
    "wiring1983",
    "the driver's resistance is in the path effort",
  ),
  output_gate_delay: given(
    "predecoders < 2 ? 0 : tau * (1 + predecoders * inverter_parasitic)",
    "s",
    "delay of the output gate into its inverter",
    "logical-effort",
  ),
  delay: given(
    "bits < 1 ? 0 : predecode_delay + wire_delay + output_gate_delay",
    "s",
    "delay from the address to the input of the last inverter",
    "logical-effort",
    "the last inverter is the first one of the driver's chain and is timed there; with a single " +
      "predecoder it is timed in both, two units too many",
  ),
};

const costs: Formulas = {
  buffers: given(
    "bits < 1 ? 0 : predecode_outputs * (predecode_stages - 3)",
    "1",
    "inverters beyond the third stage, so that the predecoded wires are driven with the best " +
      "effort",
    "logical-effort",
  ),
  buffer_transistors: given("2 * buffers", "1", "transistors of the buffers of predecoded wires"),
  transistors: given("static_transistors + buffer_transistors", "1", "transistors of the decoder"),
  buffer_share: given(
    "predecode_stage_effort > 1.000001 ? (1 - predecode_stage_effort ^ (2 - predecode_stages)) / " +
      "(predecode_stage_effort - 1) : predecode_stages - 2",
    "1",
    "input capacitance of all inverters that drive a predecoded wire over its load",
    "logical-effort",
    "the geometric series from the wire back to the predecode gate",
  ),
  buffer_width: given(
    "bits < 1 ? 0 : predecode_outputs * buffer_share * predecode_load / gate_capacitance",
    "m",
    "device widths of all inverters that drive predecoded wires",
    "logical-effort",
  ),
  area: given(
    "(static_transistors - (bits < 1 ? 0 : 2 * predecode_outputs)) * transistor_area + " +
      "max(buffer_width * device_area_per_width, 2 * predecode_outputs * transistor_area) * " +
      "wide_layout_share",
    "m^2",
    "area of the decoder",
  ),
  leakage: given(
    "static_transistors * transistor_leakage + buffer_width / 2 * leakage_power_per_width",
    "W",
    "leakage of the decoder",
  ),
  address_energy: given(
    "address_activity * bits * 2 ^ max(0, group_bits - 1) * 2 * predecode_gate_effort * " +
      "unit_gate_input_capacitance * supply ^ 2",
    "J",
    "energy of the address lines",
    "dic",
  ),
  predecode_energy: given(
    "bits < 1 ? 0 : predecoders * (1 - (1 - address_activity) ^ group_bits) * (predecode_load + " +
      "buffer_width / predecode_outputs * (gate_capacitance + drain_capacitance)) * supply ^ 2",
    "J",
    "energy of the predecoded wires: in each group one falls and another rises if an address bit " +
      "changed",
    "dic",
  ),
  output_gate_energy: given(
    "predecoders < 2 ? 0 : (predecoders + 1) * unit_gate_energy",
    "J",
    "energy of the selected output gate and its inverter",
  ),
  read_energy: given(
    "address_energy + predecode_energy + output_gate_energy",
    "J",
    "energy of one decoding",
  ),
  write_energy: given("read_energy", "J", "energy of one decoding"),
};

const all: Formulas = { ...counts, ...timing, ...costs };

/**
 * A predecoded decoder. Bind `decoder_outputs` [1] to the number of its outputs, which need be
 * no power of two, and
 * `decoder_span` [m] to the length that the outputs cover.
 */
export const decoder: Sheet = part({
  name: "decoder",
  title: "Decoder",
  about:
    "Static gates: an inverter for each address bit, predecoders of at most `predecode_bits`, a " +
    "gate of one input per predecoder and an inverter for each output. Buffers in front of the " +
    "predecoded wires by path effort. Outputs need not be a power of two. The chain behind the " +
    "last inverter is the driver's.",
  inputs: {
    decoder_outputs: { unit: "1", meaning: "outputs of the decoder" },
    decoder_span: { unit: "m", meaning: "length along which the outputs lie" },
  },
  formulas: all,
});

/**
 * Other decoders of the textbooks, by their counts alone; `decoder_bits` [1] is the number of
 * address bits.
 */
export const decoderAlternatives: Sheet = part({
  name: "decoder_alternatives",
  title: "Transistors of other decoders",
  about:
    "For comparison: flat static gates, a tree of pass transistors, ratioed gates. Powers of two " +
    "only.",
  inputs: { decoder_bits: { unit: "1", meaning: "address bits" } },
  formulas: {
    flat_transistors: given(
      "2 ^ decoder_bits * (2 * decoder_bits + 2) + 2 * decoder_bits",
      "1",
      "one gate and one inverter for each output",
      "micro-sol",
    ),
    pass_tree_transistors: given(
      "2 ^ (decoder_bits + 1) - 2 + 4 * decoder_bits",
      "1",
      "a tree of pass transistors with two inverters for each level",
      "micro-sol",
    ),
    ratioed_transistors: given(
      "2 ^ decoder_bits * (decoder_bits + 1) + 4 * decoder_bits",
      "1",
      "ratioed gates with true and complement buffers",
      "micro-sol",
    ),
  },
});

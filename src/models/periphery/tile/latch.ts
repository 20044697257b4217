/** What sense amplifiers share: the matched pair, the latch that regenerates, their costs. */
import { type Formulas, given } from "../define.ts";
import { layoutArea } from "./layout.ts";

/** A matched pair, sized for `allowed_offset`, whose mismatch has this coefficient (a formula) [V m]. */
export const pairOf = (coefficient: string): Formulas => ({
  pair_length: given(
    "pair_length_ratio * contacted_gate_pitch",
    "m",
    "channel length of the matched pair",
  ),
  wanted_sigma: given(
    "sense_offset > 0 ? sense_offset : allowed_offset / sense_sigmas",
    "V",
    "standard deviation of the offset that the pair is sized for: stated, or what is allowed",
  ),
  pair_width: given(
    `max(minimum_width, (${coefficient} / wanted_sigma) ^ 2 / pair_length)`,
    "m",
    "channel width of the matched pair, wide enough for the allowed offset",
    "matching1989",
  ),
  offset_sigma: given(
    `sense_offset > 0 ? sense_offset : ${coefficient} / sqrt(pair_width * pair_length)`,
    "V",
    "standard deviation of the offset of the pair",
    "matching1989",
    "the coefficient is that of the difference of the pair: no further square root of two",
  ),
  offset: given("sense_sigmas * offset_sigma", "V", "offset that the signal must beat"),
  latch_width: given(
    "max(2 * gate_width, pair_width / 2)",
    "m",
    "width of one device of the cross-coupled pair",
  ),
});

/** The same without a circuit that takes its offset away. */
export const pair: Formulas = pairOf("matching_coefficient");

/** Regeneration from a difference to the supply. */
export const regeneration: Formulas = {
  latch_conductance: given(
    "transconductance * latch_width",
    "A/V",
    "transconductance of the cross-coupled n-type devices",
    "tm",
    "both nodes start near the supply, where the devices have their whole drive",
  ),
  latch_capacitance: given(
    "2 * latch_width * (gate_capacitance + 2 * drain_capacitance) + 2 * " +
      "unit_gate_input_capacitance",
    "F",
    "capacitance of one node of the latch with its output inverter",
    "dic",
  ),
  latch_time_constant: given(
    "latch_capacitance / latch_conductance",
    "s",
    "time in which the difference grows by e",
    "dic",
  ),
  regeneration_time: given(
    "latch_time_constant * log(max(exp(1), supply / start_difference))",
    "s",
    "time of the latch from its starting difference to the supply",
    "dic",
  ),
  output_time: given(
    "2 * tau * (best_stage_effort + inverter_parasitic)",
    "s",
    "two gates behind the latch",
    "logical-effort",
  ),
  delay: given(
    "signal_time + regeneration_time + output_time",
    "s",
    "time from a settled column to a valid bit",
  ),
};

/** Counts and costs of an amplifier; `count` is the formula of its transistors. */
export const costs = (count: string): Formulas => ({
  transistors: given(
    `${count} + output_latch_transistors`,
    "1",
    "transistors of one sense amplifier with its output latch",
  ),
  area: given(
    layoutArea(
      "2 * pair_width * (pair_length / contacted_gate_pitch + 1) + 4 * latch_width + " +
        "max(0, transistors - 6) * gate_width",
      "transistors",
      "device_area_per_width",
      "pitch_layout_share",
    ),
    "m^2",
    "area of one sense amplifier",
    "this project",
    "a pair device is longer than others by its channel",
  ),
  pitch: given(
    "max(1, ceil(8 * contacted_gate_pitch / (cell_width * column_share)))",
    "1",
    "amplifiers that stand one behind another",
    "this project",
    "an amplifier needs the width of about eight gate pitches",
  ),
  leakage: given(
    "(transistors - 6) * transistor_leakage + 2 * min(pair_width, latch_width) * " +
      "leakage_power_per_width",
    "W",
    "leakage of one sense amplifier",
    "cmosvlsi",
    "pair and cross-coupled devices are in series: a path leaks what its narrowest device lets " +
      "through",
  ),
  latch_energy: given(
    "(2 * latch_capacitance + transistors * unit_gate_input_capacitance / 2) * supply ^ 2",
    "J",
    "energy of one decision: both nodes and half of the other gates",
    "dic",
  ),
});

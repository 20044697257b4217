/** Sense amplifiers and their references: devices sized for the offset, time from the signal. */
import type { Sheet } from "../../../formulas/sheet.ts";
import { type Formulas, given, part } from "../define.ts";

const pair: Formulas = {
  pair_length: given(
    "pair_length_ratio * contacted_gate_pitch",
    "m",
    "channel length of the matched pair",
  ),
  pair_width: given(
    "max(minimum_width, (sense_sigmas * matching_coefficient / allowed_offset) ^ 2 / pair_length)",
    "m",
    "channel width of the matched pair, wide enough for the allowed offset",
    "matching1989",
  ),
  offset_sigma: given(
    "matching_coefficient / sqrt(pair_width * pair_length)",
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
};

/** Regeneration from a difference to the supply. */
const regeneration: Formulas = {
  latch_conductance: given(
    "nmos_on_current * latch_width / max(supply - threshold_voltage, supply / 10)",
    "A/V",
    "transconductance of the cross-coupled n-type devices",
    "tm",
    "velocity-saturated devices: current proportional to the overdrive",
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

const costs = (count: string): Formulas => ({
  transistors: given(
    `${count} + output_latch_transistors`,
    "1",
    "transistors of one sense amplifier with its output latch",
  ),
  width: given(
    "4 * latch_width + 2 * pair_width",
    "m",
    "device widths of the matched pair and the cross-coupled devices",
  ),
  area: given(
    "max(0, transistors - 6) * transistor_area + (2 * pair_width * (pair_length / " +
      "contacted_gate_pitch + 1) + 4 * latch_width) * device_area_per_width * matched_layout_share",
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
    "(transistors - 6) * transistor_leakage + width * leakage_power_per_width",
    "W",
    "leakage of one sense amplifier",
  ),
  latch_energy: given(
    "(2 * latch_capacitance + transistors * unit_gate_input_capacitance / 2) * supply ^ 2",
    "J",
    "energy of one decision: both nodes and half of the other gates",
    "dic",
  ),
});

/** Amplifier of a column that the cell moves: a clocked latch. */
export const voltageSenseAmplifier: Sheet = part({
  name: "voltage_sense_amplifier",
  title: "Voltage sense amplifier",
  about:
    "A clocked latch with an input pair. The cell's signal current moves the column by the " +
    "stated swing, part of which the offset eats; then the latch regenerates the rest. The " +
    "enable comes from a replica that waits a guard time. The charge of the column is not in its " +
    "energy.",
  formulas: {
    allowed_offset: given(
      "offset_share * column_swing",
      "V",
      "offset that the swing leaves room for",
    ),
    ...pair,
    signal_time: given(
      "sense_guard * column_capacitance * column_swing / signal_current",
      "s",
      "time in which the signal current moves the column by its swing",
      "dic",
    ),
    start_difference: given(
      "max(column_swing - offset, 0.01 * column_swing)",
      "V",
      "difference that is left for the latch at the worst offset",
    ),
    margin: given("column_swing / offset", "1", "swing over the offset to beat"),
    ...regeneration,
    ...costs("sense_latch_transistors"),
    read_energy: given("latch_energy", "J", "energy of one decision"),
    write_energy: given("0 * latch_energy", "J", "a write needs no decision"),
  },
});

/** Amplifier of a column that is held: compares its current with a reference. */
export const currentSenseAmplifier: Sheet = part({
  name: "current_sense_amplifier",
  title: "Current sense amplifier",
  about:
    "Holds the column at the read voltage and compares its current with a reference in the " +
    "middle of the two states, through a mirror whose mismatch eats part of the difference; the " +
    "rest charges the latch. The mirror is as large as the mismatch asks, so a small difference " +
    "of currents costs area. The cell's own current is not in its energy.",
  formulas: {
    half_signal: given(
      "max(signal_current / 2, 0.000001 * cell_on_current)",
      "A",
      "difference between a state's current and the reference",
      "this project",
      "a signal at or below zero is no signal: see margin",
    ),
    reference_current: given(
      "cell_on_current + column_leak_current - half_signal",
      "A",
      "current of the reference",
    ),
    allowed_offset: given(
      "offset_share * half_signal * mirror_overdrive / (2 * reference_current)",
      "V",
      "threshold mismatch that the signal leaves room for",
      "matching1989",
      "relative mismatch of a mirror: twice the threshold mismatch over the overdrive",
    ),
    ...pair,
    offset_current: given(
      "2 * reference_current * offset / mirror_overdrive",
      "A",
      "current that the mismatch may add",
      "matching1989",
    ),
    net_current: given(
      "max(half_signal - offset_current, 0.01 * half_signal)",
      "A",
      "current that is left to charge the latch at the worst mismatch",
    ),
    margin: given(
      "signal_current / 2 / offset_current",
      "1",
      "signal over the offset to beat: below one the state cannot be read",
    ),
    node_capacitance: given(
      "latch_capacitance + pair_width * (pair_length / contacted_gate_pitch * 2 * " +
        "gate_capacitance + 2 * drain_capacitance)",
      "F",
      "capacitance that the net current charges",
    ),
    start_difference: given(
      "latch_start_share * supply",
      "V",
      "difference at which the latch is let go",
    ),
    signal_time: given(
      "sense_guard * node_capacitance * start_difference / net_current",
      "s",
      "time in which the net current makes the starting difference",
      "dic",
    ),
    ...regeneration,
    ...costs("sense_current_transistors"),
    clamp_resistance: given(
      "mirror_overdrive / (2 * reference_current)",
      "ohm",
      "resistance that the clamp shows to the column",
      "dic",
      "the inverse of a square-law device's transconductance",
    ),
    read_energy: given(
      "latch_energy + supply * 2 * reference_current * delay",
      "J",
      "energy of one decision: the latch, and two branches of the mirror while it senses",
    ),
    write_energy: given("0 * latch_energy", "J", "a write needs no decision; a verify is a read"),
  },
});

/** A reference for a group of sense amplifiers. */
export const reference: Sheet = part({
  name: "reference",
  title: "Reference generator",
  about:
    "Averages a few cells of both states and mirrors the current into a group of sense " +
    "amplifiers. The cells' own transistors are counted with it as one each.",
  formulas: {
    transistors: given(
      "generator_transistors + reference_cells + 2 * amplifiers_per_reference",
      "1",
      "transistors of one reference: generator, cells, and two mirror devices for each amplifier",
    ),
    area: given("transistors * transistor_area", "m^2", "area of one reference"),
    leakage: given("transistors * transistor_leakage", "W", "leakage of one reference"),
    read_energy: given(
      "transistors * unit_gate_energy / 2 + supply * (cell_on_current - signal_current / 2) * " +
        "sensing_time",
      "J",
      "energy of a reference in one read",
    ),
    write_energy: given("0 * read_energy", "J", "a verify is a read"),
  },
  inputs: { sensing_time: { unit: "s", meaning: "time for which the reference is on" } },
});

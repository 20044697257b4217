/** Sense amplifiers of columns that are held at the read voltage, and their reference. */
import type { Sheet } from "../../../formulas/sheet.ts";
import { type Formulas, given, part } from "../define.ts";
import { costs, pairOf, regeneration } from "./latch.ts";

/** A reference that a group of amplifiers shares. */
const referenceSettling: Formulas = {
  mirror_gates: given(
    "amplifiers_per_reference * pair_width * pair_length / contacted_gate_pitch * 2 * " +
      "gate_capacitance",
    "F",
    "gates of the mirrors that a reference drives",
    "dic",
  ),
  reference_delay: given(
    "log(1 / settling_error) * mirror_gates * clamp_resistance / reference_cells",
    "s",
    "settling of the mirrors' common gate, side by side with the column",
    "dic",
    "driven by the current of all reference cells",
  ),
};

/** The formulas of an amplifier of currents, made for the two states of a cell. */
export function currentAmplifier(differential: boolean): Formulas {
  const half = differential ? "signal_current" : "signal_current / 2";
  return {
    half_signal: given(
      `max(${half}, 0.000001 * cell_on_current)`,
      "A",
      "difference of the two currents that are compared",
      "this project",
      "a signal at or below zero is no signal: see margin",
    ),
    reference_current: given(
      "cell_on_current + column_leak_current - signal_current / 2",
      "A",
      "mean of the two states, leak included: the current that the mirror copies",
    ),
    tail_loss: given(
      "cell_on_current * (1 - exp(-read_tail_sigmas * tail_on_spread)) + cell_off_current * " +
        "(exp(read_tail_sigmas * tail_off_spread) - 1)",
      "A",
      "signal that cells in the tails of both states lack",
      "detection",
      "lognormal resistances",
    ),
    tail_signal: given(
      `max(half_signal - tail_loss${differential ? "" : " / 2"}, least_tail_share * half_signal)`,
      "A",
      "difference of the two currents for cells in the tails",
      "this project",
      "cells beyond are left to the code, to spares or to another write",
    ),
    mirror_overdrive: given(
      "max(mirror_overdrive_share * overdrive, 2 * swing_at_temperature / log(10))",
      "V",
      "gate overdrive of the mirror",
      "common practice",
      "column, clamp and mirror share the supply; below threshold a device has no less",
    ),
    allowed_offset: given(
      "offset_share * tail_signal * mirror_overdrive / (2 * reference_current)",
      "V",
      "threshold mismatch that the signal leaves room for",
      "matching1989",
      "relative mismatch of a mirror: twice the threshold mismatch over the overdrive",
    ),
    left_matching: given(
      "matching_coefficient * (offset_cancelled > 0.5 ? cancellation_ratio : 1)",
      "V m",
      "matching coefficient of what is left of the mirror's mismatch",
      "matching1989",
    ),
    ...pairOf("left_matching"),
    offset_current: given(
      "2 * reference_current * offset / mirror_overdrive",
      "A",
      "current that the mismatch may add",
      "matching1989",
    ),
    net_current: given(
      "max(tail_signal - offset_current, 0.01 * half_signal)",
      "A",
      "current that is left to charge the latch at the worst mismatch",
    ),
    margin: given(
      `${half} / offset_current`,
      "1",
      "signal over the offset to beat: below one the state cannot be read",
    ),
    node_capacitance: given(
      "latch_capacitance + pair_width * (pair_length / contacted_gate_pitch * 2 * " +
        "gate_capacitance + 2 * drain_capacitance)",
      "F",
      "capacitance that the net current charges",
    ),
    latch_offset: given(
      "sense_sigmas * matching_coefficient / sqrt(latch_width * pair_length)",
      "V",
      "offset of the latch that its input must beat",
      "matching1989",
    ),
    start_difference: given(
      "min(latch_offset / offset_share, supply / 2)",
      "V",
      "difference at which the latch is let go: its own offset eats a share of it",
    ),
    signal_time: given(
      "sense_guard * node_capacitance * start_difference / net_current",
      "s",
      "time in which the net current makes the starting difference",
      "dic",
    ),
    ...regeneration,
    sampling_time: given(
      "offset_cancelled > 0.5 ? -log(settling_error) * node_capacitance * clamp_resistance : 0",
      "s",
      "time in which the mirror samples its own offset before it compares",
      "dic",
      "a diode-connected device charges its own gate",
    ),
    delay: given(
      "sampling_time + signal_time + regeneration_time + output_time",
      "s",
      "time from a settled column to a valid bit",
    ),
    ...costs("sense_current_transistors + (offset_cancelled > 0.5 ? 4 : 0)"),
    clamp_resistance: given(
      "mirror_overdrive / (2 * reference_current)",
      "ohm",
      "resistance that the clamp shows to the column",
      "dic",
      "the inverse of a square-law device's transconductance",
    ),
    settling_error: given(
      "min(0.5, settling_share * tail_signal / reference_current)",
      "1",
      "share of the current that may still be missing when sensing starts",
    ),
    ...(differential ? {} : referenceSettling),
    read_energy: given(
      "latch_energy + supply * 2 * reference_current * delay",
      "J",
      "energy of one decision: the latch, and two branches of the mirror while it senses",
    ),
    write_energy: given("0", "J", "a write needs no decision; a verify is a read"),
  };
}

function amplifier(differential: boolean): Sheet {
  const against = differential
    ? "the current of the other column"
    : "a reference in the middle of the two states";
  return part({
    name: differential ? "differential_sense_amplifier" : "current_sense_amplifier",
    title: differential ? "Differential current sense amplifier" : "Current sense amplifier",
    about:
      `Holds the column at the read voltage and compares its current with ${against}, through a ` +
      "mirror whose mismatch eats part of the difference; the rest charges the latch. The mirror " +
      "is as large as the mismatch asks, so a small difference of currents costs area. The " +
      "current of the cell itself is not in its energy. Sized and timed for a cell in the tails of " +
      "the array's states, not for a median one.",
    formulas: currentAmplifier(differential),
  });
}

/** Compares a column with a reference. */
export const currentSenseAmplifier = amplifier(false);
/** Compares the two columns of a cell that holds a bit and its complement. */
export const differentialSenseAmplifier = amplifier(true);

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
    area: given(
      "transistors * transistor_area * pitch_layout_share",
      "m^2",
      "area of one reference",
    ),
    leakage: given("transistors * transistor_leakage", "W", "leakage of one reference"),
    read_energy: given(
      "transistors * unit_gate_energy / 2 + supply * (cell_on_current - signal_current / 2) * " +
        "sensing_time",
      "J",
      "energy of a reference in one read",
    ),
    write_energy: given("0", "J", "a verify is a read"),
  },
  inputs: { sensing_time: { unit: "s", meaning: "time for which the reference is on" } },
});

/** Latencies of a read and a write, from the delays of the parts and of the lines. */
import type { Sheet } from "../../formulas/sheet.ts";
import { type Formulas, given, part } from "./define.ts";
import { partsFor } from "./periphery.ts";
import { type Structure, terminates } from "./structure.ts";

const second = (meaning: string, formula: string, note?: string) =>
  given(formula, "s", meaning, "this project", note);

const SENSED = {
  once: second("the amplifier has decided", "sense_amplifier_delay"),
  successive: second(
    "the amplifier has decided on every bit of the cell",
    "bits_per_cell * sense_amplifier_delay + (bits_per_cell - 1) * (level_sequencer_delay + " +
      "level_register_delay + sense_amplifier_recovery)",
    "the column stays settled; between two decisions the latch recovers and the reference changes",
  ),
  parallel: second(
    "the amplifiers of all references have decided, and their bits are encoded",
    "sense_amplifier_delay + level_encoder_delay",
  ),
} as const;

function formulasFor(structure: Structure): Formulas {
  const prefixes = new Set(partsFor(structure).map((part) => part.prefix));
  const delayOf = (part: string) => (prefixes.has(`${part}_`) ? ` + ${part}_delay` : "");
  const { amplifierPerColumn = false } = structure;
  const selected = structure.multiplexed && !amplifierPerColumn ? ", select_delay" : "";
  const restored = amplifierPerColumn ? " + bit_line_delay + sense_delay" : "";
  const biased = structure.bias === undefined ? "" : ", column_bias_delay";
  const column =
    `column_line_delay${delayOf("column_multiplexer")}` +
    (amplifierPerColumn ? "" : delayOf("global_column"));
  const settled =
    structure.reference && structure.sensing === "current"
      ? `max(${column}, sense_amplifier_reference_delay)`
      : column;
  const driven = structure.limitedWrite
    ? "1.03 * column_resistance * column_capacitance"
    : "bit_line_delay";
  const { levels } = structure;
  const reads = `${levels ? "write_pulses" : "verify_pulses"} * (bit_line_delay + sense_delay)`;
  const verified = structure.verify ? ` + ${reads}` : "";
  const turns = structure.bias === undefined ? "" : " * polarity_share";
  return {
    gate_mismatch: given(
      "drive_exponent * matching_coefficient / sqrt(gate_width * pair_length_ratio * " +
        "contacted_gate_pitch) / max(overdrive, swing_at_temperature / log(10))",
      "1",
      "standard deviation of a gate's delay against that of a like gate, relative",
      "matching1989",
      "mismatch of thresholds over the overdrive; below threshold over the slope of the current",
    ),
    timing_guard: given(
      "sense_guard * (1 + sense_sigmas * gate_mismatch / sqrt(timed_stages))",
      "1",
      "time that a replica gives the selected cell and its column over the time that they need",
      "this project",
      "gates of a path are independent; the replica differs from the worst path as two paths do",
    ),
    input_delay: second(
      "the address is held and reaches the bank",
      `${structure.die ? "pads_input_delay + " : ""}address_latch_delay + route_delay`,
    ),
    decode_delay: second(
      "the row decoder's outputs are valid, main row lines included",
      `row_decoder_delay${delayOf("row_main_driver")}`,
    ),
    word_line_delay: second("the far end of the row is up", "row_driver_delay + row_line_delay"),
    ...(structure.multiplexed && {
      select_delay: second(
        "the column switches are open",
        "column_decoder_delay + column_select_delay",
      ),
    }),
    selection_delay: second(
      "the slower of the paths that select the cell",
      `max(decode_delay + word_line_delay${selected}${biased})`,
    ),
    bit_line_delay: second("the column has settled at the amplifier", settled),
    sense_delay: levels ? SENSED[levels] : SENSED.once,
    output_delay: second(
      "the word is corrected and leaves the macro",
      (amplifierPerColumn && structure.multiplexed ? "output_multiplexer_delay + " : "") +
        (amplifierPerColumn && structure.globalColumns ? "global_column_delay + " : "") +
        `route_delay${delayOf("correction_decoder")} + data_latch_delay + ` +
        `output_driver_delay${delayOf("pads")}`,
    ),
    read_latency: second(
      "from the clock to the word at the output",
      "input_delay + timing_guard * (selection_delay + bit_line_delay) + sense_delay + output_delay",
    ),
    read_cycle: second(
      "until the same tile can be read again",
      `selection_delay + bit_line_delay + ` +
        `sense_delay${amplifierPerColumn ? " + write_time" : ""}` +
        `${delayOf("precharge") || " + word_line_delay"}`,
      "the row falls and the columns recover side by side; input and output belong to other " +
        "accesses",
    ),
    drive_delay: second(
      "the columns have the write voltage",
      `write_driver_delay${delayOf("output_multiplexer")} + ${driven}`,
      structure.limitedWrite
        ? "the driver's own resistance is in its delay; the wire lags it until nine tenths"
        : undefined,
    ),
    ...(turns && {
      polarity_share: given(
        "write_polarities > 1.5 ? (row_cells_written > 1 ? 1 + min(set_time, reset_time) / " +
          "max(set_time, reset_time) / groups : 1) : 1",
        "1",
        "time of a write over that of its groups' longer pulses",
        "this project",
        "cells of one row that are set and those that are reset need opposite voltages on it: at " +
          "worst one pulse more than there are groups, which are filled with one of both first",
      ),
    }),
    ...(terminates(structure) && {
      verified_share: given(
        "self_terminated > 0.5 ? 0 : write_verified",
        "1",
        "1 where a read comes after each pulse",
      ),
      pulse_share: given(
        "(self_terminated > 0.5 ? termination_share : 1) / (verified_share > 0.5 ? 1 : " +
          "write_pulses)",
        "1",
        "time of the pulses over that of all pulses of a verified write",
        "this project",
        "where each pulse ends with its own cell's switching, or nothing is verified, there is one",
      ),
    }),
    pulse_time: second(
      "pulses and verify reads of one group",
      terminates(structure)
        ? `write_time * pulse_share${turns}${verified && ` + verified_share * ${reads}`}`
        : `write_time${turns}${verified}`,
      structure.verify ? "the pulses of program-and-verify are in the write time" : undefined,
    ),
    write_latency: second(
      "from the clock to a word that is kept",
      `input_delay${delayOf("correction_encoder")} + selection_delay${restored}` +
        `${delayOf("charge_pump")} + groups * (drive_delay + pulse_time)`,
      amplifierPerColumn ? "the row is sensed first: its other cells are restored" : undefined,
    ),
  };
}

const REFERENCE = {
  sense_amplifier_reference_delay: { unit: "s", meaning: "settling of the reference" },
  sense_amplifier_recovery: { unit: "s", meaning: "recovery of the latch between decisions" },
};

/**
 * The latency sheet of a memory with this structure. Reads the delays of the parts by their
 * prefixes, and
 * `row_line_delay`, `column_line_delay` [s], `write_time` [s], `groups` [1]; with verify,
 * `verify_pulses` [1], of cells of several bits `write_pulses` [1].
 * Defines `read_latency`, `read_cycle`, `write_latency` and their terms.
 */
export function accessFor(structure: Structure): Sheet {
  const inputs = structure.die
    ? { pads_input_delay: { unit: "s", meaning: "delay of a receiver at a pad" } }
    : {};
  const delays = partsFor(structure).map(({ name, prefix }) => [
    `${prefix}delay`,
    { unit: "s", meaning: `delay of the ${name}` },
  ]);
  return part({
    name: "access",
    title: "Latencies",
    about:
      "A read: the address is held, travels, is decoded, the row rises, the column settles, the " +
      "amplifier decides, the word travels back. A write: the same to the row, then the pulses " +
      "of each group. The enable of the amplifiers is timed by a replica, which waits for the " +
      "slowest of the paths that it stands for.",
    inputs: { ...Object.fromEntries(delays), ...inputs, ...REFERENCE },
    formulas: formulasFor(structure),
  });
}

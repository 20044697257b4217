/** What time does to stored bits: states lost by heat, bits that flip, and when it is worst. */
import type { ExtraFormula } from "../../formulas/program.ts";
import type { Sheet } from "../../formulas/sheet.ts";
import { formula, reliabilitySheet } from "./define.ts";

const lost = formula(
  "1",
  "-expm1(log1p(-lost_share) * (storage_time / retention)^loss_shape)",
  "share of cells that have lost their state by then",
  "iec61649",
  { note: "a Weibull law through the stated share at the stated retention; shape 1 is a rate" },
);
const flipped = formula(
  "1",
  "-expm1(-bit_flip_rate * storage_time)",
  "share of bits that have flipped by then",
  "ecc-book",
);
const changed = (text: string) =>
  formula("1", text, "share of cells whose content has changed by then", "this project");

const ABOUT =
  "Cells lose their states by themselves and at random. The profile of temperatures acts by its " +
  "mean rate at any time, however short. ";

/** Sheets by what changes a stored state; all give `changed_share`. */
export const stateLoss: Readonly<Record<"kept" | "lost" | "flipped" | "lost-flipped", Sheet>> = {
  kept: reliabilitySheet("states_kept", "States that are kept", `${ABOUT}Here none is.`, {
    changed_share: changed("0 * storage_time / storage_time"),
  }),
  lost: reliabilitySheet("states_lost", "States lost by heat", ABOUT, {
    lost_states: lost,
    changed_share: changed("lost_states"),
  }),
  flipped: reliabilitySheet("states_flipped", "States that flip", `${ABOUT}At a constant rate.`, {
    flipped_states: flipped,
    changed_share: changed("flipped_states"),
  }),
  "lost-flipped": reliabilitySheet(
    "states_lost_or_flipped",
    "States lost by heat or flipped",
    `${ABOUT}Some are lost by heat, others flip at a constant rate.`,
    {
      lost_states: lost,
      flipped_states: flipped,
      changed_share: changed("lost_states + flipped_states - lost_states * flipped_states"),
    },
  ),
};

/** Bits of cells of one bit each: read wrong, or changed before. */
export const changedBits = reliabilitySheet(
  "changed_bits",
  "Bits that are read wrong or have changed",
  "One bit for each cell. A changed bit that is also read wrong counts as wrong.",
  {
    bit_error_rate: formula(
      "1",
      "read_error + changed_share * (1 - read_error)",
      "probability that a bit is read wrong, uncorrected",
      "this project",
    ),
  },
);

/** Both switches of a pair after some time. */
export const driftedPair = reliabilitySheet(
  "drifted_pair",
  "A pair of switches after some time",
  "Resistances drift as a power of time; currents with the whole of theirs, series resistance " +
    "included: more than they do.",
  {
    drifted_on_current: formula(
      "A",
      "cell_on_current * exp(-drift_exponent_on * drift_decades)",
      "current of the median switch that is on",
      "drift",
    ),
    drifted_off_current: formula(
      "A",
      "cell_off_current * exp(-drift_exponent_off * drift_decades)",
      "current of the median switch that is off",
      "drift",
    ),
    drifted_on_spread: formula(
      "1",
      "sqrt(on_spread^2 + (drift_deviation_on * drift_decades)^2)",
      "standard deviation of ln R, on",
      "drift",
    ),
    drifted_off_spread: formula(
      "1",
      "sqrt(off_spread^2 + (drift_deviation_off * drift_decades)^2)",
      "standard deviation of ln R, off",
      "drift",
    ),
  },
);

/** Bit errors of a cell that shares its charge with its column. */
export const chargeReadErrors = reliabilitySheet(
  "charge_read_errors",
  "Bit errors of a shared charge",
  "The signal against the offset of the amplifier, the noise of the charge on the column, and " +
    "the spread of the cells' charge, all normal. Fresh charge: what leaks before the refresh is " +
    "not in it.",
  {
    charge_noise: formula(
      "V",
      "sqrt(boltzmann_constant * temperature / (storage_capacitance + column_capacitance))",
      "thermal noise of the shared charge",
      "detection",
    ),
    bit_error_rate: formula(
      "1",
      "normal_tail(signal_voltage / sqrt(sense_amplifier_offset_sigma^2 + charge_noise^2 + " +
        "(on_spread * signal_voltage)^2))",
      "probability that a bit is read wrong, uncorrected",
      "detection",
    ),
  },
);

/** Words and macro from the failure of a word, where that is computed elsewhere. */
export const codedMacro = reliabilitySheet(
  "coded_macro",
  "A macro of coded words",
  "Words fail independently of each other.",
  {
    code_length: formula("1", "word + check_bits", "bits of a coded word", "ecc-book", {
      symbol: "n",
    }),
    macro_words: formula("1", "capacity / word", "words of the macro", "this project"),
    macro_failure: formula(
      "1",
      "-expm1(macro_words * log1p(-word_failure))",
      "probability that any word of the macro fails",
      "ecc-book",
    ),
  },
);

/** Prefix of what is computed for one time of the table; they count from 1. */
export function timePrefix(time: number): string {
  return `time_${time}_`;
}

const extra = (name: string, unit: string, text: string, meaning: string): ExtraFormula => ({
  name,
  unit,
  formula: text,
  meaning,
  source: "this project",
});

/**
 * The worst of several times, among them right after the write where its errors are known.
 *
 * @param times how many; @param fresh whether `bit_error_rate` and `word_failure` are known
 * @param rounds how often within the mission all is written anew, a formula
 */
export function worstTimes(
  times: number,
  fresh: boolean,
  rounds: string | undefined,
): readonly ExtraFormula[] {
  const prefixes = Array.from({ length: times }, (_, i) => timePrefix(i + 1));
  const largest = (name: string): string => {
    const all = [...(fresh ? [name] : []), ...prefixes.map((prefix) => prefix + name)];
    return all.length === 1 ? all[0]! : `max(${all.join(", ")})`;
  };
  // The first time at which the error is at its worst.
  const when = prefixes.reduceRight(
    (later, prefix, i) =>
      i === times - 1 && !fresh && times === 1
        ? `read_time_${i + 1}`
        : `${prefix}bit_error_rate >= aged_bit_error_rate ? read_time_${i + 1} : (${later})`,
    `0 * read_time_${times}`,
  );
  return [
    extra(
      "aged_bit_error_rate",
      "1",
      largest("bit_error_rate"),
      "probability that a bit is read wrong, uncorrected, at the worst of the times",
    ),
    extra("worst_time", "s", when, "time since the write at which that is"),
    extra(
      "aged_word_failure",
      "1",
      largest("word_failure"),
      "probability that a word fails at the worst of the times",
    ),
    extra(
      "mission_failure",
      "1",
      `-expm1(capacity / word * ${rounds === undefined ? "1" : `max(1, ${rounds})`} * log1p(-aged_word_failure))`,
      rounds === undefined
        ? "probability that any word of the macro fails at the worst of the times"
        : "probability that any word of the macro is lost in the mission",
    ),
  ];
}

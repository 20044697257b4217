/** Sense amplifiers of cells of several levels: made for the pair of levels that is hardest to tell. */
import { type Formulas, given, part } from "../define.ts";
import { currentAmplifier } from "./sense-current.ts";

const PAIRS = {
  first: {
    upper: "cell_on_current",
    lower: "second_level_current",
    upperSpread: "tail_on_spread",
    lowerSpread: "second_level_spread",
    words: "two levels of least resistance",
  },
  last: {
    upper: "last_but_one_level_current",
    lower: "cell_off_current",
    upperSpread: "last_but_one_level_spread",
    lowerSpread: "tail_off_spread",
    words: "two levels of most resistance",
  },
} as const;
type Pair = keyof typeof PAIRS;

/** What the amplifier needs to know of one pair of levels. */
function ofPair(pair: Pair): Formulas {
  const { upper, lower, upperSpread, lowerSpread, words } = PAIRS[pair];
  return {
    [`${pair}_half`]: given(
      `max(${pair}_pair_signal / 2, 0.000001 * cell_on_current)`,
      "A",
      `half of the difference of the ${words}`,
    ),
    [`${pair}_reference`]: given(
      `${upper} + column_leak_current - ${pair}_pair_signal / 2`,
      "A",
      `reference between the ${words}, leak included`,
    ),
    [`${pair}_tail_loss`]: given(
      `${upper} * (1 - exp(-read_tail_sigmas * ${upperSpread})) + ${lower} * ` +
        `(exp(read_tail_sigmas * ${lowerSpread}) - 1)`,
      "A",
      `signal that cells in the tails of the ${words} lack`,
      "detection",
      "lognormal resistances",
    ),
    [`${pair}_tail`]: given(
      `max(${pair}_half - ${pair}_tail_loss / 2, least_tail_share * ${pair}_half)`,
      "A",
      `difference from the reference for cells in the tails of the ${words}`,
    ),
  };
}

/** The same once the matched pair has its size. */
function offsetOf(pair: Pair): Formulas {
  const { words } = PAIRS[pair];
  return {
    [`${pair}_offset_current`]: given(
      `2 * ${pair}_reference * offset / mirror_overdrive`,
      "A",
      `current that the mismatch may add at the reference between the ${words}`,
      "matching1989",
    ),
    [`${pair}_net_current`]: given(
      `max(${pair}_tail - ${pair}_offset_current, 0.01 * ${pair}_half)`,
      "A",
      `current that is left to charge the latch between the ${words}`,
    ),
  };
}

const worse = (formula: (pair: Pair) => string) => `min(${formula("first")}, ${formula("last")})`;

function spreadAt(share: string, alone: string): string {
  const between = `tail_on_spread + (tail_off_spread - tail_on_spread) * ${share}`;
  return `bits_per_cell > 1 ? ${between} : ${alone}`;
}

const common: Formulas = {
  ...currentAmplifier(false),
  second_level_spread: given(
    spreadAt("1 / level_references", "tail_off_spread"),
    "1",
    "standard deviation of ln R of the level after the one of least resistance",
  ),
  last_but_one_level_spread: given(
    spreadAt("(1 - 1 / level_references)", "tail_on_spread"),
    "1",
    "standard deviation of ln R of the level before the one of most resistance",
  ),
  ...ofPair("first"),
  ...ofPair("last"),
  half_signal: given(
    worse((pair) => `${pair}_half`),
    "A",
    "least difference of two currents that are compared",
  ),
  tail_loss: given("max(first_tail_loss, last_tail_loss)", "A", "signal that tails lack, at most"),
  tail_signal: given(
    worse((pair) => `${pair}_tail`),
    "A",
    "least difference of the two currents for cells in the tails",
  ),
  allowed_offset: given(
    worse((pair) => `offset_share * ${pair}_tail * mirror_overdrive / (2 * ${pair}_reference)`),
    "V",
    "threshold mismatch that the signals of all pairs of levels leave room for",
    "matching1989",
    "relative mismatch of a mirror: twice the threshold mismatch over the overdrive",
  ),
  ...offsetOf("first"),
  ...offsetOf("last"),
  net_current: given(
    worse((pair) => `${pair}_net_current`),
    "A",
    "least current that is left to charge the latch at the worst mismatch",
  ),
  margin: given(
    worse((pair) => `${pair}_pair_signal / 2 / ${pair}_offset_current`),
    "1",
    "signal over the offset to beat: below one some levels cannot be told apart",
  ),
  clamp_resistance: given(
    `mirror_overdrive / (2 * ${worse((pair) => `${pair}_reference`)})`,
    "ohm",
    "resistance that the clamp shows to the column at the least reference",
    "dic",
    "the inverse of a square-law device's transconductance",
  ),
  settling_error: given(
    "min(0.5, settling_share * first_tail / first_reference, settling_share * last_tail / " +
      "last_reference)",
    "1",
    "share of the current that may still be missing when sensing starts",
  ),
};

const ABOUT =
  "Compares the current of a held column with references between neighbouring levels. Mirror and " +
  "latch are made for the pair of levels that is hardest to tell, and timed for it: ";

/** One amplifier for a column, which compares once for each bit. */
export const successiveSenseAmplifier = part({
  name: "successive_sense_amplifier",
  title: "Current sense amplifier, by successive approximation",
  about: `${ABOUT}each step takes as long as the hardest.`,
  formulas: {
    ...common,
    recovery: given(
      "regeneration_time",
      "s",
      "time in which the latch is pulled back between two decisions",
      "this project",
      "the devices that let it fall apart bring it together",
    ),
  },
});

/** One of an amplifier for each reference at a column. */
export const parallelSenseAmplifier = part({
  name: "parallel_sense_amplifier",
  title: "Current sense amplifier beside those of the other references",
  about: `${ABOUT}the slowest amplifier of a column decides. The column drives the mirrors of all.`,
  formulas: {
    ...common,
    copy_delay: given(
      "-log(settling_error) * (2 ^ bits_per_cell - 2) * pair_width * pair_length / " +
        "contacted_gate_pitch * 2 * gate_capacitance * clamp_resistance",
      "s",
      "settling of the mirrors beyond the first that the column drives",
      "dic",
    ),
    delay: given(
      "sampling_time + signal_time + regeneration_time + output_time + copy_delay",
      "s",
      "time from a settled column to a valid decision",
    ),
  },
});

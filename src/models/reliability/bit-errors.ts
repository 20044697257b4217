/** Bit errors of a read: offset and noise, levels, drift, a shared reference. */
import { normalMean } from "../../numerics/quadrature.ts";
import { exp, expm1, log1p } from "../../numerics/special/elementary.ts";
import { normalTail } from "../../numerics/special/normal.ts";
import { formula, reliabilityProcedure, reliabilitySheet } from "./define.ts";

const SOURCE = "detection";

export const senseErrors = reliabilitySheet(
  "sense_errors",
  "Bit errors of a sense amplifier",
  "A margin against independent normal offset, noise and cell spread. Not for lognormal spreads " +
    "in the tail: see the mean over the spread.",
  {
    sense_deviation: formula(
      "V",
      "sqrt(offset_deviation^2 + noise_deviation^2 + cell_deviation^2)",
      "standard deviation of all that moves the decision",
      SOURCE,
      { symbol: "\\sigma" },
    ),
    sense_error: formula(
      "1",
      "normal_tail(sense_margin / sense_deviation)",
      "probability that a bit is read wrong",
      SOURCE,
    ),
  },
);

export const levelErrors = reliabilitySheet(
  "level_errors",
  "Errors of several levels",
  "Equally spaced levels of equal spread with thresholds midway; labels by reflected binary code, " +
    "so that a step to a neighbour is one bit.",
  {
    symbol_error: formula(
      "1",
      "2 * (levels - 1) / levels * normal_tail(level_spacing / 2)",
      "probability that a level is read as another",
      "digital-comm",
    ),
    level_bit_error: formula(
      "1",
      "symbol_error / log2(levels)",
      "bit error rate with reflected binary labels",
      "digital-comm",
    ),
  },
);

export const driftErrors = reliabilitySheet(
  "drift_errors",
  "Off states lost by drift",
  "The off resistance falls as a power of time; its exponent is normal from cell to cell.",
  {
    drift_decades: formula("1", "log(storage_time / drift_start)", "ln of the time", "drift"),
    drifted_resistance: formula(
      "ohm",
      "off_resistance * exp(-drift_exponent * drift_decades)",
      "median off resistance after that time",
      "drift",
    ),
    drifted_spread: formula(
      "1",
      "sqrt(off_spread^2 + (drift_exponent_deviation * drift_decades)^2)",
      "standard deviation of ln R after that time",
      "drift",
    ),
    off_lost: formula(
      "1",
      "normal_tail(log(drifted_resistance / threshold_resistance) / drifted_spread)",
      "probability that an off state is read as on",
      "drift",
    ),
  },
);

/**
 * Probability that the current of a lognormal resistance plus normal noise falls below a threshold.
 * Currents in A, voltage in V, resistance in ohm; `spread` is the deviation of ln R.
 */
export function currentBelow(
  voltage: number,
  resistance: number,
  spread: number,
  noise: number,
  threshold: number,
): number {
  const median = voltage / resistance;
  return normalMean((g) => normalTail((median * exp(-spread * g) - threshold) / noise), 1e-12);
}

/** Probability that the same current exceeds the threshold. */
export function currentAbove(
  voltage: number,
  resistance: number,
  spread: number,
  noise: number,
  threshold: number,
): number {
  const median = voltage / resistance;
  return normalMean((g) => normalTail((threshold - median * exp(-spread * g)) / noise), 1e-12);
}

export const currentErrors = reliabilityProcedure(
  "current_errors",
  {
    title: "Bit errors of a current read",
    about:
      "Mean over the lognormal resistance of the normal error of offset and noise, by the " +
      "trapezoidal rule until two results agree to 1e-12. A normal law of equal mean and variance " +
      "would be wrong by orders of magnitude in the tail.",
    source: SOURCE,
  },
  [
    "read_voltage",
    "on_resistance",
    "off_resistance",
    "on_spread",
    "off_spread",
    "current_noise",
    "threshold_current",
  ],
  {
    on_current_below: { unit: "1", meaning: "probability that an on state is read as off" },
    off_current_above: { unit: "1", meaning: "probability that an off state is read as on" },
  },
  (v, on, off, onSpread, offSpread, noise, threshold) => [
    currentBelow(v!, on!, onSpread!, noise!, threshold!),
    currentAbove(v!, off!, offSpread!, noise!, threshold!),
  ],
);

/** Probability that any of `bits` amplifiers errs when they share one reference. Volts. */
export function sharedReferenceWordError(
  margin: number,
  own: number,
  reference: number,
  bits: number,
): number {
  const word = (g: number): number => {
    return -expm1(bits * log1p(-normalTail((margin - reference * g) / own)));
  };
  return normalMean(word, 1e-12);
}

export const sharedReference = reliabilityProcedure(
  "shared_reference",
  {
    title: "Word errors with a shared reference",
    about:
      "The amplifiers of a word err together where their common reference is off. Mean over the " +
      "reference by the trapezoidal rule to 1e-12.",
    source: SOURCE,
  },
  ["sense_margin", "offset_deviation", "reference_deviation", "word"],
  {
    shared_bit_error: { unit: "1", meaning: "probability that a bit is read wrong" },
    shared_word_error: { unit: "1", meaning: "probability that any bit of a word is read wrong" },
    independent_word_error: {
      unit: "1",
      meaning: "the same if each amplifier had a reference of its own",
    },
  },
  (margin, own, reference, word) => {
    const bit = normalTail(margin! / Math.sqrt(own! * own! + reference! * reference!));
    const shared = sharedReferenceWordError(margin!, own!, reference!, word!);
    return [bit, shared, -expm1(word! * log1p(-bit))];
  },
);

/** States of two levels that are written until a verifying read accepts them. */
import { formula, reliabilitySheet } from "./define.ts";

const TRUNCATED = "statistics-book";

/** In place of `switchSpread` where writes are held to a tolerance. */
export const verifiedSpread = reliabilitySheet(
  "verified_spread",
  "Spread of states held to a tolerance",
  "Pulses are adapted to each cell, so that its own offset is trimmed away and the spread from " +
    "cycle to cycle is left; a pulse that lands outside of the tolerance is repeated. Taken as " +
    "normal again: an upper bound, since the cut leaves no tails.",
  {
    tolerance_sigmas: formula(
      "1",
      "level_tolerance / cycle_spread",
      "tolerance in standard deviations of a pulse",
      "this project",
    ),
    pulse_failure: formula(
      "1",
      "2 * normal_tail(tolerance_sigmas)",
      "probability that one pulse misses the tolerance",
      TRUNCATED,
    ),
    variance_cut: formula(
      "1",
      "sqrt(2 / pi) * tolerance_sigmas * exp(-tolerance_sigmas^2 / 2) / (1 - pulse_failure)",
      "share of the variance that the tolerance cuts off",
      TRUNCATED,
    ),
    on_spread: formula(
      "1",
      "cycle_spread * sqrt(1 - variance_cut)",
      "standard deviation of ln R, on",
      TRUNCATED,
      { symbol: "\\sigma_{on}" },
    ),
    off_spread: formula(
      "1",
      "cycle_spread * sqrt(1 - variance_cut)",
      "standard deviation of ln R, off",
      TRUNCATED,
      { symbol: "\\sigma_{off}" },
    ),
  },
);

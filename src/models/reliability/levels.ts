/** Several levels per cell, written by program and verify. */
import { formula, reliabilitySheet } from "./define.ts";

const TRUNCATED = "statistics-book";

export const verifiedLevels = reliabilitySheet(
  "verified_levels",
  "Levels written by program and verify",
  "Levels are spaced evenly in ln R from on to off. A pulse lands normally around its level with " +
    "the cycle-to-cycle spread, and is repeated until it is within the tolerance; what is read is " +
    "spread by what the tolerance leaves and by read noise.",
  {
    level_distance: formula(
      "1",
      "log(off_resistance / on_resistance) / (levels - 1)",
      "distance of neighbouring levels in ln R",
      "this project",
    ),
    tolerance_sigmas: formula(
      "1",
      "level_tolerance / cycle_spread",
      "tolerance in standard deviations of a pulse",
      "this project",
    ),
    pulse_failure: formula(
      "1",
      "2 * normal_tail(tolerance_sigmas)",
      "probability that one pulse misses its level",
      TRUNCATED,
    ),
    variance_cut: formula(
      "1",
      "sqrt(2 / pi) * tolerance_sigmas * exp(-tolerance_sigmas^2 / 2) / (1 - pulse_failure)",
      "share of the variance that the tolerance cuts off",
      TRUNCATED,
    ),
    verified_spread: formula(
      "1",
      "cycle_spread * sqrt(1 - variance_cut)",
      "standard deviation of ln R of the pulses that are accepted",
      TRUNCATED,
      { note: "the standard deviation of a normal that is cut off on both sides" },
    ),
    level_spread: formula(
      "1",
      "sqrt(verified_spread^2 + read_noise^2)",
      "standard deviation of ln R as it is read",
      "this project",
    ),
    level_spacing: formula(
      "1",
      "level_distance / level_spread",
      "distance of neighbouring levels in standard deviations",
      "this project",
      { note: "taken as normal by `level_errors`: an upper bound, since the cut leaves no tails" },
    ),
  },
);

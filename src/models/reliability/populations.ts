/** Bit errors of two populations of resistance: spread, threshold, and the best threshold. */
import { formula, reliabilitySheet } from "./define.ts";

const SOURCE = "detection";

export const switchSpread = reliabilitySheet(
  "switch_spread",
  "Spread of a switch's resistance",
  "Device to device and cycle to cycle are independent, and each is lognormal.",
  {
    on_spread: formula(
      "1",
      "sqrt(device_spread_on^2 + cycle_spread^2)",
      "standard deviation of ln R, on",
      SOURCE,
      { symbol: "\\sigma_{on}" },
    ),
    off_spread: formula(
      "1",
      "sqrt(device_spread_off^2 + cycle_spread^2)",
      "standard deviation of ln R, off",
      SOURCE,
      { symbol: "\\sigma_{off}" },
    ),
  },
);

export const thresholdErrors = reliabilitySheet(
  "threshold_errors",
  "Bit errors at a threshold",
  "Both resistances are lognormal and equally frequent; the amplifier decides at one resistance. " +
    "Offset and noise of the amplifier are left to other sheets.",
  {
    on_read_as_off: formula(
      "1",
      "normal_tail(log(threshold_resistance / on_resistance) / on_spread)",
      "probability that an on state is read as off",
      SOURCE,
    ),
    off_read_as_on: formula(
      "1",
      "normal_tail(log(off_resistance / threshold_resistance) / off_spread)",
      "probability that an off state is read as on",
      SOURCE,
    ),
    read_error: formula(
      "1",
      "(on_read_as_off + off_read_as_on) / 2",
      "probability that a bit is read wrong",
      SOURCE,
      { symbol: "p" },
    ),
  },
);

export const optimumThreshold = reliabilitySheet(
  "optimum_threshold",
  "Threshold of least error",
  "Where the densities of the two populations of ln R are equal, between the medians; and where " +
    "both errors are equal. Written so that equal spreads are no special case.",
  {
    resistance_window: formula(
      "1",
      "log(off_resistance / on_resistance)",
      "distance of the medians of ln R",
      SOURCE,
      { symbol: "d" },
    ),
    threshold_curvature: formula(
      "1",
      "1 / on_spread^2 - 1 / off_spread^2",
      "quadratic coefficient",
      SOURCE,
    ),
    threshold_half_slope: formula(
      "1",
      "resistance_window / off_spread^2",
      "half of the linear coefficient",
      SOURCE,
    ),
    threshold_height: formula(
      "1",
      "resistance_window^2 / off_spread^2 + 2 * log(off_spread / on_spread)",
      "constant coefficient, negative",
      SOURCE,
    ),
    threshold_root: formula(
      "1",
      "sqrt(threshold_half_slope^2 + threshold_curvature * threshold_height)",
      "root of the discriminant, never of a negative number",
      SOURCE,
    ),
    optimum_distance: formula(
      "1",
      "threshold_height / (threshold_half_slope + threshold_root)",
      "distance of the threshold from the on median in ln R",
      SOURCE,
      { note: "the root between the medians; the other form divides by zero at equal spreads" },
    ),
    optimum_threshold_resistance: formula(
      "ohm",
      "on_resistance * exp(optimum_distance)",
      "threshold of least error",
      SOURCE,
    ),
    optimum_on_error: formula(
      "1",
      "normal_tail(optimum_distance / on_spread)",
      "probability that an on state is read as off there",
      SOURCE,
    ),
    optimum_off_error: formula(
      "1",
      "normal_tail((resistance_window - optimum_distance) / off_spread)",
      "probability that an off state is read as on there",
      SOURCE,
    ),
    least_read_error: formula(
      "1",
      "(optimum_on_error + optimum_off_error) / 2",
      "bit error rate at that threshold",
      SOURCE,
    ),
    equal_error_sigmas: formula(
      "1",
      "resistance_window / (on_spread + off_spread)",
      "standard deviations to a threshold of equal errors",
      SOURCE,
    ),
    equal_error_resistance: formula(
      "ohm",
      "on_resistance * exp(equal_error_sigmas * on_spread)",
      "threshold of equal errors",
      SOURCE,
    ),
    equal_read_error: formula(
      "1",
      "normal_tail(equal_error_sigmas)",
      "bit error rate at equal errors",
      SOURCE,
    ),
  },
);

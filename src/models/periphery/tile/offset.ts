/** How many standard deviations of offset a number of amplifiers needs. */
import { given, part } from "../define.ts";

export const offsetYield = part({
  name: "offset_yield",
  title: "Yield of sense amplifiers",
  about:
    "Offsets are independent and normal; an amplifier fails when its offset exceeds the signal " +
    "on the side that matters.",
  inputs: {
    amplifiers: { unit: "1", meaning: "sense amplifiers that must all work" },
    amplifier_yield: { unit: "1", meaning: "probability that all of them work" },
  },
  formulas: {
    failure_probability: given(
      "erfc(sense_sigmas / sqrt(2)) / 2",
      "1",
      "probability that an amplifier fails",
      "stat",
    ),
    yield: given(
      "(1 - failure_probability) ^ amplifiers",
      "1",
      "probability that all amplifiers work",
      "stat",
    ),
    needed_sigmas: given(
      "-normal_quantile(1 - amplifier_yield ^ (1 / amplifiers))",
      "1",
      "standard deviations for the stated yield",
      "stat",
    ),
  },
});

/** What a distribution needs of a parameter. */

import { log } from "../numerics/special/elementary.ts";
import type { Parameter } from "./parameter.ts";

/** The 97.5 % point of the standard normal distribution (A&S table 26.1, to double precision). */
export const NORMAL_975 = 1.959963984540054;

/** What a distribution needs of a parameter. */
export type Spread = Pick<
  Parameter,
  "value" | "low" | "high" | "distribution" | "sigma" | "samples" | "least" | "most"
>;

/** Standard deviations below and above the median (of the logarithm for the lognormal kinds). */
export function halfDeviations(p: Spread): { below: number; above: number } {
  const { value, low, high, sigma } = p;
  switch (p.distribution) {
    case "two-piece lognormal":
      return {
        below: log(value / low) / NORMAL_975,
        above: log(high / value) / NORMAL_975,
      };
    case "lognormal": {
      const both = sigma ?? log(high / low) / (2 * NORMAL_975);
      return { below: both, above: both };
    }
    case "two-piece normal":
      return { below: (value - low) / NORMAL_975, above: (high - value) / NORMAL_975 };
    case "normal": {
      const both = sigma ?? (high - low) / (2 * NORMAL_975);
      return { below: both, above: both };
    }
    default:
      throw new RangeError(`${p.distribution} is not made of normal halves`);
  }
}

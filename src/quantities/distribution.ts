/** Distributions of input figures: inverse distribution functions and moments. All in SI. */

import { exp, log } from "../numerics/special/elementary.ts";
import { normalQuantile } from "../numerics/special/normal.ts";
import type { Parameter } from "./parameter.ts";

/** The 97.5 % point of the standard normal distribution (A&S table 26.1, to double precision). */
export const NORMAL_975 = 1.959963984540054;

/** What a distribution needs of a parameter. */
export type Spread = Pick<
  Parameter,
  "value" | "low" | "high" | "distribution" | "sigma" | "samples"
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

/**
 * The inverse distribution function of a parameter, prepared for many calls; probabilities lie
 * strictly between 0 and 1. `low` and `high` are the 2.5 % and 97.5 % points of the normal kinds,
 * the bounds of the rectangular and triangular ones (with `value` the mode), and the two outcomes
 * of `two-point`, whose shares make `value` the mean.
 * @throws RangeError for a probability outside of (0, 1), which is a bug of the caller
 */
export function quantileFunction(p: Spread): (probability: number) => number {
  const inverse = inverseOf(p);
  return (probability) => {
    if (!(probability > 0 && probability < 1))
      throw new RangeError("probability outside of (0, 1)");
    return inverse(probability);
  };
}

/** `quantileFunction(p)(probability)`. */
export function quantileOf(p: Spread, probability: number): number {
  return quantileFunction(p)(probability);
}

function inverseOf(p: Spread): (probability: number) => number {
  const { value, low, high } = p;
  switch (p.distribution) {
    case "exact":
      return () => value;
    case "two-piece lognormal":
    case "lognormal": {
      const { below, above } = halfDeviations(p);
      return (u) => {
        const z = normalQuantile(u);
        return value * exp((z < 0 ? below : above) * z);
      };
    }
    case "two-piece normal":
    case "normal": {
      const { below, above } = halfDeviations(p);
      return (u) => {
        const z = normalQuantile(u);
        return value + (z < 0 ? below : above) * z;
      };
    }
    case "rectangular":
      return (u) => low + (high - low) * u;
    case "triangular":
      return triangular(value, low, high);
    case "two-point": {
      const shareLow = (high - value) / (high - low);
      return (u) => (u <= shareLow ? low : high);
    }
    case "measured":
      return measured(p.samples ?? []);
  }
}

function triangular(mode: number, low: number, high: number): (u: number) => number {
  const width = high - low;
  const shareBelow = (mode - low) / width;
  return (u) =>
    u < shareBelow
      ? low + Math.sqrt(u * width * (mode - low))
      : high - Math.sqrt((1 - u) * width * (high - mode));
}

/** The inverse of the step function that counts the samples: each of them is equally likely. */
function measured(samples: readonly number[]): (u: number) => number {
  if (samples.length === 0) throw new RangeError("a measured distribution without samples");
  const sorted = [...samples].sort((a, b) => a - b);
  return (u) => sorted[Math.max(0, Math.ceil(u * sorted.length) - 1)]!;
}

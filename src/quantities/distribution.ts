/** Distributions of input figures: inverse distribution functions and moments. All in SI. */

import { exp } from "../numerics/special/elementary.ts";
import { normalQuantile } from "../numerics/special/normal.ts";
import { cumulativeFunction } from "./cumulative.ts";
import { halfDeviations, type Spread } from "./spread.ts";

export { halfDeviations, NORMAL_975, type Spread } from "./spread.ts";

/**
 * The inverse distribution function of a parameter, prepared for many calls; probabilities lie
 * strictly between 0 and 1. `low` and `high` are the 2.5 % and 97.5 % points of the normal kinds,
 * the bounds of the rectangular and triangular ones (with `value` the mode), and the two outcomes
 * of `two-point`, whose shares make `value` the mean. All of these are of the whole distribution,
 * before it is cut at `least` and `most`.
 * @throws RangeError for a probability outside of (0, 1), which is a bug of the caller
 */
export function quantileFunction(p: Spread): (probability: number) => number {
  const inverse = cut(p, inverseOf(p));
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

/** The part of a distribution between its cuts, scaled to one. */
function cut(p: Spread, inverse: (u: number) => number): (u: number) => number {
  const { least, most } = p;
  if (p.distribution === "exact" || (least === undefined && most === undefined)) return inverse;
  const cumulative = cumulativeFunction(p);
  const from = least === undefined ? 0 : cumulative.below(least);
  const to = most === undefined ? 1 : cumulative.upTo(most);
  if (!(to > from)) throw new RangeError("nothing of the distribution lies between its cuts");
  const bounded = (x: number): number => Math.min(Math.max(x, least ?? x), most ?? x);
  const inside = Math.min(1 - 2 ** -53, Math.max(2 ** -1000, from));
  // Rounding must not lead to the probabilities 0 and 1, whose points may be infinite.
  return (u) => bounded(inverse(Math.min(Math.max(from + (to - from) * u, inside), 1 - 2 ** -53)));
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

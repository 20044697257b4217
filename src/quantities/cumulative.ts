/** Distribution functions of input figures: how probable it is to lie below a value. All in SI. */

import { log, pow } from "../numerics/special/elementary.ts";
import { normalCumulative } from "../numerics/special/normal.ts";
import { halfDeviations, type Spread } from "./spread.ts";

export interface Cumulative {
  /** The probability of what is less than x. */
  below(x: number): number;
  /** The probability of what is not more than x; differs from `below` where single values weigh. */
  upTo(x: number): number;
}

/** The distribution function of a parameter before it is cut at `least` and `most`. */
export function cumulativeFunction(p: Spread): Cumulative {
  const smooth = (of: (x: number) => number): Cumulative => ({ below: of, upTo: of });
  const { value, low, high } = p;
  switch (p.distribution) {
    case "exact":
      return stepped([value], [1]);
    case "two-point":
      return stepped([low, high], [(high - value) / (high - low), (value - low) / (high - low)]);
    case "measured": {
      const samples = p.samples ?? [];
      return stepped(
        samples,
        samples.map(() => 1 / samples.length),
      );
    }
    case "two-piece lognormal":
    case "lognormal": {
      const { below, above } = halfDeviations(p);
      return smooth((x) => {
        if (x <= 0) return 0;
        const away = log(x / value);
        return normalCumulative(away / (away < 0 ? below : above));
      });
    }
    case "two-piece normal":
    case "normal": {
      const { below, above } = halfDeviations(p);
      return smooth((x) => normalCumulative((x - value) / (x < value ? below : above)));
    }
    case "rectangular":
      return smooth((x) => bounded((x - low) / (high - low)));
    case "triangular":
      return smooth((x) => {
        if (x <= low || x >= high) return x <= low ? 0 : 1;
        const width = high - low;
        return x < value
          ? pow(x - low, 2) / (width * (value - low))
          : 1 - pow(high - x, 2) / (width * (high - value));
      });
  }
}

function bounded(share: number): number {
  return Math.min(1, Math.max(0, share));
}

function stepped(values: readonly number[], shares: readonly number[]): Cumulative {
  const sum = (holds: (v: number) => boolean): number =>
    values.reduce((total, v, i) => total + (holds(v) ? shares[i]! : 0), 0);
  return { below: (x) => sum((v) => v < x), upTo: (x) => sum((v) => v <= x) };
}

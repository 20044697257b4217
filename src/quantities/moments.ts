/** Mean and standard deviation of input figures, all in closed form. */

import { exp } from "../numerics/special/elementary.ts";
import { normalCumulative } from "../numerics/special/normal.ts";
import { halfDeviations, type Spread } from "./distribution.ts";

/**
 * Mean and standard deviation of a parameter, in its SI unit. The two-piece kinds are two halves of
 * (log)normal distributions that meet at the median, each with probability one half; their moments
 * follow by completing the square in each half.
 */
export function momentsOf(p: Spread): { mean: number; deviation: number } {
  const { value, low, high } = p;
  switch (p.distribution) {
    case "exact":
      return { mean: value, deviation: 0 };
    case "two-piece lognormal":
    case "lognormal": {
      const { below, above } = halfDeviations(p);
      const raw = (order: number): number =>
        exp((order * below) ** 2 / 2) * normalCumulative(-order * below) +
        exp((order * above) ** 2 / 2) * normalCumulative(order * above);
      const mean = raw(1);
      return { mean: value * mean, deviation: value * Math.sqrt(Math.max(0, raw(2) - mean ** 2)) };
    }
    case "two-piece normal":
    case "normal": {
      const { below, above } = halfDeviations(p);
      const shift = (above - below) / Math.sqrt(2 * Math.PI);
      return {
        mean: value + shift,
        deviation: Math.sqrt((below ** 2 + above ** 2) / 2 - shift ** 2),
      };
    }
    case "rectangular":
      return { mean: (low + high) / 2, deviation: (high - low) / Math.sqrt(12) };
    case "triangular": {
      const squares = (value - low) ** 2 + (high - value) ** 2 + (high - low) ** 2;
      return { mean: (low + value + high) / 3, deviation: Math.sqrt(squares / 36) };
    }
    case "two-point":
      return { mean: value, deviation: Math.sqrt((value - low) * (high - value)) };
    case "measured":
      return ofSamples(p.samples ?? []);
  }
}

function ofSamples(samples: readonly number[]): { mean: number; deviation: number } {
  const mean = samples.reduce((sum, x) => sum + x, 0) / samples.length;
  const variance = samples.reduce((sum, x) => sum + (x - mean) ** 2, 0) / samples.length;
  return { mean, deviation: Math.sqrt(variance) };
}

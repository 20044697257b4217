/** Mean and standard deviation of input figures, in closed form but for those that are cut. */

import { integral } from "../numerics/quadrature.ts";
import { exp, pow } from "../numerics/special/elementary.ts";
import { normalCumulative, normalDensity } from "../numerics/special/normal.ts";
import { halfDeviations, quantileFunction, type Spread } from "./distribution.ts";

/**
 * Mean and standard deviation of a parameter, in its SI unit. The two-piece kinds are two halves of
 * (log)normal distributions that meet at the median, each with probability one half; their moments
 * follow by completing the square in each half.
 */
export function momentsOf(p: Spread): { mean: number; deviation: number } {
  const { value, low, high } = p;
  if (p.distribution !== "exact" && (p.least !== undefined || p.most !== undefined))
    return ofCut(p);
  switch (p.distribution) {
    case "exact":
      return { mean: value, deviation: 0 };
    case "two-piece lognormal":
    case "lognormal": {
      const { below, above } = halfDeviations(p);
      const raw = (order: number): number =>
        exp(pow(order * below, 2) / 2) * normalCumulative(-order * below) +
        exp(pow(order * above, 2) / 2) * normalCumulative(order * above);
      const mean = raw(1);
      return {
        mean: value * mean,
        deviation: value * Math.sqrt(Math.max(0, raw(2) - pow(mean, 2))),
      };
    }
    case "two-piece normal":
    case "normal": {
      const { below, above } = halfDeviations(p);
      const shift = (above - below) / Math.sqrt(2 * Math.PI);
      return {
        mean: value + shift,
        deviation: Math.sqrt((pow(below, 2) + pow(above, 2)) / 2 - pow(shift, 2)),
      };
    }
    case "rectangular":
      return { mean: (low + high) / 2, deviation: (high - low) / Math.sqrt(12) };
    case "triangular": {
      const squares = pow(value - low, 2) + pow(high - value, 2) + pow(high - low, 2);
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
  const variance = samples.reduce((sum, x) => sum + pow(x - mean, 2), 0) / samples.length;
  return { mean, deviation: Math.sqrt(variance) };
}

/** Standard deviations at which the tails of the score are left out: 1e-15 of it. */
const FAR = 8;

/** Of what lies between the cuts; smooth ones by Gauss-Legendre panels over the normal score. */
function ofCut(p: Spread): { mean: number; deviation: number } {
  const { least = Number.NEGATIVE_INFINITY, most = Number.POSITIVE_INFINITY } = p;
  if (p.distribution === "measured") {
    return ofSamples((p.samples ?? []).filter((x) => x >= least && x <= most));
  }
  const inverse = quantileFunction(p);
  if (p.distribution === "two-point" && (p.low < least || p.high > most)) {
    return { mean: inverse(0.5), deviation: 0 };
  }
  const score = (power: (x: number) => number): number => {
    let sum = 0;
    for (let z = -FAR; z < FAR; z++) {
      const part = (s: number): number => power(inverse(normalCumulative(s))) * normalDensity(s);
      sum += integral(part, z, z + 1, 32);
    }
    return sum;
  };
  const mean = score((x) => x);
  return { mean, deviation: Math.sqrt(score((x) => pow(x - mean, 2))) };
}

/** Tails and density of a lognormal current with normal noise, right also where they are tiny. */
import { exp, log } from "../../numerics/special/elementary.ts";
import { normalDensity, normalTail } from "../../numerics/special/normal.ts";

/** The trapezoidal rule over a standard normal reaches where even the smallest tails are. */
const STEP = 0.25;
const STEPS = 152;
export const NODES = Float64Array.from({ length: STEPS + 1 }, (_, i) => i * STEP);
export const WEIGHTS = NODES.map((g) => STEP * normalDensity(g));
/** What the nodes beyond each one may still add, both sides together, of what is at most one. */
export const BEYOND = NODES.map((g) => 2 * normalTail(g));
/** A remainder below this share of a sum changes no digit of it. */
export const NOTHING = 1e-17;

/** Below this a tail is one to its last digit. */
const SURE = -8.5;

/** `normalTail`, without work where it is one: half of all calls here. */
export function tailAt(x: number): number {
  return x < SURE ? 1 : normalTail(x);
}

/** Mean of a smooth `f` over a standard normal. @param most what `f` never exceeds */
export function meanOverNormal(f: (g: number) => number, most = 1): number {
  let sum = WEIGHTS[0]! * f(0);
  for (let i = 1; i <= STEPS; i++) {
    const g = NODES[i]!;
    sum += WEIGHTS[i]! * (f(g) + f(-g));
    if (BEYOND[i]! * most <= NOTHING * sum) break;
  }
  return sum;
}

/**
 * Probability that a lognormal current with normal noise lies below a threshold, or above it. The
 * mean is over the narrower of the two, so that the integrand is no narrower than the weight and
 * the rule of fixed step holds: to 1e-9, see the test.
 *
 * @param median of the current [A]; @param spread deviation of its logarithm
 * @param noise standard deviation [A]; @param threshold [A]
 */
export function currentBeyond(
  side: "below" | "above",
  median: number,
  spread: number,
  noise: number,
  threshold: number,
): number {
  const sign = side === "below" ? 1 : -1;
  if (noise >= spread * Math.abs(threshold)) {
    return meanOverNormal((g) => tailAt((sign * (median * exp(spread * g) - threshold)) / noise));
  }
  const impossible = side === "below" ? 0 : 1;
  return meanOverNormal((g) => {
    const left = threshold - noise * g;
    return left <= 0 ? impossible : tailAt((sign * log(median / left)) / spread);
  });
}

/** Density [1/A] of the same current at a threshold. */
export function currentDensity(
  median: number,
  spread: number,
  noise: number,
  threshold: number,
): number {
  if (noise >= spread * Math.abs(threshold)) {
    const most = 0.4 / noise;
    return meanOverNormal(
      (g) => normalDensity((median * exp(spread * g) - threshold) / noise) / noise,
      most,
    );
  }
  // The largest density of a lognormal current, at its mode.
  const most = (0.4 * exp((spread * spread) / 2)) / (spread * median);
  return meanOverNormal((g) => {
    const left = threshold - noise * g;
    return left <= 0 ? 0 : normalDensity(log(median / left) / spread) / (spread * left);
  }, most);
}

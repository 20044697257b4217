/** Quantiles and coverage intervals of a sample. All functions take values in rising order. */
import { refuse } from "../errors/problem.ts";

/** The closed interval from `low` to `high`. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** A copy of the values in rising order. */
export function sorted(values: ArrayLike<number>): Float64Array {
  return Float64Array.from(values).sort();
}

/**
 * The quantile at p in [0, 1], with linear interpolation between order statistics (type 7 of
 * "Sample quantiles in statistical packages", The American Statistician 50 (1996) 361-365).
 */
export function quantile(rising: ArrayLike<number>, p: number): number {
  requireSome(rising);
  const place = (rising.length - 1) * Math.min(Math.max(p, 0), 1);
  const below = Math.floor(place);
  const low = rising[below]!;
  const share = place - below;
  return share === 0 ? low : low + share * (rising[below + 1]! - low);
}

/**
 * The probabilistically symmetric coverage interval: as much probability below as above
 * (JCGM 101:2008, 7.7.2).
 */
export function symmetricInterval(rising: ArrayLike<number>, probability: number): Interval {
  const covered = coveredSteps(rising, probability);
  const first = Math.floor((rising.length - covered + 1) / 2) - 1;
  return { low: rising[first]!, high: rising[first + covered]! };
}

/**
 * The shortest coverage interval; the lowest where several are equally short (7.7.4).
 *
 * @param scale the length is that of the values on this rising scale; their own unless given
 */
export function shortestInterval(
  rising: ArrayLike<number>,
  probability: number,
  scale?: (value: number) => number,
): Interval {
  const covered = coveredSteps(rising, probability);
  const on = scale === undefined ? rising : Float64Array.from(rising, scale);
  let best = 0;
  for (let i = 1; i + covered < rising.length; i++) {
    if (on[i + covered]! - on[i]! < on[best + covered]! - on[best]!) best = i;
  }
  return { low: rising[best]!, high: rising[best + covered]! };
}

/** The integer q nearest to p M: an interval spans q steps between order statistics. */
function coveredSteps(rising: ArrayLike<number>, probability: number): number {
  requireSome(rising);
  if (!(probability > 0 && probability < 1)) {
    refuse({
      code: "bad-probability",
      what: "a coverage probability must lie between 0 and 1",
      got: String(probability),
    });
  }
  const steps = Math.floor(probability * rising.length + 0.5);
  if (steps >= rising.length) {
    refuse({
      code: "too-few-draws",
      what: "there are too few draws for this coverage probability",
      got: `${rising.length} draws for ${probability}`,
      fix: "take more draws",
    });
  }
  return steps;
}

function requireSome(rising: ArrayLike<number>): void {
  if (rising.length > 0) return;
  refuse({ code: "too-few-draws", what: "a quantile needs at least one value", got: "none" });
}

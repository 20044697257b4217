/** Hyperbolic functions and their inverses, from exponentials and logarithms as pairs. */

import { productPair, SECOND, sumPair } from "./bits.ts";
import { expAnywhere, expPair } from "./exponential.ts";
import { logOfPair, logPair } from "./logarithm.ts";

/** ln 2 as a pair. */
const LN2 = [Math.LN2, 2.3190468138462996e-17] as const;
/** From here e^-x is nothing beside e^x. */
const ONE_SIDED = 22;

/** (e^x - e^-x) / 2. Largest error measured: 0.53 units in the last place. */
export function sinh(x: number): number {
  const size = Math.abs(x);
  if (!(size > 2 ** -4)) {
    const square = x * x;
    const tail = 1 / 120 + square * (1 / 5040 + square * (1 / 362880));
    return x + x * square * (1 / 6 + square * tail);
  }
  if (!(size < ONE_SIDED)) {
    const half = expAnywhere(size, 0, -1);
    return x < 0 ? -half : half;
  }
  const up = expPair(size, 0);
  const upLow = SECOND[0]!;
  const down = expPair(-size, 0);
  const difference = sumHalf(up, upLow, -down, -SECOND[0]!);
  return x < 0 ? -difference : difference;
}

/** (e^x + e^-x) / 2. Largest error measured: 0.51 units in the last place. */
export function cosh(x: number): number {
  const size = Math.abs(x);
  if (!(size < ONE_SIDED)) return expAnywhere(size, 0, -1);
  const up = expPair(size, 0);
  const upLow = SECOND[0]!;
  const down = expPair(-size, 0);
  return sumHalf(up, upLow, down, SECOND[0]!);
}

function sumHalf(a: number, aLow: number, b: number, bLow: number): number {
  const sum = sumPair(a, b);
  return 0.5 * (sum + (SECOND[0]! + (aLow + bLow)));
}

/** sinh x / cosh x. Largest error measured: 0.55 units in the last place. */
export function tanh(x: number): number {
  const size = Math.abs(x);
  if (!(size > 2 ** -5)) {
    const s = x * x;
    const tail = 17 / 315 - s * (62 / 2835 - s * (1382 / 155925));
    return x === 0 ? x : x - x * s * (1 / 3 - s * (2 / 15 - s * tail));
  }
  if (!(size < ONE_SIDED)) return Math.sign(x);
  // (e^2x - 1) / (e^2x + 1), both as pairs.
  const power = expPair(2 * size, 0);
  const low = SECOND[0]!;
  const above = sumPair(power, -1);
  const aboveLow = SECOND[0]! + low;
  const below = sumPair(power, 1);
  const belowLow = SECOND[0]! + low;
  const quotient = above / below;
  const product = productPair(quotient, below);
  const rest = above - product - SECOND[0]! + aboveLow - quotient * belowLow;
  const result = quotient + rest / below;
  return x < 0 ? -result : result;
}

/** Beyond it the 1 beside x^2 is nothing, and below its inverse x^3 is. */
const LARGE = 2 ** 28;

/** The x of sinh. Largest error measured: 0.51 units in the last place. */
export function asinh(x: number): number {
  const size = Math.abs(x);
  if (!(size > 1 / LARGE && size < Number.POSITIVE_INFINITY)) return x;
  const result = size > LARGE ? logOfDouble(size) : logOfRootSum(size, 1);
  return x < 0 ? -result : result;
}

/** The x >= 0 of cosh. Largest error measured: 0.52 units in the last place. */
export function acosh(x: number): number {
  if (!(x >= 1)) return Number.NaN;
  if (!(x < Number.POSITIVE_INFINITY)) return x;
  if (x === 1) return 0;
  return x > LARGE ? logOfDouble(x) : logOfRootSum(x, -1);
}

/** log 2x. */
function logOfDouble(x: number): number {
  const first = logPair(x);
  const second = SECOND[0]!;
  const sum = sumPair(LN2[0], first);
  return sum + (SECOND[0]! + (LN2[1] + second));
}

/** log(x + sqrt(x^2 + one)). */
function logOfRootSum(x: number, one: 1 | -1): number {
  const square = productPair(x, x);
  const squareLow = SECOND[0]!;
  const under = sumPair(square, one);
  const underLow = SECOND[0]! + squareLow;
  const root = Math.sqrt(under);
  const product = productPair(root, root);
  const rootLow = (under - product - SECOND[0]! + underLow) / (2 * root);
  const sum = sumPair(x, root);
  const low = SECOND[0]! + rootLow;
  const high = sum + low;
  return logOfPair(high, sum - high + low);
}

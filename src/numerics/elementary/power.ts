/** Powers: e^(y log x) with the logarithm as a pair. */

import { productPair, SECOND, scaled, upper } from "./bits.ts";
import { exp, expAnywhere, expOfSum, PLAIN } from "./exponential.ts";
import { LEAST_NORMAL, log, logPair, logPairAnywhere } from "./logarithm.ts";

/**
 * x^y. Squares, cubes and square roots are products and roots, whether the exponent was written or
 * computed. Largest error measured elsewhere: 0.52 units in the last place.
 */
export function pow(x: number, y: number): number {
  if (y === 2) return x * x;
  if (y === 3) return x * x * x;
  if (y === 0.5 && x >= 0) return Math.sqrt(x) + 0;
  if (!(x >= LEAST_NORMAL && x < Number.POSITIVE_INFINITY)) return powAnywhere(x, y);
  const first = logPair(x);
  const second = SECOND[0]!;
  const firstUpper = upper(first);
  const yUpper = upper(y);
  const product = yUpper * firstUpper;
  const rest = (y - yUpper) * firstUpper + y * (first - firstUpper + second);
  const exponent = product + rest;
  if (!(Math.abs(exponent) <= PLAIN)) return powAnywhere(x, y);
  return expOfSum(exponent, product - exponent + rest);
}

/** x^y for any x and y, as the language defines it. */
function powAnywhere(x: number, y: number): number {
  if (y === 0) return 1;
  if (Number.isNaN(x) || Number.isNaN(y)) return Number.NaN;
  const size = Math.abs(x);
  if (Math.abs(y) === Number.POSITIVE_INFINITY) {
    if (size === 1) return Number.NaN;
    return size > 1 === y > 0 ? Number.POSITIVE_INFINITY : 0;
  }
  const negative = x < 0 || Object.is(x, -0);
  const sign = negative && isOdd(y) ? -1 : 1;
  if (size === 0 || size === Number.POSITIVE_INFINITY) {
    return (size === 0) === y > 0 ? sign * 0 : sign * Number.POSITIVE_INFINITY;
  }
  if (negative && !Number.isInteger(y)) return Number.NaN;
  if (size === 1) return sign;
  return sign * powOfSize(size, y);
}

function powOfSize(size: number, y: number): number {
  const first = logPairAnywhere(size);
  const second = SECOND[0]!;
  const about = y * first;
  if (Math.abs(about) > 800) return about > 0 ? Number.POSITIVE_INFINITY : 0;
  const firstUpper = upper(first);
  const yUpper = upper(y);
  const product = yUpper * firstUpper;
  const rest = (y - yUpper) * firstUpper + y * (first - firstUpper + second);
  const exponent = product + rest;
  return expAnywhere(exponent, product - exponent + rest);
}

function isOdd(y: number): boolean {
  return Math.abs(y % 2) === 1;
}

/** Cube root. Largest error measured: 0.501 units in the last place; cubes of doubles are exact. */
export function cbrt(x: number): number {
  const size = Math.abs(x);
  if (!(size > 0 && size < Number.POSITIVE_INFINITY)) return x;
  const shift = size < LEAST_NORMAL ? -18 : 0;
  // A third of the exponent apart, so that no product leaves the normal numbers.
  const third = shift + Math.round(log(scaled(size, -3 * shift)) / (3 * Math.LN2));
  const value = scaled(size, -3 * third);
  const root = exp(log(value) / 3);
  const square = productPair(root, root);
  const squareLow = SECOND[0]!;
  const cube = productPair(square, root);
  const over = value - cube - (SECOND[0]! + squareLow * root);
  const result = scaled(root + over / (3 * square), third);
  return x < 0 ? -result : result;
}

/** sqrt(a^2 + b^2). Largest error measured: 0.51 units in the last place. */
export function hypot(a: number, b: number): number {
  const large = Math.max(Math.abs(a), Math.abs(b));
  const small = Math.min(Math.abs(a), Math.abs(b));
  if (large === Number.POSITIVE_INFINITY) return large;
  if (!(small > 0)) return large;
  // Of the size of one, so that squares neither overflow nor vanish while they matter.
  const shift = large > 1e100 ? -600 : large < 1e-100 ? 600 : 0;
  const [x, y] = [scaled(large, shift), scaled(small, shift)];
  if (y < x * 2 ** -60) return large;
  const square = productPair(x, x);
  const squareLow = SECOND[0]!;
  const other = productPair(y, y);
  const otherLow = SECOND[0]!;
  const sum = square + other;
  const low = square - sum + other + (squareLow + otherLow);
  const root = Math.sqrt(sum);
  const product = productPair(root, root);
  return scaled(root + (sum - product - SECOND[0]! + low) / (2 * root), -shift);
}

/**
 * Logarithms as pairs of doubles: x = 2^k c (1 + r) with c from a table, r exact and |r| < 0.0057, and
 * log(1 + r) by its series (P. T. P. Tang, "Table-driven implementation of the logarithm function in
 * IEEE floating-point arithmetic", ACM TOMS 16(4), 1990). Additions, products and operations on bits
 * alone; `vectors` does the same steps on two numbers at a time.
 */

import { DOUBLE, HIGH, POWERS, productPair, SECOND, sumPair, WORDS } from "./bits.ts";
import { LOG_FROM, LOG_TABLE } from "./log-table.ts";

export const LEAST_NORMAL = 2 ** -1022;
/** ln 2 in two parts; the first is a multiple of 2^-42. */
export const LN2_HIGH = 0.6931471805598903;
export const LN2_LOW = 5.497923018708371e-14;
/** Added and taken away again, they leave multiples of 2^-20 and 2^-29. */
export const Z_UPPER = 1.5 * 2 ** 32;
export const R_UPPER = 1.5 * 2 ** 23;
/** 1 / ln 2 and 1 / ln 10 as pairs. */
const PER_LN2 = [Math.LOG2E, 2.0355273740931033e-17] as const;
const PER_LN10 = [Math.LOG10E, 1.098319650216765e-17] as const;

/** log x as a pair, to some 68 bits, for a positive normal x. */
export function logPair(x: number): number {
  DOUBLE[0] = x;
  const word = WORDS[HIGH]!;
  const from = word - LOG_FROM;
  const k = from >> 20;
  const place = ((from >> 13) & 127) * 3;
  const z = x * POWERS[1024 - k]!;
  const zUpper = z + Z_UPPER - Z_UPPER;
  const inverse = LOG_TABLE[place]! * (1 / 256);
  const r = zUpper * inverse - 1 + (z - zUpper) * inverse;
  const base = k * LN2_HIGH + LOG_TABLE[place + 1]!;
  const sum = base + r;
  const rUpper = r + R_UPPER - R_UPPER;
  // r^2 / 2: exact in the upper half, and what that leaves.
  const half = 0.5 * rUpper * rUpper;
  const halfLow = 0.5 * (r - rUpper) * (r + rUpper);
  const high = sum - half;
  const square = r * r;
  const series =
    r *
    square *
    (1 / 3 +
      r * (-1 / 4) +
      square * (1 / 5 + r * (-1 / 6) + square * (1 / 7 + r * (-1 / 8) + square * (1 / 9))));
  const low =
    k * LN2_LOW +
    LOG_TABLE[place + 2]! +
    (base - sum + r) +
    (sum - high - half) +
    (series - halfLow);
  const first = high + low;
  SECOND[0] = high - first + low;
  return first;
}

/** The same for any positive finite number. */
export function logPairAnywhere(x: number): number {
  if (x >= LEAST_NORMAL) return logPair(x);
  const first = logPair(x * 2 ** 54);
  return addToPair(first, -54 * LN2_HIGH, -54 * LN2_LOW);
}

/** The pair `first` and `SECOND`, plus another whose first part is larger. */
function addToPair(first: number, high: number, low: number): number {
  const second = SECOND[0]!;
  const sum = sumPair(high, first);
  const rest = SECOND[0]! + (second + low);
  const result = sum + rest;
  SECOND[0] = sum - result + rest;
  return result;
}

/** Whether a number has a logarithm that is finite. */
function hasLog(x: number): boolean {
  return x > 0 && x < Number.POSITIVE_INFINITY;
}

/** The logarithm of what has none. */
function noLog(x: number): number {
  return x === 0 ? Number.NEGATIVE_INFINITY : x > 0 ? x : Number.NaN;
}

/** Natural logarithm. Largest error measured: 0.501 units in the last place. */
export function log(x: number): number {
  if (x >= LEAST_NORMAL && x < Number.POSITIVE_INFINITY) return logPair(x);
  return hasLog(x) ? logPairAnywhere(x) : noLog(x);
}

/** Logarithm to the base 2; exact for powers of 2. */
export function log2(x: number): number {
  return hasLog(x) ? timesPair(logPairAnywhere(x), PER_LN2) : noLog(x);
}

/** Logarithm to the base 10; exact for powers of 10. */
export function log10(x: number): number {
  return hasLog(x) ? timesPair(logPairAnywhere(x), PER_LN10) : noLog(x);
}

function timesPair(first: number, [high, low]: readonly [number, number]): number {
  const second = SECOND[0]!;
  const product = productPair(first, high);
  return product + (SECOND[0]! + (first * low + second * high));
}

/** log(1 + x). Largest error measured: 0.66 units in the last place. */
export function log1p(x: number): number {
  if (!(x > -1 && x < Number.POSITIVE_INFINITY)) return noLog(1 + x);
  if (x === 0) return x;
  const sum = sumPair(1, x);
  return logOfPair(sum, SECOND[0]!);
}

/** log(high + low) for a normal `high`, with the accuracy of the pair also near 1. */
export function logOfPair(high: number, low: number): number {
  const first = logPair(high);
  return first + (SECOND[0]! + low / high);
}

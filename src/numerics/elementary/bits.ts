/** The bits of a double, and the second halves of results that are pairs of doubles. */

/** One double, whose bits `WORDS` shows. */
export const DOUBLE = new Float64Array(1);
export const WORDS = new Int32Array(DOUBLE.buffer);

DOUBLE[0] = 1;
/** Where the sign, the exponent and the upper 20 bits of the fraction are; the rest is at `LOW`. */
export const HIGH = WORDS[1] === 0 ? 0 : 1;
export const LOW = 1 - HIGH;

/** The second half of the latest result that is a pair: first + second, not overlapping. */
export const SECOND = new Float64Array(1);

/** a + b, with the rounding error in `SECOND`. */
export function sumPair(a: number, b: number): number {
  const sum = a + b;
  const back = sum - a;
  SECOND[0] = a - (sum - back) + (b - back);
  return sum;
}

/** 2^27 + 1: splits a double in two halves of 26 bits. */
const SPLIT = 134217729;

/** The upper 26 bits of a double below 1e300: products of two such numbers are exact. */
export function upper(x: number): number {
  const spread = SPLIT * x;
  return spread - (spread - x);
}

/** a b, with the rounding error in `SECOND`; both between 1e-140 and 1e140 in size. */
export function productPair(a: number, b: number): number {
  const product = a * b;
  const aHigh = upper(a);
  const bHigh = upper(b);
  const aLow = a - aHigh;
  const bLow = b - bHigh;
  SECOND[0] = aLow * bLow - (product - aHigh * bHigh - aLow * bHigh - aHigh * bLow);
  return product;
}

/** 2^(i - 1024). */
export const POWERS = new Float64Array(2048);
POWERS[0] = 2 ** -1024;
for (let i = 1; i < 2048; i++) POWERS[i] = 2 * POWERS[i - 1]!;

/** Whether x is a power of two, or its negative, and so is 1/x. */
export function isPowerOfTwo(x: number): boolean {
  DOUBLE[0] = x;
  const exponent = (WORDS[HIGH]! >>> 20) & 0x7ff;
  return WORDS[LOW] === 0 && (WORDS[HIGH]! & 0xfffff) === 0 && exponent > 1 && exponent < 2045;
}

/** x 2^n for any whole n; a result that is subnormal is rounded once. */
export function scaled(x: number, n: number): number {
  let left = n;
  let result = x;
  for (; left > 1000; left -= 1000) result *= 2 ** 1000;
  for (; left < -1000; left += 1000) result *= 2 ** -1000;
  return result * POWERS[left + 1024]!;
}

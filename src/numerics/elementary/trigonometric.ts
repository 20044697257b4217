/** Sine, cosine and tangent. The argument is reduced exactly, however large it is. */

import { DOUBLE, HIGH, LOW, productPair, SECOND, scaled, sumPair, WORDS } from "./bits.ts";

/** 2 / pi, and pi / 2 in parts of 33 bits and a rest. */
const PER_QUARTER = 0.6366197723675814;
const QUARTER = [
  1.5707963267341256, 6.077100506303966e-11, 2.0222662487111665e-21, 8.4784276603689e-32,
] as const;
/** Up to here a quotient has 20 bits, so that its product with 33 bits is exact. */
const MEDIUM = 1e6;
/** A remainder below it has lost too many bits to the subtraction. */
const LOST = 2 ** -30;

/** 2^1200 2 / pi and 2^120 pi / 2. */
const PER_QUARTER_BITS = 1200;
const PER_QUARTER_LONG = BigInt(
  "0xa2f9836e4e441529fc2757d1f534ddc0db6295993c439041fe5163abdebbc561b7246e3a424" +
    "dd2e006492eea09d1921cfe1deb1cb129a73ee88235f52ebb4484e99c7026b45f7e413991d6" +
    "39835339f49c845f8bbdf9283b1ff897ffde05980fef2f118b5a0a6d1f6d367ecf27cb09b74" +
    "f463f669e5fea2d7527bac7ebe5f17b3d0739f78a5292ea6bfb5fb11f8d5d0856033046fc7b",
);
const QUARTER_LONG = 0x1921fb54442d18469898cc51701b839n;

/** Which quarter turn the latest remainder is around, from 0 to 3. */
let quarter = 0;

/** The remainder of x by pi / 2 as a pair, at most pi / 4 in size. */
function remainder(x: number): number {
  if (Math.abs(x) <= 0.785) {
    quarter = 0;
    SECOND[0] = 0;
    return x;
  }
  if (Math.abs(x) > MEDIUM) return longRemainder(x);
  const turns = Math.round(x * PER_QUARTER);
  const first = sumPair(x, -turns * QUARTER[0]);
  const firstLow = SECOND[0]!;
  const second = sumPair(first, -turns * QUARTER[1]);
  if (Math.abs(second) < LOST) return longRemainder(x);
  const low = firstLow + SECOND[0]! - turns * QUARTER[2] - turns * QUARTER[3];
  quarter = turns & 3;
  return pairOf(second, low);
}

/** The same in whole numbers of any length. */
function longRemainder(x: number): number {
  DOUBLE[0] = Math.abs(x);
  const word = WORDS[HIGH]!;
  const fraction = (BigInt((word & 0xfffff) | 0x100000) << 32n) | BigInt(WORDS[LOW]! >>> 0);
  const places = BigInt(PER_QUARTER_BITS + 1075 - (word >>> 20));
  const quotient = fraction * PER_QUARTER_LONG;
  const turns = (quotient + (1n << (places - 1n))) >> places;
  const rest = (quotient - (turns << places)) >> (places - 200n);
  const product = rest * QUARTER_LONG;
  const first = Number(product);
  const second = Number(product - BigInt(first));
  const sign = x < 0 ? -1 : 1;
  quarter = (sign * Number(turns & 3n)) & 3;
  SECOND[0] = sign * scaled(second, -320);
  return sign * scaled(first, -320);
}

/** sin(r + low) for |r| <= pi / 4, as a pair. */
function sinPair(r: number, low: number): number {
  const s = r * r;
  const tail =
    -1 / 39916800 + s * (1 / 6227020800 + s * (-1 / 1307674368000 + s / 355687428096000));
  const series = -1 / 6 + s * (1 / 120 + s * (-1 / 5040 + s * (1 / 362880 + s * tail)));
  return pairOf(r, r * s * series + low * (1 - 0.5 * s));
}

/** cos(r + low) for |r| <= pi / 4, as a pair. */
function cosPair(r: number, low: number): number {
  const s = productPair(r, r);
  const sLow = SECOND[0]!;
  const first = 1 - 0.5 * s;
  const tail = 1 / 479001600 + s * (-1 / 87178291200 + s / 20922789888000);
  const series = 1 / 24 + s * (-1 / 720 + s * (1 / 40320 + s * (-1 / 3628800 + s * tail)));
  return pairOf(first, 1 - first - 0.5 * s + (s * s * series - 0.5 * sLow - r * low));
}

/** The sum of a number and a smaller one as a pair. */
function pairOf(large: number, small: number): number {
  const sum = large + small;
  SECOND[0] = large - sum + small;
  return sum;
}

/** sin x, x in radian. Largest error measured: 0.68 units in the last place. */
export function sin(x: number): number {
  return turned(x, 0);
}

/** cos x, x in radian. Largest error measured: 0.68 units in the last place. */
export function cos(x: number): number {
  return turned(x, 1);
}

/** sin(x + more pi / 2). */
function turned(x: number, more: number): number {
  if (!(Math.abs(x) < Number.POSITIVE_INFINITY)) return Number.NaN;
  if (more === 0 && Math.abs(x) < 2 ** -27) return x;
  const r = remainder(x);
  const place = (quarter + more) & 3;
  const value = place & 1 ? cosPair(r, SECOND[0]!) : sinPair(r, SECOND[0]!);
  return place & 2 ? -value : value;
}

/** tan x, x in radian. Largest error measured: 0.83 units in the last place. */
export function tan(x: number): number {
  if (!(Math.abs(x) < Number.POSITIVE_INFINITY)) return Number.NaN;
  if (Math.abs(x) < 2 ** -27) return x;
  const r = remainder(x);
  const rLow = SECOND[0]!;
  const even = (quarter & 1) === 0;
  const s = sinPair(r, rLow);
  const sLow = SECOND[0]!;
  const c = cosPair(r, rLow);
  const cLow = SECOND[0]!;
  return even ? ratio(s, sLow, c, cLow) : -ratio(c, cLow, s, sLow);
}

/** The quotient of two pairs. */
function ratio(a: number, aLow: number, b: number, bLow: number): number {
  const quotient = a / b;
  const product = productPair(quotient, b);
  return quotient + (a - product - SECOND[0]! + aLow - quotient * bLow) / b;
}

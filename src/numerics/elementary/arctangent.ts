/** Arc tangent from a table of atan(i / 16) and a series. */

import { productPair, SECOND } from "./bits.ts";

/** atan(i / 16) for i from 0 to 16 as pairs. Made with 300 bits; the tests make it again. */
export const ATAN_TABLE: readonly number[] = [
  0, 0, 0.06241880999595735, -1.5490756308295046e-18, 0.12435499454676144, -3.1253241424539383e-18,
  0.18534794999569476, 4.180692268843079e-18, 0.24497866312686414, 1.0698755618734451e-17,
  0.3028848683749714, -1.1010827903001369e-17, 0.35877067027057225, -2.4623815582638635e-17,
  0.4124104415973873, -1.587652227770689e-17, 0.4636476090008061, 2.2698777452961687e-17,
  0.5123894603107377, -2.5462781472855804e-17, 0.5585993153435624, -5.4556305485916264e-18,
  0.6022873461349642, 2.950430737228402e-17, 0.6435011087932844, 1.5834785051444286e-17,
  0.6823165548747481, 6.943223671560008e-18, 0.7188299996216245, -2.1478388444456983e-17,
  0.7531512809621944, -2.4256934659182068e-17, 0.7853981633974483, 3.061616997868383e-17,
];
/** pi / 2 as a pair. */
const QUARTER = [1.5707963267948966, 6.123233995736766e-17] as const;

/** atan x. Largest error measured: 0.67 units in the last place. */
export function atan(x: number): number {
  const size = Math.abs(x);
  if (!(size > 2 ** -27)) return x;
  const value = size <= 1 ? ofSmall(size) : ofLarge(size);
  return x < 0 ? -value : value;
}

/** 0 < x <= 1. */
function ofSmall(x: number): number {
  const i = x < 0.125 ? 0 : Math.round(16 * x);
  const c = i / 16;
  const t = (x - c) / (1 + x * c);
  return ATAN_TABLE[2 * i]! + (t + (ATAN_TABLE[2 * i + 1]! + rest(t)));
}

/** x > 1: pi / 2 less the arc of 1 / x. */
function ofLarge(x: number): number {
  if (x > 1e20) return QUARTER[0];
  const i = x > 8 ? 0 : Math.round(16 / x);
  const c = i / 16;
  const product = productPair(c, x);
  const t = (1 - product - SECOND[0]!) / (x + c);
  const arc = ATAN_TABLE[2 * i]!;
  const high = QUARTER[0] - arc;
  const lost = QUARTER[0] - high - arc;
  return high + (lost + QUARTER[1] - ATAN_TABLE[2 * i + 1]! - rest(t) - t);
}

/** atan t - t for |t| < 1/8. */
function rest(t: number): number {
  const s = t * t;
  const tail = -1 / 11 + s * (1 / 13 + s * (-1 / 15 + s * (1 / 17 - s / 19)));
  return t * s * (-1 / 3 + s * (1 / 5 + s * (-1 / 7 + s * (1 / 9 + s * tail))));
}

/**
 * Exponentials from a table of 2^(i/128) and a polynomial: x = (k / 128) ln 2 + r with |r| < 0.0028
 * (P. T. P. Tang, "Table-driven implementation of the exponential function in IEEE floating-point
 * arithmetic", ACM TOMS 15(2), 1989). Additions, products and operations on bits alone, so that every
 * engine gives the same bits; `vectors` does the same steps on two numbers at a time.
 */

import { POWERS, SECOND, scaled, sumPair } from "./bits.ts";
import { EXP_TABLE } from "./exp-table.ts";

/** Up to here e^x, and the parts that it is made of, are normal numbers. */
export const PLAIN = 700;
/** 128 / ln 2, and ln 2 / 128 in two parts, the first with 35 bits. */
export const STEPS = 184.6649652337873;
export const STEP_HIGH = 0.005415212347998022;
export const STEP_LOW = 1.2655086083325438e-13;
/** Added and taken away again, it leaves a whole number. */
export const WHOLE = 6755399441055744;
/** Beyond it e^x overflows, and below its negative it is nothing, with room to spare. */
const BEYOND = 800;

/** Taylor's 1/3!, 1/4!, 1/5!: what is left out is below 2^-60. */
export const THIRD = 1 / 6;
export const FOURTH = 1 / 24;
export const FIFTH = 1 / 120;

/** e^x. Largest error measured: 0.51 units in the last place. */
export function exp(x: number): number {
  return Math.abs(x) <= PLAIN ? expOfSum(x, 0) : expAnywhere(x, 0);
}

/** e^(x + low) for |x| <= 700 and a low that is small against x. */
export function expOfSum(x: number, low: number): number {
  const k = x * STEPS + WHOLE - WHOLE;
  const r = x - k * STEP_HIGH - k * STEP_LOW + low;
  const n = k | 0;
  const place = (n & 127) << 1;
  const square = r * r;
  const scale = EXP_TABLE[place]! * POWERS[(n >> 7) + 1024]!;
  const small =
    EXP_TABLE[place + 1]! + r + square * (0.5 + r * THIRD) + square * square * (FOURTH + r * FIFTH);
  return scale + scale * small;
}

/** e^(x + low) as a pair, to some 61 bits; |x| <= 700. */
export function expPair(x: number, low: number): number {
  const k = x * STEPS + WHOLE - WHOLE;
  const r = x - k * STEP_HIGH - k * STEP_LOW + low;
  const n = k | 0;
  const place = (n & 127) << 1;
  const square = r * r;
  const scale = EXP_TABLE[place]! * POWERS[(n >> 7) + 1024]!;
  const part =
    scale *
    (EXP_TABLE[place + 1]! +
      r +
      square * (0.5 + r * THIRD) +
      square * square * (FOURTH + r * FIFTH));
  const sum = scale + part;
  SECOND[0] = scale - sum + part;
  return sum;
}

/** e^(x + low) 2^shift for any x: overflow, results that are subnormal, infinity, NaN. */
export function expAnywhere(x: number, low: number, shift = 0): number {
  if (Number.isNaN(x)) return x;
  if (x > BEYOND) return Number.POSITIVE_INFINITY;
  if (x < -BEYOND) return 0;
  const k = x * STEPS + WHOLE - WHOLE;
  const n = k | 0;
  const r = x - k * STEP_HIGH - k * STEP_LOW + low;
  const square = r * r;
  const place = (n & 127) << 1;
  const power = (n >> 7) + shift;
  const scale = EXP_TABLE[place]!;
  const small =
    EXP_TABLE[place + 1]! + r + square * (0.5 + r * THIRD) + square * square * (FOURTH + r * FIFTH);
  const mantissa = scale + scale * small;
  if (power >= -1022) return scaled(mantissa, power);
  // Rounded once, to a multiple of the smallest double.
  const rest = scale - mantissa + scale * small;
  const grid = scaled(1, -1022 - power);
  const sum = grid + mantissa;
  return scaled(sum + (grid - sum + mantissa + rest) - grid, power);
}

/** Below it, a series is better than a difference. */
const TINY = 2 ** -6;

/** e^x - 1. Largest error measured: 0.8 units in the last place. */
export function expm1(x: number): number {
  if (Math.abs(x) < TINY) return x === 0 ? x : x + expm1Rest(x);
  if (!(x < PLAIN)) return expAnywhere(x, 0) - 1;
  if (x < -40) return -1;
  const first = expPair(x, 0);
  const second = SECOND[0]!;
  const sum = sumPair(first, -1);
  return sum + (SECOND[0]! + second);
}

/** e^x - 1 - x where x is tiny. */
function expm1Rest(x: number): number {
  const tail = FIFTH + x * (1 / 720 + x * (1 / 5040 + x * (1 / 40320)));
  return x * x * (0.5 + x * (THIRD + x * (FOURTH + x * tail)));
}

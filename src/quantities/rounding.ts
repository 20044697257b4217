/**
 * Rounding to the uncertainty. The guide to the expression of uncertainty (JCGM 100:2008, 7.2.6)
 * wants the uncertainty with at most two significant digits and the value rounded to the same
 * place: here the place is the second digit of the interval's width.
 */

import { decimalAt } from "../numerics/decimal-rounding.ts";
import { pow } from "../numerics/special/elementary.ts";

/** No figure of an early estimate is printed with more significant digits than this. */
const MOST_DIGITS = 6;

/** The power of ten of the leading digit of x; x is not zero. */
export function decadeOf(x: number): number {
  // The printed exponent is exact, where the logarithm of 1000 or 0.001 may be off by one.
  return Number(x.toExponential().split("e")[1]);
}

/** The power of ten of the last digit to print of `value` with the interval `low` to `high`. */
export function lastDigit(value: number, low: number, high: number): number {
  const width = Number((high - low).toPrecision(2));
  const largest = Math.max(Math.abs(value), Math.abs(low), Math.abs(high));
  if (largest === 0) return 0;
  const finest = decadeOf(largest) - MOST_DIGITS + 1;
  return width > 0 ? Math.max(finest, decadeOf(width) - 1) : finest;
}

/** x rounded at the given power of ten, as text without exponent. */
export function fixedAt(x: number, digit: number): string {
  return trimMinusZero(decimalAt(x, Math.max(-100, digit)));
}

function trimMinusZero(text: string): string {
  return /^-0(\.0*)?$/.test(text) ? text.slice(1) : text;
}

/**
 * Value and interval with one last digit: two significant digits of the interval's width.
 * @returns texts without prefix or exponent; where the interval spans so many decades that its
 *   lower end would vanish, or keep one digit of a positive figure, each figure keeps two
 *   significant digits of its own instead
 */
export function roundToUncertainty(
  value: number,
  low: number,
  high: number,
): { value: string; low: string; high: string } {
  const digit = lastDigit(value, low, high);
  const smallest = Math.min(...[value, low, high].map(Math.abs).filter((x) => x > 0));
  // A positive figure with one digit left would hide what its ratio to another shows.
  const shortest = low > 0 ? digit : digit - 1;
  const vanishes = Number.isFinite(smallest) && decadeOf(smallest) <= shortest;
  const shown = (x: number): string =>
    vanishes && x !== 0 ? fixedAt(x, decadeOf(Number(x.toPrecision(2))) - 1) : fixedAt(x, digit);
  return { value: shown(value), low: shown(low), high: shown(high) };
}

/**
 * x with so many significant digits, as text without exponent; whole and short numbers as they are.
 */
export function roundToDigits(x: number, digits: number): string {
  if (x === 0) return "0";
  if (Number.isInteger(x) && Math.abs(x) < pow(10, MOST_DIGITS)) return x.toFixed(0);
  const rounded = Number(x.toPrecision(digits));
  const text = fixedAt(rounded, decadeOf(rounded) - digits + 1);
  const short = text.includes(".") ? text.replace(/\.?0+$/, "") : text;
  return Math.abs(Number(short) / x - 1) < 1e-12 ? short : text;
}

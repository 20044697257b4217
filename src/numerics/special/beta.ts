/**
 * The regularised incomplete beta function with its complement, and Student's quantile.
 * Continued fraction of the Digital Library of Mathematical Functions, 8.17.22.
 */
import { solve } from "../roots.ts";
import { exp, log, log1p } from "./elementary.ts";
import { deviance, stirlingCorrection } from "./gamma.ts";

const LOG_TWO_PI = 1.8378770664093456;

/** ln of x^a y^b / B(a, b), with y = 1 - x. */
function logFront(a: number, b: number, x: number, y: number): number {
  const n = a + b;
  const corrections = stirlingCorrection(n) - stirlingCorrection(a) - stirlingCorrection(b);
  const deviances = deviance(a, n * x) + deviance(b, n * y);
  return corrections - deviances + 0.5 * (log(a) + log(b) - log(n) - LOG_TWO_PI);
}

/**
 * I_x(a, b) and its complement I_y(b, a) for a, b > 0; give y = 1 - x yourself where x is so near
 * to 1 that the difference has lost its digits.
 */
export function incompleteBeta(
  a: number,
  b: number,
  x: number,
  y: number = 1 - x,
): { lower: number; upper: number } {
  if (x <= 0) return { lower: 0, upper: 1 };
  if (y <= 0) return { lower: 1, upper: 0 };
  const front = exp(logFront(a, b, x, y));
  if (x < (a + 1) / (a + b + 2)) {
    const lower = (front * fraction(a, b, x)) / a;
    return { lower, upper: 1 - lower };
  }
  const upper = (front * fraction(b, a, y)) / b;
  return { lower: 1 - upper, upper };
}

/** The continued fraction, by the modified Lentz method. */
function fraction(a: number, b: number, x: number): number {
  const sum = a + b;
  let c = 1;
  let d = 1 / (1 - (sum * x) / (a + 1));
  let value = d;
  for (let m = 1; m < 1e6; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / (1 + even * d);
    c = 1 + even / c;
    value *= d * c;
    const odd = (-(a + m) * (sum + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / (1 + odd * d);
    c = 1 + odd / c;
    value *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) break;
  }
  return value;
}

/** P(T > t) of Student's distribution with so many degrees of freedom (whole or not). */
export function studentTail(t: number, degrees: number): number {
  const square = t * t;
  const x = degrees / (degrees + square);
  const both = incompleteBeta(degrees / 2, 0.5, x, square / (degrees + square));
  return t >= 0 ? both.lower / 2 : 0.5 + both.upper / 2;
}

/** The t with P(T > t) = `tail`, for 0 < tail < 1. */
export function studentTailQuantile(tail: number, degrees: number): number {
  if (tail === 0.5) return 0;
  if (tail > 0.5) return -studentTailQuantile(1 - tail, degrees);
  const target = log(tail);
  const excess = (u: number): number => log(studentTail(exp(u), degrees)) - target;
  const high = Math.min(700, (-target + log1p(degrees)) / Math.min(degrees, 1) + 10);
  return exp(solve(excess, -745, high));
}

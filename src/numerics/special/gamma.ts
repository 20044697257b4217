/**
 * Gamma functions and the regularised incomplete gamma function with its complement.
 *
 * Large arguments use Stirling's series (Digital Library of Mathematical Functions, 5.11.1);
 * the incomplete functions use the series 8.7.1 or the continued fraction 8.9.2, whichever gives
 * the smaller of the two, so that neither tail is one minus the other where it is small.
 */
import { solve } from "../roots.ts";
import { exp, log } from "./elementary.ts";

const HALF_LOG_TWO_PI = 0.9189385332046727;
const STIRLING_FROM = 15;

/** Stirling's correction ln Gamma(x) - (x - 1/2) ln x + x - ln(2 pi)/2 for x >= 15. */
function series(x: number): number {
  const s = 1 / (x * x);
  const inner = 1 / 1680 - s * (1 / 1188 - s * (691 / 360360 - s / 156));
  return (1 / 12 - s * (1 / 360 - s * (1 / 1260 - s * inner))) / x;
}

/** Stirling's correction for any x > 0: ln Gamma(x+1) = (x + 1/2) ln x - x + ln(2 pi)/2 + it. */
export function stirlingCorrection(x: number): number {
  if (x >= STIRLING_FROM) return series(x);
  return logGamma(x + 1) - (x + 0.5) * log(x) + x - HALF_LOG_TWO_PI;
}

/** ln Gamma(x) for x > 0; absolute error below 1e-14 for x < 20, relative 1e-15 above. */
export function logGamma(x: number): number {
  let shifted = x;
  let product = 1;
  while (shifted < STIRLING_FROM) {
    product *= shifted;
    shifted += 1;
  }
  const value = (shifted - 0.5) * log(shifted) - shifted + HALF_LOG_TWO_PI + series(shifted);
  return value - log(product);
}

/** Gamma(x) for 0 < x < 171.6. */
export function gamma(x: number): number {
  if (Number.isInteger(x) && x > 0 && x < 20) {
    let product = 1;
    for (let k = 2; k < x; k++) product *= k;
    return product;
  }
  return exp(logGamma(x));
}

/**
 * Deviance x ln(x/m) + m - x without cancellation near x = m, as in "Fast and accurate
 * computation of binomial probabilities" (2000).
 */
export function deviance(x: number, m: number): number {
  if (Math.abs(x - m) >= 0.1 * (x + m)) return x * log(x / m) + m - x;
  const v = (x - m) / (x + m);
  let sum = (x - m) * v;
  let power = 2 * x * v;
  for (let j = 1; j < 60; j++) {
    power *= v * v;
    const next = sum + power / (2 * j + 1);
    if (next === sum) break;
    sum = next;
  }
  return sum;
}

/** ln of x^a exp(-x) / Gamma(a + 1). */
export function logPoissonTerm(a: number, x: number): number {
  if (a === 0) return -x;
  return -HALF_LOG_TWO_PI - 0.5 * log(a) - stirlingCorrection(a) - deviance(a, x);
}

/** Both regularised incomplete gamma functions of a > 0 at x >= 0. */
export function incompleteGamma(a: number, x: number): { lower: number; upper: number } {
  if (x <= 0) return { lower: 0, upper: 1 };
  if (x === Number.POSITIVE_INFINITY) return { lower: 1, upper: 0 };
  const term = exp(logPoissonTerm(a, x));
  if (x < a + 1) {
    const lower = term * risingSeries(a, x);
    return { lower, upper: 1 - lower };
  }
  const upper = term * a * fraction(a, x);
  return { lower: 1 - upper, upper };
}

/** Sum of x^n / ((a+1) ... (a+n)). */
function risingSeries(a: number, x: number): number {
  let term = 1;
  let sum = 1;
  for (let n = 1; term > 1e-17 * sum; n++) {
    term *= x / (a + n);
    sum += term;
  }
  return sum;
}

/** The continued fraction of Gamma(a,x) exp(x) x^-a, by the modified Lentz method. */
function fraction(a: number, x: number): number {
  let b = x + 1 - a;
  let c = Number.MAX_VALUE;
  let d = 1 / b;
  let value = d;
  for (let n = 1; n < 1e7; n++) {
    const step = -n * (n - a);
    b += 2;
    d = 1 / (step * d + b);
    c = b + step / c;
    const factor = c * d;
    value *= factor;
    if (Math.abs(factor - 1) < 1e-16) break;
  }
  return value;
}

/** The x at which the upper regularised incomplete gamma function of a equals `upper`. */
export function inverseUpperGamma(a: number, upper: number): number {
  if (upper >= 1) return 0;
  if (upper <= 0) return Number.POSITIVE_INFINITY;
  const small = upper < 0.5;
  const target = log(small ? upper : 1 - upper);
  const excess = (logX: number): number => {
    const both = incompleteGamma(a, exp(logX));
    return small ? target - log(both.upper) : log(both.lower) - target;
  };
  return exp(solve(excess, -745 / Math.max(a, 1), log(a + 50 * Math.sqrt(a) + 800)));
}

/** The value that a chi-squared variable of that many degrees of freedom exceeds with `upper`. */
export function chiSquaredQuantile(upper: number, degrees: number): number {
  return 2 * inverseUpperGamma(degrees / 2, upper);
}

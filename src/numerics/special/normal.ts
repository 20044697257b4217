/**
 * The standard normal distribution: density, tails, logarithm of the tail, and their inverses.
 *
 * The quantile is the rational approximation of "The percentage points of the normal
 * distribution", Applied Statistics 37 (1988) 477-484, doi 10.2307/2347330 (its coefficients,
 * rounded to doubles). The tails rest on `erf.ts`.
 */

import { log, log1p } from "./elementary.ts";
import { erfcx, expOfMinusSquare } from "./erf.ts";

const ROOT_HALF = Math.SQRT1_2;
const ONE_OVER_ROOT_TWO_PI = 0.3989422804014327;

/** Highest power first. */
type Polynomial = readonly number[];
const CENTRE_TOP: Polynomial = [
  2509.0809287301227, 33430.57558358813, 67265.7709270087, 45921.95393154987, 13731.69376550946,
  1971.5909503065513, 133.14166789178438, 3.3871328727963665,
];
const CENTRE_BOTTOM: Polynomial = [
  5226.495278852854, 28729.085735721943, 39307.89580009271, 21213.794301586597, 5394.196021424751,
  687.1870074920579, 42.31333070160091, 1,
];
const MIDDLE_TOP: Polynomial = [
  0.0007745450142783414, 0.022723844989269184, 0.2417807251774506, 1.2704582524523684,
  3.6478483247632045, 5.769497221460691, 4.630337846156546, 1.4234371107496835,
];
const MIDDLE_BOTTOM: Polynomial = [
  1.0507500716444169e-9, 0.0005475938084995345, 0.015198666563616457, 0.14810397642748008,
  0.6897673349851, 1.6763848301838038, 2.053191626637759, 1,
];
const FAR_TOP: Polynomial = [
  2.0103343992922881e-7, 2.7115555687434876e-5, 0.0012426609473880784, 0.026532189526576124,
  0.29656057182850487, 1.7848265399172913, 5.463784911164114, 6.657904643501103,
];
const FAR_BOTTOM: Polynomial = [
  2.0442631033899397e-15, 1.421511758316446e-7, 1.8463183175100548e-5, 0.0007868691311456133,
  0.014875361290850615, 0.1369298809227358, 0.599832206555888, 1,
];

/** The value of a polynomial of degree seven, highest power first. */
function seventh(c: Polynomial, x: number): number {
  const upper = ((c[0]! * x + c[1]!) * x + c[2]!) * x + c[3]!;
  return (((upper * x + c[4]!) * x + c[5]!) * x + c[6]!) * x + c[7]!;
}

/** exp(-x^2/2)/sqrt(2 pi). */
export function normalDensity(x: number): number {
  return ONE_OVER_ROOT_TWO_PI * expOfMinusSquare(x, 0.5);
}

/** P(X > x) of a standard normal, to a few units in the last place, down to 1e-308. */
export function normalTail(x: number): number {
  if (x < 0) return 1 - normalTail(-x);
  if (x > 39) return 0;
  return 0.5 * expOfMinusSquare(x, 0.5) * erfcx(x * ROOT_HALF);
}

/** P(X <= x) of a standard normal. */
export function normalCumulative(x: number): number {
  return normalTail(-x);
}

/** Natural logarithm of `normalTail(x)`; finite for every finite x. */
export function logNormalTail(x: number): number {
  if (x < -1) return log1p(-normalTail(-x));
  return log(0.5 * erfcx(x * ROOT_HALF)) - 0.5 * x * x;
}

/**
 * The x with P(X <= x) = p, for 0 < p < 1; -Infinity at 0, Infinity at 1, NaN outside. A small
 * upper tail q cannot be written as p = 1 - q: use `normalTailQuantile(q)`.
 */
export function normalQuantile(p: number): number {
  const fromCentre = p - 0.5;
  if (Math.abs(fromCentre) <= 0.425) {
    const r = 0.180625 - fromCentre * fromCentre;
    return (fromCentre * seventh(CENTRE_TOP, r)) / seventh(CENTRE_BOTTOM, r);
  }
  return fromCentre < 0 ? -farQuantile(p) : farQuantile(1 - p);
}

/** The x with P(X > x) = q; right to the last digits for any q down to 1e-308. */
export function normalTailQuantile(q: number): number {
  return q === 0.5 ? 0 : -normalQuantile(q);
}

/** The x > 0 with upper tail q <= 0.075. */
function farQuantile(q: number): number {
  if (q === 0) return Number.POSITIVE_INFINITY;
  const r = Math.sqrt(-log(q));
  if (r <= 5) return seventh(MIDDLE_TOP, r - 1.6) / seventh(MIDDLE_BOTTOM, r - 1.6);
  return seventh(FAR_TOP, r - 5) / seventh(FAR_BOTTOM, r - 5);
}

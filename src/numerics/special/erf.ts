/**
 * Error functions to a few units in the last place over the whole range of doubles.
 *
 * Method: (1 + 2x) exp(x^2) erfc(x) is smooth on [0, infinity) and is expanded in Chebyshev
 * polynomials of t = (x - 3.75)/(x + 3.75), as in "Chebyshev approximation of
 * (1+2x)exp(x^2)erfc x in 0 <= x < infinity", Mathematics of Computation 36 (1981) 249-253,
 * doi 10.1090/S0025-5718-1981-0595058-X. The coefficients below were computed for this project
 * with 50 digits. Small arguments use the series of the Digital Library of Mathematical
 * Functions, 7.6.2.
 */
import { exp } from "./elementary.ts";

const TWO_OVER_ROOT_PI = 1.1283791670955126;

/** Coefficients of T_0, T_1, ... ; the next one is below 1e-19. */
const COEFFICIENTS = [
  1.1775789345674017, -0.004590054580646478, -0.08424913336651792, 0.05920993999819189,
  -0.026658668435305753, 0.009074997670705265, -0.002413163540417608, 0.0004907758365258086,
  -6.916973302501207e-5, 4.13902798607301e-6, 7.74038306619849e-7, -2.1886401049234397e-7,
  1.076499946567091e-8, 4.521959811218287e-9, -7.754400208831351e-10, -6.318088340886684e-11,
  2.86879501093067e-11, 1.9455868545777347e-13, -9.65469674843344e-13, 3.25254814814874e-14,
  3.3478119482868056e-14, -1.864562880419313e-15, -1.2507950530688648e-15, 7.418235256624044e-17,
  5.068148904796111e-17, -2.2370566594359995e-18, -2.187342944303018e-18,
];

/** exp(-a x^2), a a power of two, without the error that rounding x^2 would bring into the tail. */
export function expOfMinusSquare(x: number, a: number): number {
  const head = Math.fround(x);
  const rest = x - head;
  return exp(-a * head * head) * exp(-a * rest * (x + head));
}

/** exp(x^2) erfc(x) for x >= 0. */
function scaledOfPositive(x: number): number {
  if (x > 1e8) return TWO_OVER_ROOT_PI / 2 / x;
  const t = (x - 3.75) / (x + 3.75);
  let next = 0;
  let afterNext = 0;
  for (let k = COEFFICIENTS.length - 1; k > 0; k--) {
    const here = 2 * t * next - afterNext + COEFFICIENTS[k]!;
    afterNext = next;
    next = here;
  }
  return (t * next - afterNext + COEFFICIENTS[0]!) / (1 + 2 * x);
}

/** erf(x) by its series of positive terms, for |x| below about 1. */
function series(x: number): number {
  const square = x * x;
  let term = 1;
  let sum = 1;
  for (let n = 1; term > 1e-17 * sum; n++) {
    term *= (2 * square) / (2 * n + 1);
    sum += term;
  }
  return TWO_OVER_ROOT_PI * x * exp(-square) * sum;
}

/** The error function. */
export function erf(x: number): number {
  const size = Math.abs(x);
  if (size < 0.5) return series(x);
  if (size > 6) return Math.sign(x);
  const value = 1 - expOfMinusSquare(size, 1) * scaledOfPositive(size);
  return x < 0 ? -value : value;
}

/** The complement 1 - erf(x), right to the last digits where it is small (down to 1e-308). */
export function erfc(x: number): number {
  if (x < 0.5) return x > -0.5 ? 1 - series(x) : 2 - erfc(-x);
  if (x > 27.3) return 0;
  return expOfMinusSquare(x, 1) * scaledOfPositive(x);
}

/** The scaled complement exp(x^2) erfc(x); grows as 2 exp(x^2) for negative x. */
export function erfcx(x: number): number {
  if (x >= 0) return scaledOfPositive(x);
  if (x < -26.7) return Number.POSITIVE_INFINITY;
  return 2 / expOfMinusSquare(x, 1) - scaledOfPositive(-x);
}

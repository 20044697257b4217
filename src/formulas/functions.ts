/** What the functions of a formula compute. */

import { binomialTail, poissonTail } from "../numerics/special/discrete.ts";
import * as elementary from "../numerics/special/elementary.ts";
import { erfc } from "../numerics/special/erf.ts";
import { gamma } from "../numerics/special/gamma.ts";
import { normalQuantile, normalTail } from "../numerics/special/normal.ts";
import type { FunctionName } from "./tree.ts";

/**
 * Rounding noise must not add a stage, a row or a bank: `log(1000) / log(10)` is 2.9999999999999996
 * and `3 * 0.1 / 0.1` is 3.0000000000000004. What is this close to a whole number, relative to it,
 * is taken as that number.
 */
const NOISE = 1e-12;

function whole(x: number): number | undefined {
  const nearest = Math.round(x);
  return Math.abs(x - nearest) <= NOISE * Math.max(1, Math.abs(x)) ? nearest : undefined;
}

/** The least whole number not below x, but for rounding noise. */
export function ceil(x: number): number {
  return whole(x) ?? Math.ceil(x);
}

/** The greatest whole number not above x, but for rounding noise. */
export function floor(x: number): number {
  return whole(x) ?? Math.floor(x);
}

/** The nearest whole number, halves away from zero. */
export function round(x: number): number {
  return x < 0 ? -Math.round(-x) : Math.round(x);
}

/** Each listed function. Outside its domain it is NaN, which the evaluation reports. */
export const IMPLEMENTATIONS: Readonly<Record<FunctionName, (...x: number[]) => number>> = {
  min: Math.min,
  max: Math.max,
  ceil,
  floor,
  round,
  abs: Math.abs,
  sqrt: elementary.sqrt,
  cbrt: elementary.cbrt,
  exp: elementary.exp,
  expm1: elementary.expm1,
  log: elementary.log,
  log1p: elementary.log1p,
  log2: elementary.log2,
  log10: elementary.log10,
  sinh: elementary.sinh,
  cosh: elementary.cosh,
  tanh: elementary.tanh,
  asinh: elementary.asinh,
  acosh: elementary.acosh,
  erfc,
  normal_quantile: normalQuantile,
  normal_tail: normalTail,
  gamma,
  binomial_tail: binomialTail,
  poisson_tail: poissonTail,
};

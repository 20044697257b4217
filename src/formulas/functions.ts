/** What the functions of a formula compute. */

import { binomialTail, poissonTail } from "../numerics/special/discrete.ts";
import * as elementary from "../numerics/special/elementary.ts";
import { erfc } from "../numerics/special/erf.ts";
import { gamma } from "../numerics/special/gamma.ts";
import { normalQuantile, normalTail } from "../numerics/special/normal.ts";
import { ceil, floor, round } from "../numerics/special/whole.ts";
import type { FunctionName } from "./tree.ts";

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

/** The Lambert W function: the w with w exp(w) = x (Digital Library of Math. Functions, 4.13). */
import { exp, log, log1p } from "../../../src/numerics/special/elementary.ts";

/** 1/e as a sum of two doubles: the distance from the branch point -1/e keeps its digits. */
const INVERSE_E = 0.36787944117144233;
const INVERSE_E_REST = -1.2428753672788363e-17;

/** sqrt(2 (1 + e x)), the natural variable at the branch point. */
function fromBranch(x: number): number {
  return Math.sqrt(Math.max(0, 2 * Math.E * (x + INVERSE_E + INVERSE_E_REST)));
}

/** The series at the branch point in p, with sign of p choosing the branch. */
function branchSeries(p: number): number {
  const higher = -1 / 3 + p * (11 / 72 + p * (-43 / 540 + p * (769 / 17280 - (p * 221) / 8505)));
  return -1 + p * (1 + p * higher);
}

/** Halley's iteration. */
function polish(x: number, start: number): number {
  let w = start;
  for (let step = 0; step < 20; step++) {
    const e = exp(w);
    const f = w - x / e;
    if (f === 0) return w;
    const slope = 1 + w;
    const change = f / (slope - (f * (w + 2)) / (2 * slope));
    w -= change;
    if (Math.abs(change) <= 2e-16 * Math.abs(w)) return w;
  }
  return w;
}

/** The principal branch, w >= -1, for x >= -1/e; NaN below. */
export function lambertW(x: number): number {
  if (x === 0 || x === Number.POSITIVE_INFINITY) return x;
  if (x < -INVERSE_E) return Number.NaN;
  const p = fromBranch(x);
  if (p < 0.02) return branchSeries(p);
  if (x < 0.5) return polish(x, p < 0.8 ? branchSeries(p) : log1p(x) * 0.8);
  const l = log(x);
  return x > 3 ? polish(x, l - log(l)) : polish(x, 0.5 + 0.3 * l);
}

/** The branch w <= -1, for -1/e <= x < 0; NaN elsewhere. */
export function lambertWLower(x: number): number {
  if (!(x >= -INVERSE_E && x < 0)) return Number.NaN;
  const p = fromBranch(x);
  if (p < 0.02) return branchSeries(-p);
  if (p < 0.8) return polish(x, branchSeries(-p));
  const l = log(-x);
  return polish(x, l - log(-l));
}

/** W(exp(y)), also where exp(y) overflows: the w with w + ln w = y. */
export function lambertWOfExp(y: number): number {
  if (y < 500) return lambertW(exp(y));
  let w = y - log(y);
  for (let step = 0; step < 8; step++) w -= (w + log(w) - y) / (1 + 1 / w);
  return w;
}

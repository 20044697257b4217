/** Current and slope of the elements of a junction. */
import { exp, expm1, log } from "../special/elementary.ts";
import type { JunctionKind, Law } from "./problem.ts";

/** A current [A] and its derivative by the voltage [S], returned without an allocation per junction. */
export interface Point {
  current: number;
  slope: number;
}

/** Beyond this exponent an exponential is carried as its logarithm. */
const LARGE = 300;

/** Current and slope of one element at voltage v [V]. */
export function evaluateLaw(law: Law, v: number, out: Point): void {
  switch (law.law) {
    case "ohmic":
      out.slope = 1 / law.resistance;
      out.current = v / law.resistance;
      return;
    case "sinh": {
      // With t = e^|x| - 1: sinh |x| = (t + t / (1 + t)) / 2, cosh x = 1 + t^2 / (2 (1 + t)).
      const x = v / law.scaleVoltage;
      const t = expm1(Math.abs(x));
      const share = t === Infinity ? 1 : t / (1 + t);
      const size = (law.scaleVoltage / law.resistance) * (0.5 * (t + share));
      out.current = v < 0 ? -size : size;
      out.slope = (1 + 0.5 * t * share) / law.resistance;
      return;
    }
    case "diode": {
      const x = v / law.emissionVoltage;
      const leak = law.leakResistance === undefined ? 0 : 1 / law.leakResistance;
      out.current = law.saturationCurrent * expm1(x) + leak * v;
      out.slope = (law.saturationCurrent / law.emissionVoltage) * exp(x) + leak;
      return;
    }
    case "threshold": {
      const off = 1 / law.offResistance;
      const rise = 1 / law.onResistance - off;
      const x = (Math.abs(v) - law.thresholdVoltage) / law.widthVoltage;
      // The share that is on, and its complement, each right to the last digits.
      const e = exp(-Math.abs(x));
      const share = x >= 0 ? 1 / (1 + e) : e / (1 + e);
      const rest = x >= 0 ? e / (1 + e) : 1 / (1 + e);
      const conductance = off + rise * share;
      out.current = v * conductance;
      out.slope = conductance + (Math.abs(v) / law.widthVoltage) * rise * share * rest;
    }
  }
}

/** ln I and d ln I / dv of an element under v > 0, or of the element turned round. `current` holds the logarithm. */
function evaluateLogarithm(law: Law, v: number, turned: boolean, out: Point): void {
  if (law.law === "sinh" && v > LARGE * law.scaleVoltage) {
    out.current = log(law.scaleVoltage / law.resistance / 2) + v / law.scaleVoltage;
    out.slope = 1 / law.scaleVoltage;
    return;
  }
  if (law.law === "diode" && !turned && v > LARGE * law.emissionVoltage) {
    out.current = log(law.saturationCurrent) + v / law.emissionVoltage;
    out.slope = 1 / law.emissionVoltage;
    return;
  }
  evaluateLaw(law, turned ? -v : v, out);
  const current = Math.abs(out.current);
  out.slope /= current;
  out.current = log(current);
}

const scratch: Point = { current: 0, slope: 0 };
const other: Point = { current: 0, slope: 0 };

/** Steps of the inner iteration; each at least halves the bracket's logarithm when Newton does not do better. */
const INNER_STEPS = 200;

/**
 * Current and slope of two elements in series under v: the voltage of the better conducting one, t, is found on the
 * logarithm of the ratio of both currents as a function of ln t, which increases and is nearly straight for every law,
 * by Newton's method inside a bracket.
 */
function evaluateSeries(a: Law, b: Law, v: number, out: Point): void {
  if (v === 0) {
    evaluateLaw(a, 0, scratch);
    evaluateLaw(b, 0, other);
    out.current = 0;
    out.slope = 1 / (1 / scratch.slope + 1 / other.slope);
    return;
  }
  const turned = v < 0;
  const whole = Math.abs(v);
  evaluateLogarithm(a, whole / 2, turned, scratch);
  const atHalf = scratch.current;
  evaluateLogarithm(b, whole / 2, turned, scratch);
  const excess = atHalf - scratch.current;
  const better = excess >= 0 ? a : b;
  const worse = excess >= 0 ? b : a;
  let high = whole / 2;
  let low = 0;
  let t = Math.max(high * exp(-Math.abs(excess)), Number.MIN_VALUE * 1e16);
  if (t > high) t = high;
  for (let k = 0; k < INNER_STEPS; k++) {
    evaluateLogarithm(better, t, turned, scratch);
    evaluateLogarithm(worse, whole - t, turned, other);
    const f = scratch.current - other.current;
    if (f > 0) high = t;
    else low = t;
    const step = f / (t * (scratch.slope + other.slope));
    if (Math.abs(step) < 4e-16) break;
    let next = t * exp(-step);
    if (!(next > low && next < high)) {
      next = low > 0 ? Math.sqrt(low) * Math.sqrt(high) : high / 1024;
      if (!(next > low && next < high)) break;
    }
    if (next === t) break;
    t = next;
  }
  // The worse element carries most of the voltage, so its current is the better known one.
  evaluateLogarithm(worse, whole - t, turned, other);
  evaluateLogarithm(better, t, turned, scratch);
  const current = exp(other.current);
  out.current = turned ? -current : current;
  out.slope = current / (1 / scratch.slope + 1 / other.slope);
}

/** Current and slope of a junction at voltage v [V]. */
export function evaluateJunction(kind: JunctionKind, v: number, out: Point): void {
  if (kind.selector === undefined) evaluateLaw(kind.element, v, out);
  else evaluateSeries(kind.element, kind.selector, v, out);
}

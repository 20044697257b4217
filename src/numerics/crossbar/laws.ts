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
/** Voltages below it see straight lines [V]; their logarithms would end where doubles do. */
const LEAST = 1e-280;
/** Relative step after which another would change nothing: Newton squares it, and laws bend by less than 1e8. */
const LAST_STEP = 1e-12;

/**
 * Where two elements in series were left: the share of the voltage of the better conducting one, negative where that is
 * the second element; 0 before the first evaluation.
 */
export type Memory = Float64Array;

/**
 * Current and slope of two elements in series under v: the voltage of the better conducting one, t, is found on the
 * logarithm of the ratio of both currents as a function of ln t, which increases and is nearly straight for every law,
 * by Newton's method inside a bracket.
 *
 * @param memory at `at`: where the iteration starts, and then where it ended
 */
function evaluateSeries(a: Law, b: Law, v: number, out: Point, memory: Memory, at: number): void {
  if (Math.abs(v) < LEAST) {
    evaluateLaw(a, 0, scratch);
    evaluateLaw(b, 0, other);
    out.current = v / (1 / scratch.slope + 1 / other.slope);
    out.slope = 1 / (1 / scratch.slope + 1 / other.slope);
    return;
  }
  const turned = v < 0;
  const whole = Math.abs(v);
  const before = memory[at]!;
  const found =
    Math.abs(before) * whole > LEAST &&
    (before > 0
      ? resume(a, b, whole, turned, before * whole, out)
      : resume(b, a, whole, turned, -before * whole, out));
  if (found) {
    memory[at] = before > 0 ? ratio : -ratio;
  } else {
    evaluateLogarithm(a, whole / 2, turned, scratch);
    const atHalf = scratch.current;
    evaluateLogarithm(b, whole / 2, turned, scratch);
    const excess = atHalf - scratch.current;
    const t = Math.max((whole / 2) * exp(-Math.abs(excess)), Number.MIN_VALUE * 1e16);
    if (excess >= 0) split(a, b, whole, turned, t, out);
    else split(b, a, whole, turned, t, out);
    memory[at] = excess >= 0 ? ratio : -ratio;
  }
  if (turned) out.current = -out.current;
}

/** Share of the voltage at which the last `split` ended. */
let ratio = 0;

/** Steps in which a good guess is brought to its last digits. */
const CLOSING_STEPS = 5;

/** `split` from a guess that is nearly right: Newton's method on the currents themselves, if that will do. */
function resume(
  better: Law,
  worse: Law,
  whole: number,
  turned: boolean,
  guess: number,
  out: Point,
): boolean {
  let t = guess;
  for (let k = 0; k < CLOSING_STEPS; k++) {
    evaluateLaw(better, turned ? -t : t, scratch);
    evaluateLaw(worse, turned ? t - whole : whole - t, other);
    const current = Math.abs(other.current);
    const step = (current - Math.abs(scratch.current)) / (scratch.slope + other.slope);
    const next = t + step;
    // Anything but a number fails here too.
    if (!(next > 0 && next <= whole / 2)) break;
    if (Math.abs(step) < LAST_STEP * t) {
      ratio = next / whole;
      out.current = current - other.slope * step;
      out.slope = 1 / (1 / scratch.slope + 1 / other.slope);
      return true;
    }
    t = next;
  }
  return split(better, worse, whole, turned, guess, out);
}

/**
 * The magnitude of the current, and the slope, from a guess of the better element's voltage.
 *
 * @returns false where that element needs more than half of the voltage: it is not the better one
 */
function split(
  better: Law,
  worse: Law,
  whole: number,
  turned: boolean,
  guess: number,
  out: Point,
): boolean {
  let high = whole / 2;
  let low = 0;
  let t = Math.min(guess, high);
  let last = 0;
  for (let k = 0; k < INNER_STEPS; k++) {
    evaluateLogarithm(better, t, turned, scratch);
    evaluateLogarithm(worse, whole - t, turned, other);
    const f = scratch.current - other.current;
    if (f > 0) high = t;
    else if (t === whole / 2 && f < 0) return false;
    else low = t;
    const step = f / (t * (scratch.slope + other.slope));
    last = t;
    let next = t * exp(-step);
    if (Math.abs(step) < LAST_STEP) {
      t = Math.min(next, whole / 2);
      break;
    }
    if (!(next > low && next < high)) {
      next =
        high === whole / 2 && !(next < high)
          ? high
          : low > 0
            ? Math.sqrt(low) * Math.sqrt(high)
            : high / 1024;
      if (!(next > low && next <= high)) break;
    }
    if (next === t) break;
    t = next;
  }
  ratio = t / whole;
  // The worse element carries most of the voltage, so its current is the better known one; what is left of the way is
  // so short that the tangents will do.
  const current = exp(other.current - other.slope * (t - last));
  out.current = current;
  out.slope = current / (1 / scratch.slope + 1 / other.slope);
  return true;
}

const forgotten = new Float64Array(1);

/**
 * Current and slope of a junction at voltage v [V].
 *
 * @param memory of the junction at `at`, to start where it was left; without it the iteration starts afresh
 */
export function evaluateJunction(
  kind: JunctionKind,
  v: number,
  out: Point,
  memory?: Memory,
  at = 0,
): void {
  forgotten[0] = 0;
  if (kind.selector === undefined) evaluateLaw(kind.element, v, out);
  else evaluateSeries(kind.element, kind.selector, v, out, memory ?? forgotten, at);
}

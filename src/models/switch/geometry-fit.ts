/** Fits of a switch from geometry to measured switching times. */
import { refuse } from "../../errors/problem.ts";
import { type Fit, fitIntervals, fitLeastSquares } from "../../numerics/fit/index.ts";
import { asinh, exp, log } from "../../numerics/special/elementary.ts";
import {
  type Circuit,
  DIRECT,
  operatingPoint,
  requireGeometry,
  type SwitchGeometry,
} from "./geometry.ts";
import { drive, switchingTime } from "./geometry-motion.ts";

/** One measured point: volts (negative for a reset) and seconds. */
export interface SwitchingPoint {
  readonly voltage: number;
  readonly time: number;
}

export interface FittedParameter {
  readonly name: keyof SwitchGeometry;
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export interface SwitchFit {
  readonly geometry: SwitchGeometry;
  readonly parameters: readonly FittedParameter[];
  /** Model minus measurement, per point: of ln time, or of asinh of the scaled current. */
  readonly residuals: readonly number[];
  /** Standard deviation of the residuals. */
  readonly deviation: number;
}

/** One sample of a measured loop. Times rise. */
export interface LoopPoint {
  readonly time: number;
  readonly voltage: number;
  readonly current: number;
}

/** Parameters that a set of switching times can determine. */
export const FITTABLE = [
  "hop_energy",
  "hop_distance",
  "attempt_frequency",
  "barrier_height",
  "thermal_resistance",
] as const satisfies readonly (keyof SwitchGeometry)[];

/**
 * Fits the named parameters so that the logarithms of the switching times from the widest gap to
 * the thinnest (or back, at negative voltage) are met best. Each is fitted by its logarithm, so
 * that it stays positive and its interval is a factor.
 */
export function fitSwitchingTimes(
  points: readonly SwitchingPoint[],
  start: SwitchGeometry,
  free: readonly (typeof FITTABLE)[number][],
  options: { readonly circuit?: Circuit; readonly confidence?: number } = {},
): SwitchFit {
  requirePoints(points);
  const circuit = options.circuit ?? DIRECT;
  const residuals = (g: SwitchGeometry): number[] =>
    points.map((p) => log(timeAt(g, p.voltage, circuit) / p.time));
  return fitGeometry(residuals, start, free, options.confidence);
}

/** Fits the logarithms of parameters, so that residuals of a geometry are least. */
function fitGeometry(
  residualsOf: (g: SwitchGeometry) => number[],
  start: SwitchGeometry,
  free: readonly (typeof FITTABLE)[number][],
  confidence?: number,
): SwitchFit {
  requireGeometry(start);
  const at = (logs: readonly number[]): SwitchGeometry => ({
    ...start,
    ...Object.fromEntries(free.map((name, k) => [name, exp(logs[k]!)])),
  });
  const residuals = (logs: readonly number[]): number[] => residualsOf(at(logs));
  const fit: Fit = fitLeastSquares(
    residuals,
    free.map((name) => log(start[name])),
    {
      relative: 1e-7,
      difference: 1e-4,
    },
  );
  const intervals = fitIntervals(fit, confidence);
  return {
    geometry: at(fit.parameters),
    parameters: free.map((name, k) => ({
      name,
      value: exp(fit.parameters[k]!),
      low: exp(intervals[k]!.low),
      high: exp(intervals[k]!.high),
    })),
    residuals: fit.residuals,
    deviation: fit.deviation,
  };
}

/**
 * Fits the named parameters to a measured loop that starts at the widest gap: the source follows
 * the measured voltages, and asinh(I/scale) of model and measurement are compared, which is linear
 * below `scale` [A] and logarithmic above it.
 */
export function fitLoop(
  points: readonly LoopPoint[],
  start: SwitchGeometry,
  free: readonly (typeof FITTABLE)[number][],
  options: { readonly circuit?: Circuit; readonly confidence?: number; readonly scale: number },
): SwitchFit {
  const circuit = options.circuit ?? DIRECT;
  const residuals = (g: SwitchGeometry): number[] => {
    const currents = loopCurrents(g, points, circuit);
    return points.map((p, i) => {
      return asinh(currents[i]! / options.scale) - asinh(p.current / options.scale);
    });
  };
  return fitGeometry(residuals, start, free, options.confidence);
}

/** Currents [A] of the model at the times of a loop whose voltage is linear between its points. */
export function loopCurrents(
  g: SwitchGeometry,
  points: readonly LoopPoint[],
  circuit: Circuit,
): number[] {
  requireRising(points);
  let gap = g.most_gap;
  return points.map((p, i) => {
    const before = points[i - 1];
    if (before !== undefined) {
      const span = p.time - before.time;
      const ramp = (t: number): number =>
        before.voltage + ((p.voltage - before.voltage) * t) / span;
      gap = drive(g, gap, ramp, span, { circuit, longestStep: span / 2 }).last.gap;
    }
    return operatingPoint(g, gap, p.voltage, circuit).current;
  });
}

function requireRising(points: readonly LoopPoint[]): void {
  const late = points.findIndex((p, i) => i > 0 && !(p.time > points[i - 1]!.time));
  if (late < 0) return;
  refuse({
    code: "out-of-range",
    what: "the times of a loop must rise from point to point",
    got: `${points[late]!.time} s after ${points[late - 1]!.time} s`,
  });
}

/** Time of 98 % of the way between the ends of the gap. */
function timeAt(g: SwitchGeometry, voltage: number, circuit: Circuit): number {
  const rest = 0.02 * (g.most_gap - g.least_gap);
  if (voltage > 0) return switchingTime(g, voltage, g.most_gap, g.least_gap + rest, circuit);
  return switchingTime(g, voltage, g.least_gap, g.most_gap - rest, circuit);
}

function requirePoints(points: readonly SwitchingPoint[]): void {
  const bad = points.find(({ voltage, time }) => !(time > 0 && voltage !== 0));
  if (bad === undefined) return;
  refuse({
    code: "out-of-range",
    what: "a switching point needs a voltage that is not zero and a time above zero",
    got: `${bad.voltage} V, ${bad.time} s`,
  });
}

/** Fits of a switch from geometry to measured switching times. */
import { refuse } from "../../errors/problem.ts";
import { type Fit, fitIntervals, fitLeastSquares } from "../../numerics/optimise.ts";
import { exp, log } from "../../numerics/special/elementary.ts";
import { type Circuit, DIRECT, requireGeometry, type SwitchGeometry } from "./geometry.ts";
import { switchingTime } from "./geometry-motion.ts";

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
  /** ln of model time over measured time, per point. */
  readonly residuals: readonly number[];
  /** Standard deviation of ln time. */
  readonly deviation: number;
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
  requireGeometry(start);
  requirePoints(points);
  const at = (logs: readonly number[]): SwitchGeometry => ({
    ...start,
    ...Object.fromEntries(free.map((name, k) => [name, exp(logs[k]!)])),
  });
  const residuals = (logs: readonly number[]): number[] => {
    const g = at(logs);
    return points.map((p) => log(timeAt(g, p.voltage, options.circuit ?? DIRECT) / p.time));
  };
  const fit: Fit = fitLeastSquares(
    residuals,
    free.map((name) => log(start[name])),
    {
      relative: 1e-7,
      difference: 1e-4,
    },
  );
  const intervals = fitIntervals(fit, options.confidence);
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

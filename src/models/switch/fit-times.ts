/** Fits of a switch from geometry to measured switching times. */
import { refuse } from "../../errors/problem.ts";
import { log } from "../../numerics/special/elementary.ts";
import { type FitSettings, fitSpecimen, type SwitchFit } from "./fit.ts";
import type { Fittable, Specimen } from "./fit-parameters.ts";
import { travelTime } from "./geometry-travel.ts";
import { wayOf } from "./geometry-way.ts";

/** One measured point: volts at the source (negative for a reset) and seconds. */
export interface SwitchingPoint {
  readonly voltage: number;
  readonly time: number;
  /** Of the switch [K], where it is not that of the start. */
  readonly temperature?: number;
}

/** Time [s] of a set or reset of a specimen, as a fit computes it. */
export function specimenTime({ geometry, circuit }: Specimen, point: Omit<SwitchingPoint, "time">) {
  const { voltage, temperature = geometry.temperature } = point;
  const g = { ...geometry, temperature };
  return travelTime(g, voltage, wayOf(g, voltage, circuit), circuit);
}

/**
 * Fits the named parameters so that the logarithms of the switching times are met best.
 * @throws TenfoldError `out-of-range` for a point without voltage or time
 */
export function fitSwitchingTimes(
  points: readonly SwitchingPoint[],
  start: Specimen,
  free: readonly Fittable[],
  settings: FitSettings = {},
): SwitchFit {
  requirePoints(points);
  const residuals = (specimen: Specimen): number[] =>
    points.map((point) => log(specimenTime(specimen, point) / point.time));
  return fitSpecimen(residuals, start, free, settings);
}

function requirePoints(points: readonly SwitchingPoint[]): void {
  const bad = points.find(
    ({ voltage, time, temperature = 1 }) => !(time > 0 && voltage !== 0 && temperature > 0),
  );
  if (bad === undefined) return;
  refuse({
    code: "out-of-range",
    what: `a point of ${bad.voltage} V and ${bad.time} s is no switching`,
    expected: "a voltage that is not zero, a time and a temperature above zero",
  });
}

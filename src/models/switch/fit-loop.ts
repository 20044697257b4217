/** Fits of a switch from geometry to a measured current-voltage loop. */
import { refuse } from "../../errors/problem.ts";
import { asinh } from "../../numerics/special/elementary.ts";
import { type FitSettings, fitSpecimen, type SwitchFit } from "./fit.ts";
import type { Fittable, Specimen } from "./fit-parameters.ts";
import { operatingPoint } from "./geometry.ts";
import { gapAfterRamp } from "./geometry-pulse.ts";

/** One sample of a measured loop: seconds, volts at the source, amperes. Times rise. */
export interface LoopPoint {
  readonly time: number;
  readonly voltage: number;
  readonly current: number;
}

/**
 * Fits the named parameters to a measured loop that starts at the widest gap: the source follows
 * the measured voltages, and asinh(I/scale) of model and measurement are compared, which is linear
 * below `scale` [A] and logarithmic above it.
 *
 * @throws TenfoldError `out-of-range` for times that do not rise
 */
export function fitLoop(
  points: readonly LoopPoint[],
  start: Specimen,
  free: readonly Fittable[],
  scale: number,
  settings: FitSettings = {},
): SwitchFit {
  requireRising(points);
  const measured = points.map(({ current }) => asinh(current / scale));
  const residuals = (specimen: Specimen): number[] =>
    loopCurrents(specimen, points).map((current, i) => asinh(current / scale) - measured[i]!);
  return fitSpecimen(residuals, start, free, settings);
}

/** Currents [A] of the model at the times of a loop whose voltage is linear between its points. */
export function loopCurrents(
  { geometry: g, circuit }: Specimen,
  points: readonly LoopPoint[],
): number[] {
  let gap = g.most_gap;
  return points.map((p, i) => {
    const before = points[i - 1];
    if (before !== undefined) {
      const ramp = { from: before.voltage, to: p.voltage, time: p.time - before.time };
      gap = gapAfterRamp(g, gap, ramp, circuit);
    }
    return operatingPoint(g, gap, p.voltage, circuit).current;
  });
}

function requireRising(points: readonly LoopPoint[]): void {
  const late = points.findIndex((p, i) => i > 0 && !(p.time > points[i - 1]!.time));
  if (late < 0) return;
  refuse({
    code: "out-of-range",
    what:
      `the times of a loop must rise from point to point: point ${late + 1} is at ` +
      `${points[late]!.time} s, after ${points[late - 1]!.time} s`,
  });
}

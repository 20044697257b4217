/** A switch from its geometry fitted to what was measured of it. */
import type { FitSettings, SwitchFit } from "../../models/switch/fit.ts";
import { fitLoop, type LoopPoint, loopCurrents } from "../../models/switch/fit-loop.ts";
import type { Fittable, Specimen } from "../../models/switch/fit-parameters.ts";
import { fitSwitchingTimes, type SwitchingPoint } from "../../models/switch/fit-times.ts";
import { writeTime } from "../../models/switch/geometry-way.ts";
import { log, sqrt } from "../../numerics/special/elementary.ts";

/** Switching times, or samples of a loop. */
export type Measured =
  | { readonly kind: "times"; readonly points: readonly SwitchingPoint[] }
  | { readonly kind: "loop"; readonly points: readonly LoopPoint[] };

export interface FittedPoint {
  readonly voltage: number;
  /** Of the switch [K], where the table says so. */
  readonly temperature?: number;
  /** Time [s], or current [A] of a loop. */
  readonly measured: number;
  readonly fitted: number;
  /** Time that a fit to the other points predicts; absent for loops and for few points. */
  readonly leftOut?: number;
}

export interface FittedSwitch {
  readonly kind: Measured["kind"];
  readonly fit: SwitchFit;
  readonly confidence: number;
  readonly points: readonly FittedPoint[];
  /** Standard deviation of ln(predicted/measured) over the points left out. */
  readonly predictionDeviation?: number;
}

const FREE: Readonly<Record<Measured["kind"], readonly Fittable[]>> = {
  times: ["hop_energy", "hop_distance"],
  loop: ["barrier_height", "hop_energy"],
};
/** Below this current [A] a loop is compared linearly. */
export const LOOP_SCALE = 1e-8;

/**
 * Fits a switch to measured points, and predicts each switching time from the others.
 *
 * @param start the geometry, of which `free` is changed, and the circuit of the measurement
 * @param free what is fitted; hop energy and distance for times, barrier and hop energy for loops
 */
export function fitMeasured(
  measured: Measured,
  start: Specimen,
  free: readonly Fittable[] = FREE[measured.kind],
  settings: FitSettings = {},
): FittedSwitch {
  const confidence = settings.confidence ?? 0.95;
  if (measured.kind === "times") return fitToTimes(measured.points, start, free, settings);
  const { points } = measured;
  const fit = fitLoop(points, start, free, LOOP_SCALE, settings);
  const currents = loopCurrents(fit, points);
  const fitted = points.map(({ voltage, current }, i) => {
    return { voltage, measured: current, fitted: currents[i]! };
  });
  return { kind: "loop", fit, confidence, points: fitted };
}

function fitToTimes(
  points: readonly SwitchingPoint[],
  start: Specimen,
  free: readonly Fittable[],
  settings: FitSettings,
): FittedSwitch {
  const fit = fitSwitchingTimes(points, start, free, settings);
  const many = points.length > free.length + 1;
  const fitted = points.map((point, i): FittedPoint => {
    const { voltage, time, temperature } = point;
    const rest = points.filter((_, k) => k !== i);
    const without = many && fitSwitchingTimes(rest, fit, free, { quick: true });
    return {
      voltage,
      ...(temperature !== undefined && { temperature }),
      measured: time,
      fitted: timeOf(fit, point),
      ...(without && { leftOut: timeOf(without, point) }),
    };
  });
  return {
    kind: "times",
    fit,
    confidence: settings.confidence ?? 0.95,
    points: fitted,
    ...(many && { predictionDeviation: deviationOf(fitted) }),
  };
}

/** With a controlled error, as the table of times has it. */
function timeOf({ geometry, circuit }: Specimen, { voltage, temperature }: SwitchingPoint): number {
  const g = temperature === undefined ? geometry : { ...geometry, temperature };
  return writeTime(g, voltage, circuit);
}

function deviationOf(points: readonly FittedPoint[]): number {
  const logs = points.map(({ leftOut, measured }) => log(leftOut! / measured));
  return sqrt(logs.reduce((sum, x) => sum + x * x, 0) / logs.length);
}

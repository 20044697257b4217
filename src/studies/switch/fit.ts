/** A switch from its geometry fitted to what was measured of it. */
import { nearestWord } from "../../errors/nearest.ts";
import { refuse } from "../../errors/problem.ts";
import { DIRECT, type SwitchGeometry } from "../../models/switch/geometry.ts";
import {
  FITTABLE,
  fitLoop,
  fitSwitchingTimes,
  type LoopPoint,
  loopCurrents,
  type SwitchFit,
  type SwitchingPoint,
} from "../../models/switch/geometry-fit.ts";
import { log, sqrt } from "../../numerics/special/elementary.ts";
import { resetTimeAt, setTimeAt } from "./switch.ts";

export type Fittable = (typeof FITTABLE)[number];

/** Switching times, or samples of a loop. */
export type Measured =
  | { readonly kind: "times"; readonly points: readonly SwitchingPoint[] }
  | { readonly kind: "loop"; readonly points: readonly LoopPoint[] };

export interface FittedPoint {
  readonly voltage: number;
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

const CONFIDENCE = 0.95;
const FREE: Readonly<Record<Measured["kind"], readonly Fittable[]>> = {
  times: ["hop_energy", "hop_distance"],
  loop: ["barrier_height", "hop_energy"],
};
/** Below this current a loop is compared linearly. */
const LOOP_SCALE = 1e-8;

/** The parameters that a fit may change, checked. */
export function fittable(names: readonly string[]): readonly Fittable[] {
  for (const name of names) {
    if ((FITTABLE as readonly string[]).includes(name)) continue;
    const nearest = nearestWord(name, FITTABLE);
    refuse({
      code: "unknown-word",
      what: `\`${name}\` can't be fitted`,
      expected: FITTABLE.join(", "),
      ...(nearest === undefined ? {} : { nearest }),
    });
  }
  return names as readonly Fittable[];
}

/**
 * Fits a switch to measured points, and predicts each switching time from the others.
 *
 * @param start the geometry, of which `free` is changed
 * @param free what is fitted; hop energy and hop distance for times, barrier and hop energy for loops
 */
export function fitMeasured(
  measured: Measured,
  start: SwitchGeometry,
  free: readonly Fittable[] = FREE[measured.kind],
): FittedSwitch {
  if (measured.kind === "loop") return fitToLoop(measured.points, start, free);
  const { points } = measured;
  const fit = fitSwitchingTimes(points, start, free, { confidence: CONFIDENCE });
  const many = points.length > free.length + 1;
  const fitted = points.map((point, i): FittedPoint => {
    const { voltage, time } = point;
    const rest = points.filter((_, k) => k !== i);
    return {
      voltage,
      measured: time,
      fitted: timeOf(fit.geometry, voltage),
      ...(many && {
        leftOut: timeOf(fitSwitchingTimes(rest, fit.geometry, free).geometry, voltage),
      }),
    };
  });
  return {
    kind: "times",
    fit,
    confidence: CONFIDENCE,
    points: fitted,
    ...(many && { predictionDeviation: deviationOf(fitted) }),
  };
}

function fitToLoop(
  points: readonly LoopPoint[],
  start: SwitchGeometry,
  free: readonly Fittable[],
): FittedSwitch {
  const fit = fitLoop(points, start, free, { confidence: CONFIDENCE, scale: LOOP_SCALE });
  const currents = loopCurrents(fit.geometry, points, DIRECT);
  return {
    kind: "loop",
    fit,
    confidence: CONFIDENCE,
    points: points.map(({ voltage, current }, i) => ({
      voltage,
      measured: current,
      fitted: currents[i]!,
    })),
  };
}

function timeOf(g: SwitchGeometry, voltage: number): number {
  return voltage > 0 ? setTimeAt(g, voltage) : resetTimeAt(g, -voltage);
}

function deviationOf(points: readonly FittedPoint[]): number {
  const logs = points.map(({ leftOut, measured }) => log(leftOut! / measured));
  return sqrt(logs.reduce((sum, x) => sum + x * x, 0) / logs.length);
}

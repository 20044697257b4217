/**
 * A switch from geometry under one pulse or ramp, without the record of a transient: where the gap
 * goes, and what it takes.
 */
import { integrate, type OdeOptions } from "../../numerics/ode/integrate.ts";
import {
  type Circuit,
  freeGapRate,
  gapRate,
  operatingPoint,
  type SwitchGeometry,
} from "./geometry.ts";

/** What a pulse leaves and takes: gap [m], energy of the source and of the switch in it [J]. */
export interface Pulsed {
  readonly gap: number;
  readonly sourceEnergy: number;
  readonly switchEnergy: number;
}

/** Fine enough for the differences of a fit. */
const RELATIVE = 1e-8;
/** Far below the spread of any switch from pulse to pulse. */
const PULSE_RELATIVE = 1e-6;
/** Energy [J] below which nothing is resolved: far below kT. */
const NEGLIGIBLE = 1e-24;

/** A pulse of constant voltage [V] and a width [s]; the gap stops at its ends. */
export function pulse(
  g: SwitchGeometry,
  gap: number,
  voltage: number,
  width: number,
  circuit: Circuit,
): Pulsed {
  const at = (x: number) => operatingPoint(g, inside(g, x), voltage, circuit);
  const powers = (x: number) => {
    const point = at(x);
    return [point.current * voltage, point.current * point.switchVoltage] as const;
  };
  const held = (from: number, energies: readonly number[], time: number): Pulsed => {
    const [source, own] = powers(from);
    return {
      gap: from,
      sourceEnergy: energies[0]! + source * time,
      switchEnergy: energies[1]! + own * time,
    };
  };
  const start = inside(g, gap);
  if (gapRate(g, start, at(start)) === 0) return held(start, [0, 0], width);
  const moved = integrate(
    (_t, y, slope) => {
      slope[0] = freeGapRate(g, inside(g, y[0]!), at(y[0]!));
      [slope[1], slope[2]] = powers(y[0]!);
    },
    [start, 0, 0],
    0,
    width,
    settings(g, width, PULSE_RELATIVE, [0, NEGLIGIBLE, NEGLIGIBLE]),
  );
  return held(inside(g, moved.y[0]!), [moved.y[1]!, moved.y[2]!], width - moved.t);
}

/**
 * The gap after a ramp from one voltage to another in a time [s]; where the ramp passes zero it
 * turns round.
 */
export function gapAfterRamp(
  g: SwitchGeometry,
  gap: number,
  ramp: { readonly from: number; readonly to: number; readonly time: number },
  circuit: Circuit,
): number {
  const { from, to, time } = ramp;
  if (from * to < 0) {
    const first = (time * from) / (from - to);
    const turn = gapAfterRamp(g, gap, { from, to: 0, time: first }, circuit);
    return gapAfterRamp(g, turn, { from: 0, to, time: time - first }, circuit);
  }
  const start = inside(g, gap);
  const at = (x: number, t: number) =>
    operatingPoint(g, inside(g, x), from + ((to - from) * t) / time, circuit);
  if (gapRate(g, start, at(start, time / 2)) === 0) return start;
  const moved = integrate(
    (t, y, slope) => {
      slope[0] = freeGapRate(g, inside(g, y[0]!), at(y[0]!, t));
    },
    [start],
    0,
    time,
    settings(g, time, RELATIVE, [0]),
  );
  return inside(g, moved.y[0]!);
}

/** The integration ends where the gap meets an end: from there it is held. */
function settings(
  g: SwitchGeometry,
  time: number,
  relative: number,
  absolute: readonly number[],
): OdeOptions {
  return {
    relative,
    absolute,
    firstStep: time / 8,
    event: (_t, y) => Math.min(y[0]! - g.least_gap, g.most_gap - y[0]!),
  };
}

function inside(g: SwitchGeometry, gap: number): number {
  return Math.min(Math.max(gap, g.least_gap), g.most_gap);
}

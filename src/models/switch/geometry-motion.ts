/** A switch from geometry in time: pulses, loops, switching times, disturb. */
import { fail } from "../../errors/problem.ts";
import { integrate, type OdeOptions } from "../../numerics/ode/integrate.ts";
import {
  type Circuit,
  DIRECT,
  gapRate,
  type OperatingPoint,
  operatingPoint,
  type SwitchGeometry,
} from "./geometry.ts";

/** One moment of a transient. Energies [J] and charge [C] count from its start. */
export interface Moment extends OperatingPoint {
  readonly time: number;
  readonly voltage: number;
  readonly gap: number;
  readonly charge: number;
  readonly sourceEnergy: number;
  readonly switchEnergy: number;
  readonly seriesEnergy: number;
}

export interface Transient {
  readonly moments: readonly Moment[];
  readonly last: Moment;
}

const RELATIVE = 1e-10;
/** Size of the energies and the charge against which their error is judged [J, C]. */
const NEGLIGIBLE = 1e-25;

/** Drives the switch with a voltage over time [s, V], from a gap [m]. */
export function drive(
  g: SwitchGeometry,
  gap: number,
  voltage: (time: number) => number,
  duration: number,
  options: { readonly circuit?: Circuit; readonly longestStep?: number } = {},
): Transient {
  const circuit = options.circuit ?? DIRECT;
  const moments: Moment[] = [];
  const at = (time: number, y: Float64Array): Moment => ({
    ...operatingPoint(g, y[0]!, voltage(time), circuit),
    time,
    voltage: voltage(time),
    gap: y[0]!,
    charge: y[1]!,
    sourceEnergy: y[2]!,
    switchEnergy: y[3]!,
    seriesEnergy: y[4]!,
  });
  const derivative = (time: number, y: Float64Array, slope: Float64Array): void => {
    const inside = clamp(g, y[0]!);
    const point = operatingPoint(g, inside, voltage(time), circuit);
    slope[0] = gapRate(g, inside, point);
    slope[1] = point.current;
    slope[2] = point.current * voltage(time);
    slope[3] = point.current * point.switchVoltage;
    slope[4] = slope[2]! - slope[3]!;
  };
  const start = [gap, 0, 0, 0, 0];
  moments.push(at(0, Float64Array.from(start)));
  const settings: OdeOptions = {
    relative: RELATIVE,
    absolute: [0, NEGLIGIBLE, NEGLIGIBLE, NEGLIGIBLE, NEGLIGIBLE],
    longestStep: options.longestStep ?? duration / 50,
    onStep: (time, y) => {
      y[0] = clamp(g, y[0]!);
      moments.push(at(time, y));
    },
  };
  integrate(derivative, start, 0, duration, settings);
  return { moments, last: moments.at(-1)! };
}

function clamp(g: SwitchGeometry, gap: number): number {
  return Math.min(Math.max(gap, g.least_gap), g.most_gap);
}

/**
 * Time [s] in which a constant voltage moves the gap from one width to another; Infinity where it
 * drives the other way. From nanoseconds to the age of the universe: the step adapts to both.
 */
export function switchingTime(
  g: SwitchGeometry,
  voltage: number,
  from: number,
  to: number,
  circuit: Circuit = DIRECT,
): number {
  const rate = (gap: number): number => gapRate(g, gap, operatingPoint(g, gap, voltage, circuit));
  const first = rate(from);
  if (first === 0 || Math.sign(first) !== Math.sign(to - from)) return Number.POSITIVE_INFINITY;
  const estimate = Math.abs((to - from) / first);
  const reached = integrate(
    (_t, y, slope) => {
      slope[0] = rate(clamp(g, y[0]!));
    },
    [from],
    0,
    estimate * 1e12,
    { relative: RELATIVE, firstStep: estimate * 1e-3, event: (_t, y) => y[0]! - to },
  );
  if (reached.stopped) return reached.t;
  return fail({
    code: "no-switching",
    what: "the switch does not get there at this voltage",
    got: `gap ${reached.y[0]} m after ${reached.t} s`,
    fix: "raise the voltage or the current limit, or ask for a smaller change",
  });
}

/** A triangle from 0 to `peak`, to -`trough` and back to 0 in one period. */
export function triangle(peak: number, trough: number, period: number): (time: number) => number {
  return (time) => {
    const phase = (time / period) % 1;
    if (phase < 0.25) return 4 * peak * phase;
    if (phase < 0.5) return 4 * peak * (0.5 - phase);
    if (phase < 0.75) return -4 * trough * (phase - 0.5);
    return -4 * trough * (1 - phase);
  };
}

/** A switch from geometry in time: pulses, loops, switching times, disturb. */
import { fail } from "../../errors/problem.ts";
import { integrate, type OdeOptions } from "../../numerics/ode/integrate.ts";
import {
  type Circuit,
  DIRECT,
  freeGapRate,
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
const TRANSIENT_RELATIVE = 1e-9;
/** Energy [J] and charge [C] below which nothing is resolved: far below kT and one electron. */
const NEGLIGIBLE = 1e-23;
const MOST_PHASES = 10_000;

/**
 * Drives the switch with a voltage over time [s, V], from a gap [m].
 *
 * The ends of the gap are met exactly: the integration stops there as an event, and the gap is
 * held until the drive changes its sign.
 */
export function drive(
  g: SwitchGeometry,
  gap: number,
  voltage: (time: number) => number,
  duration: number,
  options: { readonly circuit?: Circuit; readonly longestStep?: number } = {},
): Transient {
  const run = new Drive(g, voltage, options.circuit ?? DIRECT);
  return run.go(clamp(g, gap), duration, options.longestStep ?? duration / 50);
}

/** The gap at an end, pressed against it by the drive. */
type End = "least" | "most";

class Drive {
  private readonly moments: Moment[] = [];
  private readonly g: SwitchGeometry;
  private readonly voltage: (time: number) => number;
  private readonly circuit: Circuit;

  constructor(g: SwitchGeometry, voltage: (time: number) => number, circuit: Circuit) {
    this.g = g;
    this.voltage = voltage;
    this.circuit = circuit;
  }

  go(gap: number, duration: number, longestStep: number): Transient {
    let y: Float64Array = Float64Array.of(gap, 0, 0, 0, 0);
    let time = 0;
    let held = this.endAt(time, gap);
    this.record(time, y);
    for (let phase = 0; phase < MOST_PHASES; phase++) {
      const result = integrate(this.derivative(held), y, time, duration, {
        ...this.settings(longestStep),
        event: held === undefined ? this.reachesEnd : this.leaves(held),
        onStep: (t, now) => this.record(t, now),
      });
      time = result.t;
      y = result.y;
      y[0] = held === undefined && result.stopped ? this.nearestEnd(y[0]!) : clamp(this.g, y[0]!);
      // What pulls the gap away has just begun: at this very moment the drive may still be zero.
      held = held === undefined ? this.endAt(time, y[0]!) : undefined;
      if (!result.stopped || time >= duration) {
        return { moments: this.moments, last: this.moments.at(-1)! };
      }
    }
    return fail({
      code: "no-switching",
      what: "the drive pushes the switch to and fro too often",
      fix: "drive it for a shorter time, or with fewer periods",
    });
  }

  private settings(longestStep: number): OdeOptions {
    const absolute = [0, NEGLIGIBLE, NEGLIGIBLE, NEGLIGIBLE, NEGLIGIBLE];
    return { relative: TRANSIENT_RELATIVE, absolute, longestStep };
  }

  /** Slopes of gap, charge and energies; the gap may run past an end until its event is met. */
  private derivative(held: End | undefined) {
    return (time: number, y: Float64Array, slope: Float64Array): void => {
      const v = this.voltage(time);
      const inside = clamp(this.g, y[0]!);
      const point = operatingPoint(this.g, inside, v, this.circuit);
      slope[0] = held === undefined ? freeGapRate(this.g, inside, point) : 0;
      slope[1] = point.current;
      slope[2] = point.current * v;
      slope[3] = point.current * point.switchVoltage;
      slope[4] = point.current * point.seriesVoltage;
    };
  }

  private endAt(time: number, gap: number): End | undefined {
    const ahead = this.voltage(time);
    if (gap <= this.g.least_gap && ahead >= 0) return "least";
    return gap >= this.g.most_gap && ahead <= 0 ? "most" : undefined;
  }

  /** Changes its sign where the gap leaves the range between its ends; exactly 0 at an end. */
  private readonly reachesEnd = (_time: number, y: Float64Array): number =>
    Math.min(y[0]! - this.g.least_gap, this.g.most_gap - y[0]!);

  /** Changes its sign where the drive starts to pull the gap away from its end. */
  private leaves(end: End): (time: number) => number {
    const away = end === "least" ? -1 : 1;
    return (time) => {
      const pull = away * this.voltage(time);
      // No pull at all still holds; the event needs a sign to change from.
      return pull > 0 ? pull : pull - Number.MIN_VALUE;
    };
  }

  /** After its event the gap stands exactly at the end that it has reached. */
  private nearestEnd(gap: number): number {
    const middle = (this.g.least_gap + this.g.most_gap) / 2;
    return gap < middle ? this.g.least_gap : this.g.most_gap;
  }

  private record(time: number, y: Float64Array): void {
    const gap = clamp(this.g, y[0]!);
    const voltage = this.voltage(time);
    this.moments.push({
      ...operatingPoint(this.g, gap, voltage, this.circuit),
      time,
      voltage,
      gap,
      charge: y[1]!,
      sourceEnergy: y[2]!,
      switchEnergy: y[3]!,
      seriesEnergy: y[4]!,
    });
  }
}

function clamp(g: SwitchGeometry, gap: number): number {
  return Math.min(Math.max(gap, g.least_gap), g.most_gap);
}

/**
 * Time [s] in which a constant voltage moves the gap from one width to another; Infinity where it
 * drives the other way. From picoseconds to the age of the universe: time is integrated over the
 * gap, since a switch that hesitates for seconds and then runs away in picoseconds has steps of
 * time that no clock of doubles can add.
 */
export function switchingTime(
  g: SwitchGeometry,
  voltage: number,
  from: number,
  to: number,
  circuit: Circuit = DIRECT,
): number {
  const way = Math.abs(to - from);
  const sign = Math.sign(to - from);
  const speed = (done: number): number => {
    const gap = from + sign * done;
    return sign * gapRate(g, gap, operatingPoint(g, gap, voltage, circuit));
  };
  // The drive's sign decides: what starts the right way goes on so.
  if (!(speed(0) > 0)) return Number.POSITIVE_INFINITY;
  const slowness = (done: number, _y: Float64Array, slope: Float64Array): void => {
    slope[0] = 1 / speed(done);
  };
  return integrate(slowness, [0], 0, way, { relative: RELATIVE }).y[0]!;
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

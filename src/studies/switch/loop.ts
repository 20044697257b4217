/** The current-voltage loop of a switch under a slow triangle of voltage. */
import type { SwitchGeometry } from "../../models/switch/geometry.ts";
import { drive, type Moment, triangle } from "../../models/switch/geometry-motion.ts";

export interface Loop {
  readonly period: number;
  readonly points: readonly Pick<Moment, "time" | "voltage" | "current" | "gap">[];
  /** Where the gap passes the middle of its travel; absent where it never does. */
  readonly setAt?: number;
  readonly resetAt?: number;
  readonly peakCurrent: number;
  /** Largest current where the voltage is zero: a loop is pinched there. */
  readonly currentAtZero: number;
  /** Of one loop [J]. */
  readonly energy: number;
  /** Source energy less what switch and circuit took, over the source's. */
  readonly imbalance: number;
}

/** A second for one loop: as a curve tracer does it. */
const PERIOD = 1;
const SHOWN = 64;

/** One loop from the widest gap, set first. */
export function sweptLoop(g: SwitchGeometry, setVoltage: number, resetVoltage: number): Loop {
  const wave = triangle(setVoltage, resetVoltage, PERIOD);
  const { moments, last } = drive(g, g.most_gap, wave, PERIOD, { longestStep: PERIOD / 400 });
  const middle = (g.least_gap + g.most_gap) / 2;
  const set = moments.find(({ gap, voltage }) => voltage > 0 && gap < middle);
  const reset = moments.find(({ gap, voltage }) => voltage < 0 && gap > middle && set);
  const zero = moments.filter(({ voltage }) => voltage === 0).map(({ current }) => current);
  const taken = last.switchEnergy + last.seriesEnergy;
  return {
    period: PERIOD,
    points: thinned(moments),
    ...(set && { setAt: set.voltage }),
    ...(reset && { resetAt: reset.voltage }),
    peakCurrent: Math.max(...moments.map(({ current }) => Math.abs(current))),
    currentAtZero: Math.max(...zero.map(Math.abs)),
    energy: last.sourceEnergy,
    imbalance: Math.abs(last.sourceEnergy - taken) / last.sourceEnergy,
  };
}

/** About as many moments, evenly over the time, each the first in its share of the period. */
function thinned(moments: readonly Moment[]): Loop["points"] {
  const shown: Moment[] = [];
  for (const one of moments) {
    if (one.time >= (shown.length * PERIOD) / SHOWN) shown.push(one);
  }
  return shown.map(({ time, voltage, current, gap }) => ({ time, voltage, current, gap }));
}

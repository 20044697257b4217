/** The current-voltage loop of a switch under one period of a drive. */
import { type Circuit, DIRECT, type SwitchGeometry } from "../../models/switch/geometry.ts";
import { drive, type Moment } from "../../models/switch/geometry-motion.ts";
import { type DriveForm, waveOf } from "./wave.ts";

/** How a loop is driven: by default a triangle of a second, straight on the switch. */
export interface LoopDrive {
  readonly form?: DriveForm;
  /** Height [V] of both half periods, in place of the switch's set and reset voltages. */
  readonly amplitude?: number | undefined;
  /** Of one loop [s]; a second, as a curve tracer does it. */
  readonly period?: number | undefined;
  /** Of each pulse [s]; a quarter of the period. */
  readonly width?: number | undefined;
  readonly circuit?: Circuit;
}

export interface Loop {
  readonly form: DriveForm;
  readonly period: number;
  readonly circuit: Circuit;
  readonly points: readonly Pick<Moment, "time" | "voltage" | "current" | "gap">[];
  /** Where the gap passes the middle of its travel; absent where it never does. */
  readonly setAt?: number;
  readonly resetAt?: number;
  readonly peakCurrent: number;
  /** Largest power in the switch [W]. */
  readonly peakPower: number;
  /** Largest current where the voltage is zero: a loop is pinched there. */
  readonly currentAtZero: number;
  /** Of one loop [J]. */
  readonly energy: number;
  /** Source energy less what switch and circuit took, over the source's. */
  readonly imbalance: number;
}

const PERIOD = 1;
const STEPS = 400;
const SHOWN = 64;

/**
 * One loop from the widest gap, set first.
 *
 * @param setVoltage highest voltage [V]; @param resetVoltage magnitude of the lowest [V]
 * @throws TenfoldError `out-of-range` for a drive that cannot be
 */
export function sweptLoop(
  g: SwitchGeometry,
  setVoltage: number,
  resetVoltage: number,
  driven: LoopDrive = {},
): Loop {
  const { form = "triangle", amplitude, period = PERIOD, circuit = DIRECT } = driven;
  const [peak, trough] = [amplitude ?? setVoltage, amplitude ?? resetVoltage];
  const wave = waveOf(form, { peak, trough, period, width: driven.width });
  const { moments, last } = drive(g, g.most_gap, wave, period, {
    circuit,
    longestStep: period / STEPS,
  });
  const middle = (g.least_gap + g.most_gap) / 2;
  const set = moments.find(({ gap, voltage }) => voltage > 0 && gap < middle);
  const reset = moments.find(({ gap, voltage }) => voltage < 0 && gap > middle && set);
  const zero = moments.filter(({ voltage }) => voltage === 0).map(({ current }) => current);
  const taken = last.switchEnergy + last.seriesEnergy;
  return {
    form,
    period,
    circuit,
    points: thinned(moments, period),
    ...(set && { setAt: set.voltage }),
    ...(reset && { resetAt: reset.voltage }),
    peakCurrent: Math.max(...moments.map(({ current }) => Math.abs(current))),
    peakPower: Math.max(...moments.map(({ current, switchVoltage }) => current * switchVoltage)),
    currentAtZero: Math.max(...zero.map(Math.abs)),
    energy: last.sourceEnergy,
    imbalance: Math.abs(last.sourceEnergy - taken) / last.sourceEnergy,
  };
}

/** About as many moments, evenly over the time, each the first in its share of the period. */
function thinned(moments: readonly Moment[], period: number): Loop["points"] {
  const shown: Moment[] = [];
  for (const one of moments) {
    if (one.time >= (shown.length * period) / SHOWN) shown.push(one);
  }
  return shown.map(({ time, voltage, current, gap }) => ({ time, voltage, current, gap }));
}

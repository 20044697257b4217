/** Levels of a switch: their targets and windows, and the pulses that approach them. */
import { refuse } from "../../errors/problem.ts";
import { exp, log, pow } from "../../numerics/special/elementary.ts";

export const LEVEL_SPACINGS = ["resistance", "current"] as const;
export const PULSE_TRAINS = ["voltage", "width", "equal"] as const;
export const APPROACHES = ["reset", "set"] as const;

/** Even in ln R, or in the current at the read voltage. */
export type LevelSpacing = (typeof LEVEL_SPACINGS)[number];
/** What grows from pulse to pulse. */
export type PulseTrain = (typeof PULSE_TRAINS)[number];
/** Which pulses lead to a level; a whole write of the other kind comes before them. */
export type Approach = (typeof APPROACHES)[number];

/** A level counts as written while its resistance [ohm] is inside the window. */
export interface Level {
  readonly target: number;
  /** 0 for the lowest resistance: anything below is as good. */
  readonly low: number;
  /** Infinity for the highest. */
  readonly high: number;
  /** Where a later read decides between this level and the next higher resistance. */
  readonly boundary: number;
}

export const MOST_LEVELS = 64;

/**
 * Levels from the lowest resistance to the highest, evenly spaced.
 *
 * @param window share of the distance of neighbours that a level's window takes, below 1
 * @throws TenfoldError `out-of-range` for fewer than 2 levels, too many, or no window
 */
export function levelsBetween(
  on: number,
  off: number,
  plan: { readonly levels: number; readonly spacing: LevelSpacing; readonly window: number },
): Level[] {
  const { levels: count, spacing, window } = plan;
  requirePlan(count, window);
  const toScale = spacing === "resistance" ? log : (r: number) => -on / r;
  const toResistance = spacing === "resistance" ? exp : (x: number) => -on / x;
  const [first, last] = [toScale(on), toScale(off)];
  const distance = (last - first) / (count - 1);
  return Array.from({ length: count }, (_, k) => {
    const middle = first + k * distance;
    const half = (window * distance) / 2;
    const isLast = k === count - 1;
    return {
      target: k === 0 ? on : isLast ? off : toResistance(middle),
      low: k === 0 ? 0 : toResistance(middle - half),
      high: isLast ? Number.POSITIVE_INFINITY : toResistance(middle + half),
      boundary: isLast ? Number.POSITIVE_INFINITY : toResistance(middle + distance / 2),
    };
  });
}

function requirePlan(levels: number, window: number): void {
  if (!(Number.isInteger(levels) && levels >= 2 && levels <= MOST_LEVELS)) {
    refuse({
      code: "out-of-range",
      what: `${levels} levels cannot be`,
      expected: `a whole number from 2 to ${MOST_LEVELS}`,
    });
  }
  if (window > 0 && window < 1) return;
  refuse({
    code: "out-of-range",
    what: `a window of ${window} is none that leaves a gap to the neighbours`,
    expected: "a share of their distance between 0 and 1",
  });
}

/** One pulse: magnitude of its voltage [V] and width [s]. */
export interface TrainPulse {
  readonly voltage: number;
  readonly width: number;
}

/** Voltage of the first pulse of a train of rising voltages over that of the last. */
const FIRST = 0.25;
/** Width of the last pulse of a train of growing widths over that of the first. */
const WIDTHS = 1000;

/**
 * The pulses of a train, the strongest last: voltages from a quarter of the highest in equal steps,
 * widths from a thousandth of the longest in equal ratios, or all equal.
 */
export function trainOf(kind: PulseTrain, strongest: TrainPulse, pulses: number): TrainPulse[] {
  if (!(Number.isInteger(pulses) && pulses >= 1)) {
    refuse({
      code: "out-of-range",
      what: `a train needs at least one pulse, not ${pulses}`,
      expected: "a whole number above 0",
    });
  }
  return Array.from({ length: pulses }, (_, i) => {
    const left = pulses === 1 ? 0 : (pulses - 1 - i) / (pulses - 1);
    const { voltage, width } = strongest;
    if (kind === "voltage") return { voltage: voltage * (1 - left * (1 - FIRST)), width };
    if (kind === "width") return { voltage, width: width * pow(WIDTHS, -left) };
    return { voltage, width };
  });
}

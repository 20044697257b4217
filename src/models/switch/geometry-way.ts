/** What counts as a switching: from which gap to which, and how long it takes. */
import { solve } from "../../numerics/roots.ts";
import { type Circuit, DIRECT, operatingPoint, type SwitchGeometry } from "./geometry.ts";
import { switchingTime } from "./geometry-motion.ts";

/** A switching is done when the gap has come this near to its end, as a share of its travel. */
const NEARLY = 0.02;

/** The gap [m] from which a switching starts, and that at which it counts as done. */
export interface Way {
  readonly from: number;
  readonly to: number;
}

/**
 * A set (positive voltage) goes from the widest gap 98 % of the way to the thinnest, or until the
 * current limit takes hold, as it is measured; a reset goes 98 % of the way back.
 */
export function wayOf(g: SwitchGeometry, voltage: number, circuit: Circuit = DIRECT): Way {
  const rest = NEARLY * (g.most_gap - g.least_gap);
  if (voltage <= 0) return { from: g.least_gap, to: g.most_gap - rest };
  return { from: g.most_gap, to: limitedGap(g, voltage, circuit) ?? g.least_gap + rest };
}

/** Time [s] of a set, or of a reset at negative voltage; Infinity without voltage. */
export function writeTime(g: SwitchGeometry, voltage: number, circuit: Circuit = DIRECT): number {
  const { from, to } = wayOf(g, voltage, circuit);
  return switchingTime(g, voltage, from, to, circuit);
}

/** The gap at which the current limit takes hold, where that is on the way of a set. */
function limitedGap(g: SwitchGeometry, voltage: number, circuit: Circuit): number | undefined {
  const free = { ...circuit, current_limit: Number.POSITIVE_INFINITY };
  const current = (gap: number) => operatingPoint(g, gap, voltage, free).current;
  const limit = circuit.current_limit;
  const end = g.least_gap + NEARLY * (g.most_gap - g.least_gap);
  if (current(end) <= limit || current(g.most_gap) >= limit) return undefined;
  return solve((gap) => current(gap) / limit - 1, end, g.most_gap);
}

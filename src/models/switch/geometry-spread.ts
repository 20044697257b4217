/** How the spread of gap and area of a switch becomes a spread of its resistance. */
import { exp, log, sqrt } from "../../numerics/special/elementary.ts";
import { resistanceAt, type SwitchGeometry } from "./geometry.ts";

export interface GeometrySpread {
  /** Standard deviations: gap [m], logarithm of the area [1]. */
  readonly gap: number;
  readonly area: number;
}

/**
 * Standard deviation of ln R at a gap, to first order: the slope of ln R against the gap, by
 * central differences, and the area, to which R is inversely proportional.
 */
export function resistanceSpread(
  g: SwitchGeometry,
  gap: number,
  readVoltage: number,
  spread: GeometrySpread,
): number {
  const step = 1e-4 * gap;
  const up = resistanceAt(g, gap + step, readVoltage);
  const down = resistanceAt(g, gap - step, readVoltage);
  const slope = log(up / down) / (2 * step);
  return sqrt(slope * slope * spread.gap * spread.gap + spread.area * spread.area);
}

/** A device's gap is never drawn below this share of the nominal thinnest one. */
const THINNEST = 0.2;

/**
 * The switch with its gaps moved by a length [m] and the logarithm of its area by a number: what
 * one device deviates from the next. The film is as much thicker as its gap.
 */
export function withDeviations(g: SwitchGeometry, gap: number, area: number): SwitchGeometry {
  const shift = Math.max(gap, (THINNEST - 1) * g.least_gap);
  return {
    ...g,
    least_gap: g.least_gap + shift,
    most_gap: g.most_gap + shift,
    film_thickness: g.film_thickness + shift,
    electrode_area: g.electrode_area * exp(area),
  };
}

/** How the spread of gap and area of a switch becomes a spread of its resistance. */
import { procedure } from "../../formulas/sheet.ts";
import { exp, log, sqrt } from "../../numerics/special/elementary.ts";
import { requireGeometry, resistanceAt, type SwitchGeometry } from "./geometry.ts";
import { GEOMETRY } from "./geometry-inputs.ts";

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
  if (spread.gap === 0) return spread.area;
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

const INPUTS = {
  ...GEOMETRY,
  read_voltage: { unit: "V", meaning: "voltage across the switch in a read" },
  gap_spread: { unit: "m", meaning: "standard deviation of the gap from device to device" },
  area_spread: {
    unit: "1",
    meaning: "standard deviation of the logarithm of the conducting area from device to device",
  },
  gap_cycle_spread: { unit: "m", meaning: "standard deviation of the gap from cycle to cycle" },
};
const NAMES = Object.keys(INPUTS);

export const geometrySpread = procedure({
  name: "geometry_spread",
  title: "Spread of a switch from its geometry",
  about:
    "To first order: the slope of ln R against the gap, by central differences at the read voltage, " +
    "times the spread of the gap; from device to device also the area, to which R is inversely " +
    "proportional. Both are kept apart, since a verified write removes only what it can measure. " +
    "From cycle to cycle one figure stands for both states: the larger.",
  source: "this project",
  inputs: INPUTS,
  outputs: {
    device_spread_on: {
      unit: "1",
      meaning: "standard deviation of ln R from device to device, on",
    },
    device_spread_off: {
      unit: "1",
      meaning: "standard deviation of ln R from device to device, off",
    },
    cycle_spread: { unit: "1", meaning: "standard deviation of ln R from cycle to cycle" },
  },
  run(inputs, outputs) {
    const given = Object.fromEntries(NAMES.map((name, i) => [name, inputs[i]!])) as Record<
      keyof typeof INPUTS,
      number
    >;
    const { gap_spread, area_spread, gap_cycle_spread, read_voltage, ...g } = given;
    requireGeometry(g);
    const device = { gap: gap_spread, area: area_spread };
    const cycle = { gap: gap_cycle_spread, area: 0 };
    const at = (gap: number, spread: GeometrySpread) =>
      resistanceSpread(g, gap, read_voltage, spread);
    outputs.set([
      at(g.least_gap, device),
      at(g.most_gap, device),
      Math.max(at(g.least_gap, cycle), at(g.most_gap, cycle)),
    ]);
  },
});

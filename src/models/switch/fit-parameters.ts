/** What of a switch and its circuit a fit may change, and how far. */
import { nearestWord } from "../../errors/nearest.ts";
import { refuse } from "../../errors/problem.ts";
import { exp, log, sqrt } from "../../numerics/special/elementary.ts";
import { CONSTANTS } from "../../quantities/constants.ts";
import type { Circuit, SwitchGeometry } from "./geometry.ts";

/** A switch in the circuit in which it is measured. */
export interface Specimen {
  readonly geometry: SwitchGeometry;
  readonly circuit: Circuit;
}

const EV = CONSTANTS.elementary_charge.value;

/**
 * Ends of the search [SI], far beyond what is plausible: they keep the arithmetic finite. The
 * gaps also stay in their order inside the film.
 */
const RANGES = {
  hop_energy: [0.1 * EV, 4 * EV],
  hop_distance: [0.03e-9, 3e-9],
  attempt_frequency: [1e9, 1e16],
  barrier_height: [0.05 * EV, 8 * EV],
  effective_mass: [0.02, 5],
  electrode_area: [1e-20, 1e-8],
  least_gap: [0.02e-9, 50e-9],
  most_gap: [0.05e-9, 50e-9],
  conductive_resistivity: [1e-9, 1e3],
  thermal_resistance: [1, 1e9],
  series_resistance: [1e-3, 1e9],
} as const satisfies Readonly<Record<string, readonly [number, number]>>;

export type Fittable = keyof typeof RANGES;
export const FITTABLE = Object.keys(RANGES) as Fittable[];
/** Gaps stay this far from each other, as a ratio. */
const APART = 1.02;

/**
 * The parameters that a fit may change, checked.
 * @throws TenfoldError `unknown-word` for what cannot be fitted, with the nearest that can
 */
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
  return [...new Set(names)] as readonly Fittable[];
}

/** Parameters as the logarithms by which they are fitted: each stays positive. */
export interface Coordinates {
  readonly start: readonly number[];
  readonly low: readonly number[];
  readonly high: readonly number[];
  readonly at: (logs: readonly number[]) => Specimen;
}

/** @throws TenfoldError `out-of-range` for a parameter that is not above zero at the start */
export function coordinatesOf(start: Specimen, free: readonly Fittable[]): Coordinates {
  const values = free.map((name) => startOf(start, name));
  const ranges = free.map((name, k) => rangeOf(start.geometry, free, name, values[k]!));
  return {
    start: values.map(log),
    low: ranges.map(([low]) => log(low)),
    high: ranges.map(([, high]) => log(high)),
    at: (logs) => withValues(start, free, logs.map(exp)),
  };
}

function startOf({ geometry, circuit }: Specimen, name: Fittable): number {
  const value = name === "series_resistance" ? circuit.series_resistance : geometry[name];
  if (value > 0) return value;
  return refuse({
    code: "out-of-range",
    what: `a fit of \`${name}\` needs a value above zero to start from, not ${value}`,
    fix:
      name === "series_resistance"
        ? "state --series-resistance"
        : `state \`${name}\` of the switch`,
  });
}

function rangeOf(
  g: SwitchGeometry,
  free: readonly Fittable[],
  name: Fittable,
  value: number,
): readonly [number, number] {
  const [low, high] = RANGES[name];
  // Where both gaps move, each keeps to its side of the start's middle.
  const middle = sqrt(g.least_gap * g.most_gap);
  const both = free.includes("least_gap") && free.includes("most_gap");
  if (name === "least_gap") return [low, (both ? middle : g.most_gap) / APART];
  if (name === "most_gap") return [(both ? middle : g.least_gap) * APART, g.film_thickness];
  return [Math.min(low, value), Math.max(high, value)];
}

function withValues(start: Specimen, free: readonly Fittable[], values: readonly number[]) {
  let { geometry, circuit } = start;
  free.forEach((name, k) => {
    if (name === "series_resistance") circuit = { ...circuit, series_resistance: values[k]! };
    else geometry = { ...geometry, [name]: values[k]! };
  });
  return { geometry, circuit };
}

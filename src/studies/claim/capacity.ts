import { Draws } from "../../estimate/draws.ts";
import type { Boundary } from "../../estimate/ledger.ts";
import { log2, pow } from "../../numerics/special/elementary.ts";
import { type EstimatedFigure, figureOf } from "../figures.ts";
import { shareOf, type Wanted } from "./holding.ts";
import { type Change, capacityParameter, type Sides } from "./sides.ts";

/**
 * The capacities between which a claim holds, in elements; absent where there is no end in sight.
 */
export interface Window {
  readonly from?: number;
  readonly to?: number;
}

/** Capacities that are looked at: 256 to 2^36, in steps of two. */
const EXPONENTS = Array.from({ length: 29 }, (_, i) => i + 8);
/** Draws of each capacity of the search; a verdict has those of the study. */
const DRAWS = 256;

/** A change of the capacity on both sides. */
export function capacityChange(sides: Sides, capacity: number): Change {
  return { parameter: capacityParameter(sides), value: capacity };
}

/**
 * For each boundary the capacities at which the claim holds with the wanted share of draws, to a
 * factor of two; undefined where it holds at none. A first and a last capacity that hold are no
 * ends.
 */
export function capacityWindows(
  sides: Sides,
  boundaries: readonly Boundary[],
  wanted: Wanted,
  holdsWith: number,
  seed: number,
): ReadonlyMap<Boundary, Window | undefined> {
  const draws = new Draws(seed, DRAWS);
  const holds = EXPONENTS.map((exponent) => {
    const columns = sides.sample(draws, capacityChange(sides, pow(2, exponent)));
    return boundaries.map(
      (boundary) => shareOf(sides.savedSamples(boundary, columns), wanted) >= holdsWith,
    );
  });
  return new Map(
    boundaries.map((boundary, b) => {
      const run = runOf(
        holds.map((one) => one[b]!),
        Math.round(log2(sides.capacity)) - EXPONENTS[0]!,
      );
      if (run === undefined) return [boundary, undefined];
      const [first, last] = run;
      return [
        boundary,
        {
          ...(first > 0 && { from: pow(2, EXPONENTS[first]!) }),
          ...(last < EXPONENTS.length - 1 && { to: pow(2, EXPONENTS[last]!) }),
        },
      ];
    }),
  );
}

/** First and last of the unbroken run of what holds: the one around `own`, else the last one. */
export function runOf(holds: readonly boolean[], own: number): [number, number] | undefined {
  const start = holds[own] === true ? own : holds.lastIndexOf(true);
  if (start < 0) return undefined;
  let [first, last] = [start, start];
  while (holds[first - 1] === true) first -= 1;
  while (holds[last + 1] === true) last += 1;
  return [first, last];
}

/**
 * The capacity, to a factor of two, from which on the nominal number is on the other side of the
 * wanted one than below it; the last such turn, undefined where there is none. Powers of two fill
 * their tiles, so that the ripple of partly empty tiles is left out.
 */
export function capacityTurn(sides: Sides, boundary: Boundary, number: number): number | undefined {
  const above = EXPONENTS.map(
    (exponent) => sides.saved(boundary, capacityChange(sides, pow(2, exponent))) >= number,
  );
  const last = above.findLastIndex((here, i) => i > 0 && here !== above[i - 1]);
  return last < 0 ? undefined : pow(2, EXPONENTS[last]!);
}

/** The number that an infinite function comes to. */
export interface Limit extends EstimatedFigure {
  /** How far the limit may be from `value`. */
  readonly tolerance: number;
}

const NEAR_INFINITY = 2 ** 72;
const NEARER_INFINITY = 2 ** 76;

/**
 * Saved per switch for an infinite capacity.
 *
 * Counts of cells and tile parts grow as the capacity, in whole tiles; every other count grows no
 * faster than its square root times its logarithm (repeaters over the side of the macro, address
 * bits). So the number is L + O(log C / sqrt C): from one capacity to one sixteen times as large
 * the rest falls at least to 0.28 of itself, and what is left at the larger one is less than the
 * difference of the two. The tolerance is that difference and the rounding of doubles.
 */
export function capacityLimits(
  sides: Sides,
  boundaries: readonly Boundary[],
  draws: Draws,
  coverage: number,
): ReadonlyMap<Boundary, Limit> {
  const columns = sides.sample(draws, capacityChange(sides, NEARER_INFINITY));
  return new Map(
    boundaries.map((boundary) => {
      const [near, nearer] = [NEAR_INFINITY, NEARER_INFINITY].map((capacity) =>
        sides.saved(boundary, capacityChange(sides, capacity)),
      ) as [number, number];
      const tolerance = Math.abs(nearer - near) + 1e-12 * Math.abs(nearer);
      const figure = figureOf(nearer, sides.savedSamples(boundary, columns), coverage);
      return [boundary, { ...figure, tolerance }];
    }),
  );
}

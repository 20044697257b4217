import { Draws } from "../../estimate/draws.ts";
import type { Boundary } from "../../estimate/ledger.ts";
import type { Parameter } from "../../quantities/parameter.ts";
import { type EstimatedFigure, figureOf, paired } from "../figures.ts";
import {
  capacityLimits,
  capacityTurn,
  capacityWindows,
  type Limit,
  type Window,
} from "./capacity.ts";
import type { Crossing } from "./crossing.ts";
import { type Driver, driversOf, turning } from "./drivers.ts";
import { shareOf, type Wanted } from "./holding.ts";
import { parameterNamed, type Sides } from "./sides.ts";

export type VerdictWord = "holds" | "holds when" | "fails";

/** A claim at one counting boundary. */
export interface Verdict {
  readonly boundary: Boundary;
  readonly verdict: VerdictWord;
  /** Transistors saved per switch: the number that is true instead. */
  readonly saved: EstimatedFigure;
  /** Share of the draws in which the claim is true. */
  readonly share: number;
  /** Capacities at which it holds with the wanted share; undefined for none. */
  readonly capacities?: Window;
  /** Where the nominal number passes the claimed one as the capacity grows, to a factor of two. */
  readonly capacityTurn?: number;
  readonly limit: Limit;
  /** The parameters that matter most, with where the claim turns. */
  readonly drivers: readonly Driver[];
  /** Parameters for which the claim asks where it turns. */
  readonly asked: readonly Crossing[];
  /** What makes it hold, where the word is `holds when`. */
  readonly when?: When;
}

/** What must change for a claim to hold. */
export type When =
  | { readonly kind: "capacity"; readonly window: Window }
  /** It would hold at the nominal value, were that certain. */
  | { readonly kind: "known"; readonly parameter: Parameter }
  | {
      readonly kind: "parameter";
      readonly parameter: Parameter;
      readonly value: number;
      readonly above: boolean;
    };

/** What decides a verdict. */
export interface Question {
  readonly wanted: Wanted;
  readonly boundaries: readonly Boundary[];
  readonly holdsWith: number;
  readonly solveFor: readonly string[];
  readonly seed: number;
  readonly samples: number;
  readonly coverage: number;
}

const MOST_DRIVERS = 2;

/** The verdicts of a claim at the boundaries that it asks about. */
export function verdictsOf(sides: Sides, question: Question): readonly Verdict[] {
  const { wanted, boundaries, holdsWith, seed, samples, coverage } = question;
  const draws = new Draws(seed, samples);
  const columns = sides.sample(draws);
  const windows = capacityWindows(sides, boundaries, wanted, holdsWith, seed);
  const limits = capacityLimits(sides, boundaries, draws, coverage);
  return boundaries.map((boundary) => {
    const drawn = sides.savedSamples(boundary, columns);
    const share = shareOf(drawn, wanted);
    const window = windows.get(boundary);
    const drivers = driversOf(sides, boundary, wanted.number, MOST_DRIVERS);
    const when =
      share >= holdsWith ? undefined : whatHelps(sides, boundary, question, window, drivers);
    return {
      boundary,
      verdict: share >= holdsWith ? "holds" : when === undefined ? "fails" : "holds when",
      saved: figureOf(sides.saved(boundary), drawn, coverage),
      share,
      ...(window !== undefined && { capacities: window }),
      ...turn(capacityTurn(sides, boundary, wanted.number)),
      limit: limits.get(boundary)!,
      drivers,
      asked: question.solveFor.map((name) =>
        turning(sides, boundary, parameterNamed(sides, name), wanted.number),
      ),
      ...(when !== undefined && { when }),
    };
  });
}

function turn(capacity: number | undefined): { readonly capacityTurn?: number } {
  return capacity === undefined ? {} : { capacityTurn: capacity };
}

/**
 * The nominal values and the ends of the drivers' ranges are held and the rest is drawn: the first
 * that helps is named.
 */
function whatHelps(
  sides: Sides,
  boundary: Boundary,
  { wanted, holdsWith, seed }: Question,
  window: Window | undefined,
  drivers: readonly Driver[],
): When | undefined {
  if (window !== undefined) return { kind: "capacity", window };
  const draws = new Draws(seed, 256);
  const holdsAt = (driver: Driver, value: number) => {
    const columns = sides.sample(draws, { parameter: driver.parameter, value });
    return shareOf(sides.savedSamples(boundary, columns), wanted) >= holdsWith;
  };
  for (const driver of drivers) {
    const { low, high, value } = driver.parameter;
    if (holdsAt(driver, value)) return { kind: "known", parameter: driver.parameter };
    for (const end of [low, high]) {
      if (end === value || !holdsAt(driver, end)) continue;
      const edge = lastThatHolds(value, end, (x) => holdsAt(driver, x));
      const above = end > value;
      return { kind: "parameter", parameter: driver.parameter, value: edge, above };
    }
  }
  return undefined;
}

/**
 * Between a value that does not hold and one that does: the one nearest to the first that still
 * does.
 */
function lastThatHolds(fails: number, holds: number, test: (x: number) => boolean): number {
  let [bad, good] = [fails, holds];
  for (let i = 0; i < 10; i++) {
    const middle = (bad + good) / 2;
    if (test(middle)) good = middle;
    else bad = middle;
  }
  return good;
}

/** Hybrid over baseline: what fewer transistors must not hide. */
export interface Costs {
  readonly area: EstimatedFigure;
  readonly energy: EstimatedFigure;
  readonly delay: EstimatedFigure;
}

/** Ratios of area, energy and delay of one operation, with what both sides share drawn alike. */
export function costsOf(sides: Sides, { seed, samples, coverage }: Question): Costs {
  const columns = sides.sample(new Draws(seed, samples));
  const { hybrid, baseline } = columns;
  const works = sides.working(columns);
  const [own, other] = [sides.hybrid.at(), sides.baseline.at()];
  const ratio = (name: string): EstimatedFigure => {
    // An array that cannot work has times and energies below nothing.
    const draws = paired(hybrid.get(name)!, baseline.get(name)!, (l, r) => l / r);
    const working = draws.map((draw, i) => (works[i] ? draw : Number.NaN));
    return figureOf(own.get(name)! / other.get(name)!, working, coverage);
  };
  return {
    area: ratio("function_area"),
    energy: ratio("operation_energy"),
    delay: ratio("operation_delay"),
  };
}

/** The weakest word of some verdicts. */
export function weakest(verdicts: readonly Verdict[]): VerdictWord {
  const words = verdicts.map(({ verdict }) => verdict);
  if (words.includes("fails")) return "fails";
  return words.includes("holds when") ? "holds when" : "holds";
}

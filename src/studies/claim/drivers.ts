import { isExact } from "../../estimate/draws.ts";
import type { Boundary } from "../../estimate/ledger.ts";
import type { Parameter } from "../../quantities/parameter.ts";
import { type Crossing, crossingOf } from "./crossing.ts";
import type { Sides } from "./sides.ts";

/**
 * A parameter with what its range does to the saved transistors, all others at their nominal
 * value.
 */
export interface Driver {
  readonly parameter: Parameter;
  /** Saved per switch with the parameter at its low and at its high end. */
  readonly atLow: number;
  readonly atHigh: number;
  readonly crossing: Crossing;
}

/** The `count` parameters whose ranges move the number most, each with where the claim turns. */
export function driversOf(
  sides: Sides,
  boundary: Boundary,
  number: number,
  count: number,
): readonly Driver[] {
  const uncertain = sides.parameters().filter((one) => !isExact(one));
  const swings = uncertain
    .map((parameter) => {
      const [atLow, atHigh] = [parameter.low, parameter.high].map((value) =>
        sides.saved(boundary, { parameter, value }),
      ) as [number, number];
      return { parameter, atLow, atHigh };
    })
    .filter(({ atLow, atHigh }) => atLow !== atHigh);
  return swings
    .sort((a, b) => Math.abs(b.atHigh - b.atLow) - Math.abs(a.atHigh - a.atLow))
    .slice(0, count)
    .map((swing) => ({ ...swing, crossing: turning(sides, boundary, swing.parameter, number) }));
}

/** The value of any one parameter at which the saved transistors pass the number. */
export function turning(
  sides: Sides,
  boundary: Boundary,
  parameter: Parameter,
  number: number,
): Crossing {
  return crossingOf(parameter, (value) => sides.savedAt(boundary, { parameter, value }), number);
}

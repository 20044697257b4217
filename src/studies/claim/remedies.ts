import type { Boundary } from "../../estimate/ledger.ts";
import { log } from "../../numerics/special/elementary.ts";
import type { Crossing } from "./crossing.ts";
import { turning } from "./drivers.ts";
import { isAsClaimed } from "./holding.ts";
import { CAPACITY, type Sides } from "./sides.ts";
import type { Question } from "./verdict.ts";

/** A figure that alone would bring the nominal number to the claimed one. */
export interface Remedy {
  readonly boundary: Boundary;
  readonly crossing: Crossing;
}

const MOST = 3;
/** Choices that belong to the word of the function, and so are no figure to wish for. */
const WORD_BOUND = ["word", "largest_columns", "largest_column_share", "largest_amplifier_share"];
/** A parameter that moves the number by less than this, doubled or halved, is not searched. */
const LEAST_EFFECT = 1e-3;

/**
 * What would make the number true where it is not, at the function's boundary or at the one that is
 * asked about: every parameter of both sides is searched, counts of the organisation too, and those
 * that need the least relative change are given.
 */
export function remediesOf(sides: Sides, { boundaries, wanted }: Question): readonly Remedy[] {
  const boundary = boundaries.includes("function") ? "function" : boundaries[0]!;
  const now = sides.saved(boundary);
  if (isAsClaimed(now, wanted)) return [];
  const { levels } = sides.definition;
  const fixed = new Set([CAPACITY, ...WORD_BOUND, ...(levels ? [] : ["bits_per_cell"])]);
  const moves = sides
    .parameters()
    .filter(({ name, value }) => !fixed.has(name) && value > 0)
    .filter((parameter) =>
      [2, 0.5].some((factor) => {
        const moved = sides.savedAt(boundary, { parameter, value: parameter.value * factor });
        return Math.abs(moved - now) > LEAST_EFFECT * Math.abs(now);
      }),
    );
  return moves
    .map((parameter) => ({
      boundary,
      crossing: turning(sides, boundary, parameter, wanted.number),
    }))
    .filter(({ crossing }) => crossing.value !== undefined)
    .sort((a, b) => change(a.crossing) - change(b.crossing))
    .slice(0, MOST);
}

function change({ value, parameter }: Crossing): number {
  return Math.abs(log(value! / parameter.value));
}

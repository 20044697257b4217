/** Where a computation breaks off, and which of its inputs would let it go on. */

import { type Problem, TenfoldError } from "../errors/problem.ts";
import { pow } from "../numerics/special/elementary.ts";
import { interpretStep } from "./interpret.ts";
import { formulaText } from "./print.ts";
import { type Program, readBy, type Step, writtenBy } from "./program.ts";
import { neededSteps } from "./segments.ts";

/** The first step of a program that gives no finite number. */
export interface Broken {
  /** What it computes. */
  readonly quantity: string;
  /** Its formula, or what its procedure says. */
  readonly how: string;
  /** The inputs that it depends on, directly or through others, in the order of the program. */
  readonly inputs: readonly string[];
  /**
   * The smallest change of one input after which it is a finite number, to a sixteenth of a decade.
   *
   * @param allowed whether the input may have a value
   * @returns undefined where no change does
   */
  mend(name: string, allowed: (value: number) => boolean): Mend | undefined;
}

/** One input, so many powers of ten away from its value. */
export interface Mend {
  readonly name: string;
  readonly decades: number;
  readonly value: number;
}

/** From a slip of a prefix to the other end of what a double holds. */
const DECADES = [1, 2, 3, 6, 9, 12, 18, 24, 36, 72, 144, 288];

/** Decades to which a change is found: enough to tell a square root from a square. */
const FINE = 1 / 16;

/** In place of a zero, which no power of ten moves: what small and common figures are in SI. */
const INSTEAD_OF_ZERO = [1, 1e-3, 1e-9, 1e-15];

/**
 * @param program from `assemble`
 * @param outputs the quantities that were asked for
 * @param given SI values of the inputs by name
 * @returns undefined where all of them are finite numbers
 */
export function firstBroken(
  program: Program,
  outputs: readonly string[],
  given: ReadonlyMap<string, number>,
): Broken | undefined {
  const steps = neededSteps(program, outputs);
  const values = new Map(given);
  const at = steps.findIndex((step) => complaintOf(step, values) !== undefined);
  if (at < 0) return undefined;
  const broken = steps[at]!;
  const quantity = writtenBy(broken).find((name) => !known(values, name)) ?? writtenBy(broken)[0]!;
  const leading = neededSteps({ ...program, steps: steps.slice(0, at + 1) }, [quantity]);
  const read = new Set(leading.flatMap(readBy));
  return {
    quantity,
    how: complaintOf(broken, values)!,
    inputs: program.given.filter((name) => read.has(name)),
    mend: (name, allowed) => mendOf(leading, values, name, allowed),
  };
}

/** Computes a step; what is wrong with its results, if anything is. */
function complaintOf(step: Step, values: Map<string, number>): string | undefined {
  try {
    interpretStep(step, values);
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    const { what }: Problem = error.problems[0]!;
    return what;
  }
  if (writtenBy(step).every((name) => known(values, name))) return undefined;
  return step.kind === "formula" ? formulaText(step.tree) : step.procedure.title;
}

function known(values: ReadonlyMap<string, number>, name: string): boolean {
  return Number.isFinite(values.get(name));
}

function mendOf(
  steps: readonly Step[],
  before: ReadonlyMap<string, number>,
  name: string,
  allowed: (value: number) => boolean,
): Mend | undefined {
  const touched = downstream(steps, name);
  const works = (value: number): boolean => {
    if (!Number.isFinite(value) || !allowed(value)) return false;
    const values = new Map(before).set(name, value);
    return touched.every((step) => complaintOf(step, values) === undefined);
  };
  const value = before.get(name)!;
  if (value === 0) {
    const other = INSTEAD_OF_ZERO.find(works);
    return other === undefined ? undefined : { name, decades: DECADES[0]!, value: other };
  }
  let least = 0;
  for (const decades of DECADES) {
    for (const way of [-1, 1]) {
      const moved = (by: number): number => value * pow(10, way * by);
      if (moved(decades) === 0 || !works(moved(decades))) continue;
      const most = nearer(least, decades, (by) => works(moved(by)));
      return { name, decades: most, value: moved(most) };
    }
    least = decades;
  }
  return undefined;
}

/** Halves the way between what doesn't do and what does. */
function nearer(least: number, most: number, works: (by: number) => boolean): number {
  let [low, high] = [least, most];
  while (high - low > FINE) {
    const middle = (low + high) / 2;
    if (works(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** The steps that an input reaches, and the last one, which is what has to be mended. */
function downstream(steps: readonly Step[], name: string): Step[] {
  const reached = new Set([name]);
  return steps.filter((step) => {
    if (!readBy(step).some((read) => reached.has(read))) return step === steps.at(-1);
    for (const written of writtenBy(step)) reached.add(written);
    return true;
  });
}

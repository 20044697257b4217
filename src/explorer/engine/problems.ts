import { type Problem, TenfoldError } from "../../errors/problem.ts";
import { problemText } from "../../errors/wording.ts";

/** A mistake as a page shows it. */
export interface ShownProblem {
  /** The words of the command line. */
  readonly text: string;
  /** From 1; absent where the mistake has no place in the text. */
  readonly line?: number;
  readonly column?: number;
  readonly length?: number;
  /** The nearest right word. */
  readonly nearest?: string;
}

/** Columns of a mistake's words. */
const WIDTH = 54;

/** The mistakes that an error tells of. @throws what is no TenfoldError: a bug */
export function problemsOf(error: unknown, file: string): ShownProblem[] {
  if (!(error instanceof TenfoldError)) throw error;
  return error.problems.map((problem) => shown(problem, file));
}

function shown(problem: Problem, file: string): ShownProblem {
  const { place, nearest } = problem;
  const here = place?.file === file ? place : undefined;
  return {
    text: problemText(problem, { width: WIDTH }),
    ...(here && { line: here.line, column: here.column, length: here.length ?? 1 }),
    ...(nearest === undefined ? {} : { nearest }),
  };
}

/** What went wrong, as data: the text that people read is made in `wording.ts` alone. */

/** A place in a text. Lines and columns count from 1; `length` characters are marked. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly length?: number;
  /** The whole line of the text, without its line break. */
  readonly text?: string;
}

/** One mistake or refusal. Only `code` and `what` are always there. */
export interface Problem {
  /** Stable, kebab-case, listed in `codes.ts`. */
  readonly code: string;
  /** One sentence without a full stop: what is wrong, in the words of the user's file. */
  readonly what: string;
  readonly place?: Place;
  /** The JSON pointer of the value, such as `/designs/static/cell`. */
  readonly path?: string;
  readonly got?: string;
  readonly expected?: string;
  /** The nearest right word. */
  readonly nearest?: string;
  /** What to do about it. */
  readonly fix?: string;
}

/**
 * How a command ends: 2 for bad input, 3 for a computation that failed, 1 for a requirement that
 * did not hold.
 */
export type ExitCode = 1 | 2 | 3;

/** The one error class of the project. Everything else that is thrown is a bug. */
export class TenfoldError extends Error {
  readonly problems: readonly Problem[];
  readonly exitCode: ExitCode;

  constructor(problems: Problem | readonly Problem[], exitCode: ExitCode = 2) {
    const list = Array.isArray(problems) ? (problems as readonly Problem[]) : [problems as Problem];
    super(list.map((p) => `${p.code}: ${p.what}`).join("; "));
    this.name = "TenfoldError";
    this.problems = list;
    this.exitCode = exitCode;
  }
}

/** Throws one refusal of bad input. */
export function refuse(problem: Problem): never {
  throw new TenfoldError(problem, 2);
}

/** Throws because a computation failed for a stated reason. */
export function fail(problem: Problem): never {
  throw new TenfoldError(problem, 3);
}

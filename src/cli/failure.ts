import { TenfoldError } from "../errors/problem.ts";
import { problemsText } from "../errors/wording.ts";
import { distinct } from "./problems.ts";
import { debugging, terminalOf } from "./terminal.ts";

/** The exit code of a fault of the program itself: the computation failed. */
const INTERNAL = 3;

/**
 * Says on standard error what went wrong.
 *
 * @returns the exit code
 */
export function reportFailure(error: unknown, noColor: boolean): number {
  if (error instanceof TenfoldError) {
    const { width, color } = terminalOf(process.stderr, noColor);
    process.stderr.write(problemsText(distinct(error.problems), { width, color }));
    return error.exitCode;
  }
  const message = error instanceof Error ? error.message : String(error);
  process.stderr.write(
    `tenfold failed, and it is not your fault: ${oneLine(message)}\n` +
      "Please report this with the command line and the study, if you can share it.\n",
  );
  if (debugging() && error instanceof Error) process.stderr.write(`${error.stack}\n`);
  else process.stderr.write("TENFOLD_DEBUG=1 shows where it happened.\n");
  return INTERNAL;
}

function oneLine(text: string): string {
  return text.replace(/[\p{Cc}\p{Cf}\u2028\u2029]+/gu, " ").slice(0, 500);
}

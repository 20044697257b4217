import type { ExitCode } from "../errors/problem.ts";

let code: 0 | ExitCode = 0;

/** Lets the run end with this code although nothing was thrown: the result itself is the bad news. */
export function endWith(wanted: ExitCode): void {
  code = wanted;
}

/** The code that the run so far asks for. */
export function exitCode(): 0 | ExitCode {
  return code;
}

import { accessSync, constants } from "node:fs";
import { delimiter, join } from "node:path";
import { describe, test } from "vitest";

/** The first of these programs that is on the path, or what the environment variable names. */
export function programOf(variable: string, names: readonly string[]): string | undefined {
  const named = process.env[variable];
  if (named) return named;
  const folders = (process.env["PATH"] ?? "").split(delimiter);
  return names.flatMap((name) => folders.map((folder) => join(folder, name))).find(runs);
}

function runs(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/**
 * Tests that need a program which a bare machine may not have. Without it they are skipped by name; where `CI` is set
 * they fail instead, since `.ci/run` installs it.
 */
export function withProgram(
  what: string,
  program: string | undefined,
  tests: (program: string) => void,
): void {
  if (program !== undefined) describe(what, () => tests(program));
  else if (process.env["CI"]) {
    test(`${what}: needs a program that .ci/run should have installed`, () => {
      throw new Error(`${what}: the program is missing`);
    });
  } else test.skip(`${what}: SKIPPED, the program is not installed on this machine`, () => {});
}

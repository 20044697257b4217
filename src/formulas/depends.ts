/** What depends on what in a program. */

import { type Program, readBy, writtenBy } from "./program.ts";
import { neededSteps } from "./segments.ts";

/**
 * The given quantities (parameters) that a quantity depends on, directly or through others.
 *
 * @param program from `assemble`
 * @param name a quantity of the program; a given one depends on itself
 * @returns names in the order of the program
 */
export function dependsOn(program: Program, name: string): string[] {
  const read = new Set([name, ...neededSteps(program, [name]).flatMap(readBy)]);
  return program.given.filter((given) => read.has(given));
}

/**
 * The computed quantities that need a quantity, directly or through others.
 *
 * @param program from `assemble`
 * @param name a quantity of the program
 * @returns names in the order of computation
 */
export function neededBy(program: Program, name: string): string[] {
  const reached = new Set([name]);
  const found: string[] = [];
  for (const step of program.steps) {
    if (!readBy(step).some((read) => reached.has(read))) continue;
    for (const written of writtenBy(step)) {
      reached.add(written);
      found.push(written);
    }
  }
  return found;
}

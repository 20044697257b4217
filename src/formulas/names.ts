/** Which words a formula may use as names and as functions. */

import { FUNCTIONS, type FunctionName } from "./tree.ts";

const LISTED: ReadonlySet<string> = new Set(FUNCTIONS);

/** Words with a meaning of their own in the grammar, and names that every object carries. */
const RESERVED: ReadonlySet<string> = new Set([
  ...["and", "or", "not", "xor", "mod", "to", "in", "end", "true", "false", "null", "undefined"],
  ...["NaN", "Infinity", "i", "e"],
  ...Object.getOwnPropertyNames(Object.prototype),
  ...["prototype", "arguments", "eval", "import", "this"],
]);

/** Whether a word is one of the listed functions. */
export function isFunctionName(word: string): word is FunctionName {
  return LISTED.has(word);
}

/** Whether a word cannot be the name of a quantity. */
export function isReserved(word: string): boolean {
  return LISTED.has(word) || RESERVED.has(word);
}

/** Fewest and most arguments of a function. */
export function argumentCount(name: FunctionName): readonly [number, number] {
  if (name === "min" || name === "max") return [1, 50];
  if (name === "binomial_tail") return [3, 3];
  return name === "poisson_tail" ? [2, 2] : [1, 1];
}

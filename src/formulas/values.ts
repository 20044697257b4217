/** All quantities of a program by name. */

import { type Compiled, compile } from "./compile.ts";
import type { Program } from "./program.ts";

const compiled = new WeakMap<Program, Compiled>();

/**
 * Every quantity of a program, given ones included, computed by the same code as everything else.
 *
 * @param program from `assemble`
 * @param given SI values of the program's given quantities by name
 * @throws TenfoldError `not-finite`, also where a value that the program reads is not given
 */
export function valuesOf(
  program: Program,
  given: ReadonlyMap<string, number>,
): Map<string, number> {
  let code = compiled.get(program);
  if (!code) {
    code = compile(program);
    compiled.set(program, code);
  }
  const inputs = Float64Array.from(code.inputs, (name) => given.get(name) ?? Number.NaN);
  const results = new Float64Array(code.names.length);
  code.evaluate(inputs, results);
  const values = new Map<string, number>();
  for (const name of program.given) values.set(name, given.get(name) ?? Number.NaN);
  code.names.forEach((name, i) => {
    values.set(name, results[i]!);
  });
  return values;
}

/** Says where a computation left the finite numbers. */

import { fail } from "../errors/problem.ts";
import { interpretProgram } from "./interpret.ts";
import { formulaText } from "./print.ts";
import { type Program, readBy, writtenBy } from "./program.ts";
import { neededSteps } from "./segments.ts";

/**
 * Throws, naming the first quantity that is not a finite number, its formula and what it was
 * computed from.
 *
 * @param program the program
 * @param names the outputs that were asked for
 * @param inputNames names of the inputs
 * @param inputs their values, in SI
 * @param set which of many sets of inputs, from 0, where there are many
 */
export function reportNonFinite(
  program: Program,
  names: readonly string[],
  inputNames: readonly string[],
  inputs: Float64Array,
  set?: number,
): never {
  const given = new Map(inputNames.map((name, i) => [name, inputs[i]!]));
  const where = set === undefined ? "" : ` in set ${set + 1} of the inputs`;
  for (const [name, value] of given) {
    if (Number.isFinite(value)) continue;
    const what = `the input ${name} is not a finite number${where}`;
    fail({ code: "not-finite", what, got: String(value), path: name });
  }
  const steps = neededSteps(program, names);
  const values = interpretProgram(program, given, steps);
  const shown = (name: string): string => {
    const unit = program.quantities.get(name)?.unit ?? "1";
    return `${name} = ${values.get(name)}${unit === "1" ? "" : ` ${unit}`}`;
  };
  for (const step of steps) {
    const name = writtenBy(step).find((written) => !Number.isFinite(values.get(written)));
    if (name === undefined) continue;
    const how = step.kind === "formula" ? formulaText(step.tree) : step.procedure.title;
    fail({
      code: "not-finite",
      what: `${name} is not a finite number${where}: ${how}`,
      path: name,
      got: `${values.get(name)} from ${readBy(step).map(shown).join(", ") || "numbers alone"}`,
      expected: "a finite number",
      fix: "one of these values is outside of what the formula allows",
    });
  }
  return fail({
    code: "not-finite",
    what: `a result is not a finite number${where}, though each formula by itself is`,
    got: names.join(", "),
  });
}

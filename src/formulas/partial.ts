/** What is left of a program when only some of its given quantities vary. */

import { type FormulaStep, type Program, readBy, type Step, writtenBy } from "./program.ts";
import type { Tree } from "./tree.ts";
import { symbolsOf } from "./walk.ts";

/**
 * A program that computes the outputs, to the same bits, from the varied quantities alone: what does not depend on
 * them stands in it as numbers, so that it is not computed again for every set.
 *
 * @param program from `assemble`
 * @param known the value of every quantity of the program at the quantities that do not vary
 * @param varied given quantities that stay inputs
 * @param outputs the quantities that will be asked for
 */
export function partialProgram(
  program: Program,
  known: ReadonlyMap<string, number>,
  varied: ReadonlySet<string>,
  outputs: readonly string[],
): Program {
  const moving = new Set(program.given.filter((name) => varied.has(name)));
  const steps: Step[] = [];
  const fixed = new Set<string>();
  /** A name that a procedure reads or that is asked for needs a step of its own. */
  const fix = (name: string): void => {
    if (moving.has(name) || fixed.has(name)) return;
    fixed.add(name);
    const tree: Tree = { kind: "number", value: known.get(name)! };
    steps.push({ kind: "formula", name, tree, reads: [], size: 1 });
  };
  for (const step of program.steps) {
    if (!readBy(step).some((name) => moving.has(name))) continue;
    for (const name of writtenBy(step)) moving.add(name);
    if (step.kind === "procedure") {
      for (const name of step.inputs) fix(name);
      steps.push(step);
    } else steps.push(filled(step, moving, known));
  }
  for (const name of outputs) fix(name);
  return {
    given: program.given.filter((name) => moving.has(name)),
    steps,
    quantities: program.quantities,
  };
}

function filled(
  step: FormulaStep,
  moving: ReadonlySet<string>,
  known: ReadonlyMap<string, number>,
): FormulaStep {
  const of = (tree: Tree): Tree => {
    switch (tree.kind) {
      case "number":
        return tree;
      case "symbol":
        return moving.has(tree.name) ? tree : { kind: "number", value: known.get(tree.name)! };
      case "negate":
        return { ...tree, of: of(tree.of) };
      case "binary":
        return { ...tree, left: of(tree.left), right: of(tree.right) };
      case "call":
        return { ...tree, of: tree.of.map(of) };
      case "choose": {
        const when = { ...tree.when, left: of(tree.when.left), right: of(tree.when.right) };
        return { kind: "choose", when, chosen: of(tree.chosen), otherwise: of(tree.otherwise) };
      }
    }
  };
  const tree = of(step.tree);
  return { ...step, tree, reads: symbolsOf(tree) };
}

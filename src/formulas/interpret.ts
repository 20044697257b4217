/** Slow and plain evaluation: to find what went wrong, and to hold the compiled code against. */

import { pow } from "../numerics/special/elementary.ts";
import { IMPLEMENTATIONS } from "./functions.ts";
import type { Program, Step } from "./program.ts";
import type { Comparison, Tree } from "./tree.ts";

/** The value of a tree; a comparison with NaN gives NaN. */
export function interpret(tree: Tree, lookUp: (name: string) => number): number {
  const of = (part: Tree): number => interpret(part, lookUp);
  switch (tree.kind) {
    case "number":
      return tree.value;
    case "symbol":
      return lookUp(tree.name);
    case "negate":
      return -of(tree.of);
    case "binary": {
      const [left, right] = [of(tree.left), of(tree.right)];
      if (tree.operator === "+") return left + right;
      if (tree.operator === "-") return left - right;
      if (tree.operator === "*") return left * right;
      return tree.operator === "/" ? left / right : pow(left, right);
    }
    case "call":
      return IMPLEMENTATIONS[tree.name](...tree.of.map(of));
    case "choose": {
      const holds = compare(tree.when.operator, of(tree.when.left), of(tree.when.right));
      if (holds === undefined) return Number.NaN;
      return holds ? of(tree.chosen) : of(tree.otherwise);
    }
  }
}

/** Whether a comparison holds; undefined where a side is NaN. */
export function compare(
  operator: Comparison["operator"],
  left: number,
  right: number,
): boolean | undefined {
  if (Number.isNaN(left) || Number.isNaN(right)) return undefined;
  switch (operator) {
    case "<":
      return left < right;
    case "<=":
      return left <= right;
    case ">":
      return left > right;
    case ">=":
      return left >= right;
    case "==":
      return left === right;
    case "!=":
      return left !== right;
  }
}

/**
 * Every quantity of a program, in its order.
 *
 * @param program from `assemble`
 * @param given SI values by name; a missing one is NaN
 * @param steps the steps to compute; all unless given
 */
export function interpretProgram(
  program: Program,
  given: ReadonlyMap<string, number>,
  steps: readonly Step[] = program.steps,
): Map<string, number> {
  const values = new Map<string, number>();
  for (const name of program.given) values.set(name, given.get(name) ?? Number.NaN);
  const lookUp = (name: string): number => values.get(name) ?? Number.NaN;
  for (const step of steps) {
    if (step.kind === "formula") values.set(step.name, interpret(step.tree, lookUp));
    else {
      const outputs = new Float64Array(step.outputs.length);
      step.procedure.run(Float64Array.from(step.inputs, lookUp), outputs);
      step.outputs.forEach((name, i) => {
        values.set(name, outputs[i]!);
      });
    }
  }
  return values;
}

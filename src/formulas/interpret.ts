/**
 * Plain evaluation, formula by formula: of a few sets, to find what went wrong, and to hold the
 * compiled code against.
 */

import { pow } from "../numerics/special/elementary.ts";
import { IMPLEMENTATIONS } from "./functions.ts";
import type { Program, Step } from "./program.ts";
import type { Comparison, Tree } from "./tree.ts";

/** The value of a tree; a comparison with NaN gives NaN. */
export function interpret(tree: Tree, lookUp: (name: string) => number): number {
  switch (tree.kind) {
    case "number":
      return tree.value;
    case "symbol":
      return lookUp(tree.name);
    case "negate":
      return -interpret(tree.of, lookUp);
    case "binary": {
      const left = interpret(tree.left, lookUp);
      const right = interpret(tree.right, lookUp);
      if (tree.operator === "*") return left * right;
      if (tree.operator === "+") return left + right;
      if (tree.operator === "/") return left / right;
      return tree.operator === "-" ? left - right : pow(left, right);
    }
    case "call": {
      const of = IMPLEMENTATIONS[tree.name];
      const first = interpret(tree.of[0]!, lookUp);
      if (tree.of.length === 1) return of(first);
      if (tree.of.length === 2) return of(first, interpret(tree.of[1]!, lookUp));
      return of(...tree.of.map((part) => interpret(part, lookUp)));
    }
    case "choose": {
      const { operator, left, right } = tree.when;
      const holds = compare(operator, interpret(left, lookUp), interpret(right, lookUp));
      if (holds === undefined) return Number.NaN;
      return interpret(holds ? tree.chosen : tree.otherwise, lookUp);
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
  for (const step of steps) interpretStep(step, values);
  return values;
}

/** Computes one step from what is known and adds its results. */
export function interpretStep(step: Step, values: Map<string, number>): void {
  const lookUp = (name: string): number => values.get(name) ?? Number.NaN;
  if (step.kind === "formula") {
    values.set(step.name, interpret(step.tree, lookUp));
    return;
  }
  const outputs = new Float64Array(step.outputs.length);
  step.procedure.run(Float64Array.from(step.inputs, lookUp), outputs);
  step.outputs.forEach((name, i) => {
    values.set(name, outputs[i]!);
  });
}

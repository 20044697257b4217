/** A program as a graph of operations on numbers: its names are gone. */

import type { Operation } from "../numerics/vectors/operations.ts";
import { IMPLEMENTATIONS } from "./functions.ts";
import { INPUT, Nodes, RESULT } from "./nodes.ts";
import type { Step } from "./program.ts";
import type { Comparison, FunctionName, Tree } from "./tree.ts";

/** Something that is computed for one set of numbers at a time. */
export interface Call {
  /** Nodes. */
  readonly from: readonly number[];
  readonly to: readonly number[];
  run(inputs: Float64Array, outputs: Float64Array): void;
  /** Whether it may refuse its inputs. */
  readonly refuses: boolean;
}

const OF_FUNCTION: { readonly [name in FunctionName]?: Operation } = {
  min: "min",
  max: "max",
  ceil: "ceil",
  floor: "floor",
  round: "round",
  abs: "abs",
  sqrt: "sqrt",
  exp: "exp",
  log: "log",
  log1p: "log1p",
};
const OF_OPERATOR = {
  "+": "add",
  "-": "subtract",
  "*": "multiply",
  "/": "divide",
  "^": "pow",
} as const;

/** Nodes, calls and where each quantity of a program is. */
export class Graph extends Nodes {
  readonly calls: Call[] = [];
  /** Nodes of quantities, the inputs among them. */
  readonly quantities = new Map<string, number>();
  private readonly called = new Map<string, number>();

  /**
   * @param inputs names of what comes from outside
   * @param steps in the order of computation
   */
  constructor(inputs: readonly string[], steps: readonly Step[]) {
    super();
    for (const name of inputs) this.quantities.set(name, this.node(INPUT));
    for (const step of steps) {
      if (step.kind === "formula") this.quantities.set(step.name, this.lower(step.tree));
      else {
        const from = step.inputs.map((name) => this.quantities.get(name)!);
        const { procedure } = step;
        const to = this.call(from, step.outputs.length, true, (i, o) => procedure.run(i, o));
        for (const [k, name] of step.outputs.entries()) this.quantities.set(name, to[k]!);
      }
    }
  }

  private call(
    from: readonly number[],
    results: number,
    refuses: boolean,
    run: Call["run"],
  ): readonly number[] {
    const place = this.calls.length;
    const to = Array.from({ length: results }, (_, k) => this.node(RESULT, place, k));
    this.calls.push({ from, to, run, refuses });
    return to;
  }

  private lower(tree: Tree): number {
    switch (tree.kind) {
      case "number":
        return this.number(tree.value);
      case "symbol":
        return this.quantities.get(tree.name)!;
      case "negate":
        return this.operation("negate", this.lower(tree.of));
      case "binary": {
        const left = this.lower(tree.left);
        return this.operation(OF_OPERATOR[tree.operator], left, this.lower(tree.right));
      }
      case "call":
        return this.lowerCall(tree.name, tree.of);
      case "choose":
        return this.lowerChoice(tree.when, this.lower(tree.chosen), this.lower(tree.otherwise));
    }
  }

  private lowerCall(name: FunctionName, of: readonly Tree[]): number {
    const from = of.map((part) => this.lower(part));
    const operation = OF_FUNCTION[name];
    if (operation === "min" || operation === "max") {
      return from.reduce((a, b) => this.operation(operation, a, b));
    }
    if (operation !== undefined) return this.operation(operation, from[0]!);
    const key = `${name} ${from.join(" ")}`;
    const known = this.called.get(key);
    if (known !== undefined) return known;
    const apply = IMPLEMENTATIONS[name];
    const [made] = this.call(from, 1, false, (inputs, outputs) => {
      outputs[0] = inputs.length === 1 ? apply(inputs[0]!) : apply(...inputs);
    });
    this.called.set(key, made!);
    return made!;
  }

  private lowerChoice(when: Comparison, chosen: number, otherwise: number): number {
    const left = this.lower(when.left);
    const right = this.lower(when.right);
    switch (when.operator) {
      case "<":
        return this.choice(this.operation("less", left, right), chosen, otherwise);
      case "<=":
        return this.choice(this.operation("atMost", left, right), chosen, otherwise);
      case ">":
        return this.choice(this.operation("less", right, left), chosen, otherwise);
      case ">=":
        return this.choice(this.operation("atMost", right, left), chosen, otherwise);
      case "==":
        return this.choice(this.operation("equal", left, right), chosen, otherwise);
      case "!=":
        return this.choice(this.operation("equal", left, right), otherwise, chosen);
    }
  }
}

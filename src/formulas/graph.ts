/**
 * A program as a graph of operations on numbers: names are gone, what is computed twice stands once,
 * and what depends on numbers alone is computed. None of that changes a bit of a result.
 */

import { isPowerOfTwo } from "../numerics/elementary/bits.ts";
import { APPLY, OPERATIONS, type Operation } from "../numerics/vectors/operations.ts";
import { IMPLEMENTATIONS } from "./functions.ts";
import type { Step } from "./program.ts";
import type { Comparison, FunctionName, Tree } from "./tree.ts";

/** What a node is, where it is no operation. */
export const INPUT = -1;
export const NUMBER = -2;
/** One of the results of a call. */
export const RESULT = -3;

/** Something that is computed for one set of numbers at a time. */
export interface Call {
  /** Nodes. */
  readonly from: readonly number[];
  readonly to: readonly number[];
  run(inputs: Float64Array, outputs: Float64Array): void;
  /** Whether it may refuse its inputs. */
  readonly refuses: boolean;
}

const CODE = Object.fromEntries(OPERATIONS.map((name, i) => [name, i])) as Readonly<
  Record<Operation, number>
>;
/** A key holds an operation and two nodes of this many. */
const MOST_NODES = 2 ** 21;
const SWAPPED: ReadonlySet<Operation> = new Set(["add", "multiply", "min", "max", "equal"]);
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

/** Nodes in an order in which each stands after its operands. */
export class Graph {
  /** `INPUT`, `NUMBER`, `RESULT` or the code of an operation. */
  readonly kinds: number[] = [];
  /** Operands: nodes; of a result its call and its place there; -1 for none. */
  readonly operands: readonly [number[], number[], number[]] = [[], [], []];
  /** Values of nodes that are numbers; 0 of the others. */
  readonly numbers: number[] = [];
  readonly calls: Call[] = [];
  /** Nodes of quantities, the inputs among them. */
  readonly nodes = new Map<string, number>();
  private readonly known = new Map<number, number>();
  private readonly numbered = new Map<number, number>();
  private readonly called = new Map<string, number>();
  private readonly pairs = new Map<number, number>();
  private negativeZero = -1;

  /**
   * @param inputs names of what comes from outside
   * @param steps in the order of computation
   */
  constructor(inputs: readonly string[], steps: readonly Step[]) {
    for (const name of inputs) this.nodes.set(name, this.node(INPUT));
    for (const step of steps) {
      if (step.kind === "formula") this.nodes.set(step.name, this.lower(step.tree));
      else {
        const from = step.inputs.map((name) => this.nodes.get(name)!);
        const { procedure } = step;
        const to = this.call(from, step.outputs.length, true, (i, o) => procedure.run(i, o));
        for (const [k, name] of step.outputs.entries()) this.nodes.set(name, to[k]!);
      }
    }
  }

  get size(): number {
    return this.kinds.length;
  }

  private node(kind: number, a = -1, b = -1, c = -1, value = 0): number {
    const [first, second, third] = this.operands;
    first.push(a);
    second.push(b);
    third.push(c);
    this.numbers.push(value);
    return this.kinds.push(kind) - 1;
  }

  private number(value: number): number {
    if (Object.is(value, -0)) {
      if (this.negativeZero < 0) this.negativeZero = this.node(NUMBER, -1, -1, -1, -0);
      return this.negativeZero;
    }
    let made = this.numbered.get(value);
    if (made === undefined) {
      made = this.node(NUMBER, -1, -1, -1, value);
      this.numbered.set(value, made);
    }
    return made;
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
        return this.nodes.get(tree.name)!;
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

  private choice(when: number, chosen: number, otherwise: number): number {
    if (this.kinds[when] === NUMBER) {
      const holds = this.numbers[when]!;
      return holds === 1 ? chosen : holds === 0 ? otherwise : this.number(Number.NaN);
    }
    return this.unique("choose", when, chosen, otherwise);
  }

  private operation(operation: Operation, a: number, b = -1): number {
    if (this.isNumber(a) && (b < 0 || this.isNumber(b))) {
      return this.number(APPLY[operation](this.numbers[a]!, this.numbers[b] ?? 0, 0));
    }
    if (this.isNumber(b)) {
      const value = this.numbers[b]!;
      const same = operation === "subtract" ? Object.is(value, 0) : value === 1;
      if (same && UNCHANGED.has(operation)) return a;
      if (operation === "divide" && isPowerOfTwo(value)) {
        return this.operation("multiply", a, this.number(1 / value));
      }
      if (operation === "pow" && (value === 2 || value === 3)) {
        const square = this.operation("multiply", a, a);
        return value === 2 ? square : this.operation("multiply", square, a);
      }
    } else if (operation === "multiply" && this.isNumber(a) && this.numbers[a] === 1) return b;
    const [first, second] = SWAPPED.has(operation) && a > b ? [b, a] : [a, b];
    return this.unique(operation, first, second);
  }

  private isNumber(node: number): boolean {
    return this.kinds[node] === NUMBER;
  }

  /** The node of an operation on these operands, made where there is none yet. */
  private unique(operation: Operation, a: number, b: number, c = -1): number {
    const code = CODE[operation];
    const last = c < 0 ? b + 1 : this.pair(b, c);
    const key = (code * MOST_NODES + a) * MOST_NODES + last;
    let made = this.known.get(key);
    if (made === undefined) {
      made = this.node(code, a, b, c);
      this.known.set(key, made);
    }
    return made;
  }

  /** A number for two operands together, so that a key has room for three. */
  private pair(b: number, c: number): number {
    const key = b * MOST_NODES + c;
    const known = this.pairs.get(key) ?? this.pairs.size;
    this.pairs.set(key, known);
    return known;
  }
}

/** Operations that leave their first operand as it is where the second is 1, or +0 to subtract. */
const UNCHANGED: ReadonlySet<Operation> = new Set(["multiply", "divide", "subtract", "pow"]);

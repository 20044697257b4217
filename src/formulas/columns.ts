/**
 * Programs over columns of values: one small loop for each kind of operator, shared by all
 * programs. These loops are fast from the first program on, where one long function for each
 * program costs the engine more time to optimise than a few thousand sets of values take.
 */

import { pow } from "../numerics/special/elementary.ts";
import { IMPLEMENTATIONS } from "./functions.ts";
import { expression, literal, variable } from "./generate.ts";
import { functionFrom } from "./generated.ts";
import { readBy, type Step, writtenBy } from "./program.ts";
import type { Procedure } from "./sheet.ts";
import { FUNCTIONS, type Tree } from "./tree.ts";
import { mapParts, partsOf } from "./walk.ts";

type Column = Float64Array;
type Loop = (out: Column, from: readonly Column[], count: number) => void;
/** Computes the first `count` values of its columns. */
type Operation = (count: number) => void;

/** Steps over columns of their own: set the inputs, run, read the outputs. */
export class Columns {
  private readonly width: number;
  private readonly operations: Operation[] = [];
  private readonly named = new Map<string, Column>();
  private readonly constants = new Map<string, Column>();
  /** Columns of parts of one formula; the next formula uses them again. */
  private readonly scratch: Column[] = [];
  private scratched = 0;

  /**
   * @param steps in the order of computation
   * @param width the most values of a column
   */
  constructor(steps: readonly Step[], width: number) {
    this.width = width;
    for (const step of steps) this.add(step);
  }

  /** The column of a quantity. What no step computes is an input, to be filled before a run. */
  of(name: string): Column {
    let column = this.named.get(name);
    if (!column) {
      column = new Float64Array(this.width);
      this.named.set(name, column);
    }
    return column;
  }

  /** Computes the first `count` values of all columns. */
  run(count: number): void {
    for (const operation of this.operations) operation(count);
  }

  private add(step: Step): void {
    if (step.kind === "procedure") {
      const [from, to] = [readBy(step), writtenBy(step)].map((names) =>
        names.map((name) => this.of(name)),
      );
      this.operations.push(each(step.procedure, from!, to!));
      return;
    }
    this.scratched = 0;
    const { tree, name } = step;
    // A formula that is a number or a name alone shares that column.
    if (partsOf(tree).length === 0) this.named.set(name, this.lower(tree));
    else this.lower(tree, this.of(name));
  }

  /** The column of a tree: `out` where it is given and the tree has an operator. */
  private lower(tree: Tree, out?: Column): Column {
    if (tree.kind === "number") return this.constant(tree.value);
    if (tree.kind === "symbol") return this.of(tree.name);
    const from = operandsOf(tree).map((part) => this.lower(part));
    const to = out ?? this.temporary();
    const loop = loopOf(tree);
    this.operations.push((count) => loop(to, from, count));
    return to;
  }

  private constant(value: number): Column {
    const key = literal(value);
    let column = this.constants.get(key);
    if (!column) {
      column = new Float64Array(this.width).fill(value);
      this.constants.set(key, column);
    }
    return column;
  }

  private temporary(): Column {
    const column = this.scratch[this.scratched] ?? new Float64Array(this.width);
    this.scratch[this.scratched++] = column;
    return column;
  }
}

/** A procedure for each set of values in turn. */
function each(procedure: Procedure, from: readonly Column[], to: readonly Column[]): Operation {
  const inputs = new Float64Array(from.length);
  const outputs = new Float64Array(to.length);
  return (count) => {
    for (let k = 0; k < count; k++) {
      for (let i = 0; i < from.length; i++) inputs[i] = from[i]![k]!;
      procedure.run(inputs, outputs);
      for (let i = 0; i < to.length; i++) to[i]![k] = outputs[i]!;
    }
  };
}

const AVAILABLE = { __proto__: null, ...IMPLEMENTATIONS, pow };
const loops = new Map<string, Loop>();

/** The loop of a tree's outermost operator. */
function loopOf(tree: Tree): Loop {
  const key = operatorOf(tree);
  let loop = loops.get(key);
  if (!loop) {
    loop = makeLoop(tree);
    loops.set(key, loop);
  }
  return loop;
}

/** A number that is an exponent stays in the loop: small powers are products there. */
function hasFixedExponent(tree: Tree): tree is Extract<Tree, { kind: "binary" }> {
  return tree.kind === "binary" && tree.operator === "^" && tree.right.kind === "number";
}

function operandsOf(tree: Tree): readonly Tree[] {
  return hasFixedExponent(tree) ? [tree.left] : partsOf(tree);
}

function operatorOf(tree: Tree): string {
  switch (tree.kind) {
    case "binary":
      return tree.right.kind === "number" && tree.operator === "^"
        ? `^${literal(tree.right.value)}`
        : tree.operator;
    case "call":
      return `${tree.name}/${tree.of.length}`;
    case "choose":
      return `?${tree.when.operator}`;
    default:
      return tree.kind;
  }
}

/** The same code that computes one set of values, with columns for its operands. */
function makeLoop(tree: Tree): Loop {
  const names = operandsOf(tree).map((_, i) => `x${i}`);
  const rest = [...names];
  const shape = hasFixedExponent(tree)
    ? { ...tree, left: { kind: "symbol", name: "x0" } as const }
    : mapParts(tree, () => ({ kind: "symbol", name: rest.shift()! }));
  const code = expression(shape, () => {
    throw new Error("an operator over names has nothing to hoist");
  });
  const columns = names.map((name, i) => `${name}=from[${i}]`).join(",");
  const values = names.map((name) => `${variable(name)}=${name}[k]`).join(",");
  const text =
    `"use strict";const {${[...FUNCTIONS, "pow"].join(",")}}=f;` +
    `return (out,from,count)=>{const ${columns};` +
    `for(let k=0;k<count;k++){const ${values};out[k]=${code};}}`;
  const factory = functionFrom("f", text) as (f: typeof AVAILABLE) => Loop;
  return factory(AVAILABLE);
}

/**
 * Operations on numbers as a list of nodes: what is computed twice stands once, and what depends on
 * numbers alone is computed. None of that changes a bit of a result.
 */

import { isPowerOfTwo } from "../numerics/elementary/bits.ts";
import { APPLY, OPERATIONS, type Operation } from "../numerics/vectors/operations.ts";

/** What a node is, where it is no operation. */
export const INPUT = -1;
export const NUMBER = -2;
/** One of the results of a call: its operands are the call and the place among its results. */
export const RESULT = -3;

const CODE = Object.fromEntries(OPERATIONS.map((name, i) => [name, i])) as Readonly<
  Record<Operation, number>
>;
const SWAPPED: ReadonlySet<Operation> = new Set(["add", "multiply", "min", "max", "equal"]);

/** Nodes in an order in which each stands after its operands. */
export class Nodes {
  /** `INPUT`, `NUMBER`, `RESULT` or the code of an operation. */
  readonly kinds: number[] = [];
  /** Operands: nodes; -1 for none. */
  readonly first: number[] = [];
  readonly second: number[] = [];
  readonly third: number[] = [];
  /** Values of nodes that are numbers; 0 of the others. */
  readonly numbers: number[] = [];
  private readonly numbered = new Map<number, number>();
  private negativeZero = -1;
  /** Nodes by their operation and operands: a table with open addresses of nodes + 1. */
  private table = new Int32Array(1024);
  private filled = 0;

  get size(): number {
    return this.kinds.length;
  }

  /** A new node. */
  node(kind: number, a = -1, b = -1, c = -1, value = 0): number {
    this.first.push(a);
    this.second.push(b);
    this.third.push(c);
    this.numbers.push(value);
    return this.kinds.push(kind) - 1;
  }

  number(value: number): number {
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

  /** The node of an operation on one or two nodes. */
  operation(operation: Operation, a: number, b = -1): number {
    const { kinds, numbers } = this;
    if (kinds[a] === NUMBER && (b < 0 || kinds[b] === NUMBER)) {
      return this.number(APPLY[operation](numbers[a]!, b < 0 ? 0 : numbers[b]!, 0));
    }
    if (kinds[b] === NUMBER) {
      const simpler = this.withNumber(operation, a, numbers[b]!);
      if (simpler >= 0) return simpler;
    }
    if (operation === "multiply" && kinds[a] === NUMBER && numbers[a] === 1) return b;
    return a > b && b >= 0 && SWAPPED.has(operation)
      ? this.unique(CODE[operation], b, a, -1)
      : this.unique(CODE[operation], a, b, -1);
  }

  /** What does the same to the bit where the second operand is this number; -1 for nothing. */
  private withNumber(operation: Operation, a: number, value: number): number {
    switch (operation) {
      case "multiply":
        return value === 1 ? a : -1;
      case "subtract":
        return Object.is(value, 0) ? a : -1;
      case "divide":
        if (value === 1) return a;
        return isPowerOfTwo(value) ? this.operation("multiply", a, this.number(1 / value)) : -1;
      case "pow":
        if (value === 1) return a;
        if (value === 2) return this.operation("multiply", a, a);
        if (value !== 3) return -1;
        return this.operation("multiply", this.operation("multiply", a, a), a);
      default:
        return -1;
    }
  }

  /** The node of a choice by a node that is 1, 0 or NaN. */
  choice(when: number, chosen: number, otherwise: number): number {
    if (this.kinds[when] !== NUMBER) return this.unique(CODE.choose, when, chosen, otherwise);
    const holds = this.numbers[when]!;
    return holds === 1 ? chosen : holds === 0 ? otherwise : this.number(Number.NaN);
  }

  /** The node of an operation on these operands, made where there is none yet. */
  private unique(kind: number, a: number, b: number, c: number): number {
    if (2 * this.filled >= this.table.length) this.grow();
    const { table, kinds, first, second, third } = this;
    let place = this.placeOf(kind, a, b, c);
    for (let there = table[place]!; there > 0; there = table[place]!) {
      const node = there - 1;
      if (kinds[node] === kind && first[node] === a && second[node] === b && third[node] === c) {
        return node;
      }
      place = (place + 1) & (table.length - 1);
    }
    const made = this.node(kind, a, b, c);
    table[place] = made + 1;
    this.filled += 1;
    return made;
  }

  private placeOf(kind: number, a: number, b: number, c: number): number {
    let hash = Math.imul(a, 0x9e3779b1) ^ Math.imul(b + kind * 4099, 0x85ebca6b);
    hash ^= Math.imul(c, 0xc2b2ae35);
    return (hash ^ (hash >>> 15)) & (this.table.length - 1);
  }

  private grow(): void {
    const before = this.table;
    this.table = new Int32Array(4 * before.length);
    for (const there of before) {
      if (there === 0) continue;
      const node = there - 1;
      const { kinds, first, second, third, table } = this;
      let place = this.placeOf(kinds[node]!, first[node]!, second[node]!, third[node]!);
      while (table[place] !== 0) place = (place + 1) & (table.length - 1);
      table[place] = there;
    }
  }
}

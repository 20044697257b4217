/** The machine in plain loops: for engines without WebAssembly, and to hold the other against. */

import { pow } from "../elementary/index.ts";
import { KERNELS } from "./kernels.ts";
import type { Machine } from "./machine.ts";
import { APPLY, type Operation } from "./operations.ts";

type Loop = (
  x: Float64Array,
  to: number,
  count: number,
  a: number,
  b: number,
  c: number,
  stepA: number,
  stepB: number,
  stepC: number,
) => void;

/** Loops of what programs do most, written out: an engine optimises each by itself. */
const FREQUENT: { readonly [name in Operation]?: Loop } = {
  add(x, to, count, a, b, _c, stepA, stepB) {
    for (let k = 0; k < count; k++) x[to + k] = x[a + k * stepA]! + x[b + k * stepB]!;
  },
  subtract(x, to, count, a, b, _c, stepA, stepB) {
    for (let k = 0; k < count; k++) x[to + k] = x[a + k * stepA]! - x[b + k * stepB]!;
  },
  multiply(x, to, count, a, b, _c, stepA, stepB) {
    for (let k = 0; k < count; k++) x[to + k] = x[a + k * stepA]! * x[b + k * stepB]!;
  },
  divide(x, to, count, a, b, _c, stepA, stepB) {
    for (let k = 0; k < count; k++) x[to + k] = x[a + k * stepA]! / x[b + k * stepB]!;
  },
  min(x, to, count, a, b, _c, stepA, stepB) {
    for (let k = 0; k < count; k++) x[to + k] = Math.min(x[a + k * stepA]!, x[b + k * stepB]!);
  },
  max(x, to, count, a, b, _c, stepA, stepB) {
    for (let k = 0; k < count; k++) x[to + k] = Math.max(x[a + k * stepA]!, x[b + k * stepB]!);
  },
  pow(x, to, count, a, b, _c, stepA, stepB) {
    for (let k = 0; k < count; k++) x[to + k] = pow(x[a + k * stepA]!, x[b + k * stepB]!);
  },
};

const LOOPS: readonly Loop[] = KERNELS.map(
  ({ operation }) => FREQUENT[operation] ?? loopFor(APPLY[operation]),
);

function loopFor(apply: (a: number, b: number, c: number) => number): Loop {
  return (x, to, count, a, b, c, stepA, stepB, stepC) => {
    for (let k = 0; k < count; k++) {
      x[to + k] = apply(x[a + k * stepA]!, x[b + k * stepB]!, x[c + k * stepC]!);
    }
  };
}

/** Runs the instruction at word `at` over `count` numbers. */
export function runLoop(doubles: Float64Array, words: Int32Array, at: number, count: number): void {
  LOOPS[words[at]!]!(
    doubles,
    words[at + 1]! >> 3,
    count,
    words[at + 2]! >> 3,
    words[at + 3]! >> 3,
    words[at + 4]! >> 3,
    words[at + 5]! >> 4,
    words[at + 6]! >> 4,
    words[at + 7]! >> 4,
  );
}

/** A machine without WebAssembly. */
export function loopsOf(bytes: number): Machine {
  const memory = new ArrayBuffer(bytes);
  const doubles = new Float64Array(memory);
  const words = new Int32Array(memory);
  return {
    doubles,
    words,
    run(code, end, size) {
      for (let at = code >> 2; at < end >> 2; at += 8) runLoop(doubles, words, at, size >> 3);
    },
  };
}

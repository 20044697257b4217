/** The machine in plain loops: for engines without WebAssembly, and to hold the other against. */

import { KERNELS } from "./kernels.ts";
import type { Machine } from "./machine.ts";
import { APPLY } from "./operations.ts";

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

const LOOPS: readonly Loop[] = KERNELS.map(({ operation }) => loopFor(APPLY[operation]));

function loopFor(apply: (a: number, b: number, c: number) => number): Loop {
  return (x, to, count, a, b, c, stepA, stepB, stepC) => {
    for (let k = 0, i = a, j = b, l = c; k < count; k++, i += stepA, j += stepB, l += stepC) {
      x[to + k] = apply(x[i]!, x[j]!, x[l]!);
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

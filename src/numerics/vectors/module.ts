/** The machine in WebAssembly: one module for all programs, compiled once. */

import { MODULE } from "./assembled.ts";
import { runLoop } from "./loops.ts";
import type { Machine, Run } from "./machine.ts";
import { writeTables } from "./tables.ts";

const PAGE = 65536;

/** undefined: not tried yet; null: this engine has none, or none without waiting. */
let compiled: WebAssembly.Module | null | undefined;

/** A machine with that much memory; undefined where the engine or a page's policy refuses. */
export function kernelsOf(bytes: number): Machine | undefined {
  if (compiled === undefined) compiled = compileOnce();
  if (compiled === null) return undefined;
  const memory = new WebAssembly.Memory({ initial: Math.ceil(bytes / PAGE) });
  const doubles = new Float64Array(memory.buffer);
  const words = new Int32Array(memory.buffer);
  const byLoops = (code: number, size: number): void =>
    runLoop(doubles, words, code >> 2, size >> 3);
  const { exports } = new WebAssembly.Instance(compiled, { solver: { memory, byLoops } });
  writeTables(doubles);
  return { doubles, words, run: exports["run"] as Run };
}

function compileOnce(): WebAssembly.Module | null {
  try {
    const text = atob(MODULE);
    return new WebAssembly.Module(Uint8Array.from(text, (letter) => letter.charCodeAt(0)));
  } catch {
    return null;
  }
}

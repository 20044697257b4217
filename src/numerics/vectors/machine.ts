/**
 * Runs code over columns of doubles: instructions of eight 32-bit words, each one operation over a
 * stretch of its operands. The instructions run in WebAssembly, two numbers at a time; where an
 * engine refuses that, in plain loops, to the same bits.
 */

import { log2, pow } from "../special/elementary.ts";
import { loopsOf } from "./loops.ts";
import { kernelsOf } from "./module.ts";

/**
 * 32-bit words of an instruction: the kernel, where to, three operands, the steps of each. Addresses
 * are in bytes from the start of the memory, multiples of 16. A step is 16 for an operand with a
 * number for each set, 0 for one number that stands twice; at least one operand steps.
 */
export const WORDS_EACH = 8;
/** Lanes that are computed at a time: columns need room for a whole number of them. */
export const LANES = 8;

/**
 * Runs instructions from a byte address to another, over the first `bytes` of each column: a whole
 * number of times `LANES` doubles.
 */
export type Run = (code: number, end: number, bytes: number) => void;

/** A memory and what runs code that lies in it. */
export interface Machine {
  readonly doubles: Float64Array;
  readonly words: Int32Array;
  readonly run: Run;
}

export { codeOf } from "./kernels.ts";

/** Which kind of machine: the fastest that the engine has, unless said. */
export type Kind = "fastest" | "loops";

const kept = new Map<Kind, Machine>();

/** A machine with at least `bytes` of memory; what an earlier one held is lost. */
export function machineWith(bytes: number, kind: Kind = "fastest"): Machine {
  let machine = kept.get(kind);
  if (machine === undefined || machine.doubles.byteLength < bytes) {
    const size = Math.max(2 ** 17, pow(2, Math.ceil(log2(bytes))));
    machine = (kind === "fastest" ? kernelsOf(size) : undefined) ?? loopsOf(size);
    kept.set(kind, machine);
  }
  return machine;
}

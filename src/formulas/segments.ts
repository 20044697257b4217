/** Cuts a program into pieces that the engine's optimiser takes. */

import { type Program, type Step, writtenBy } from "./program.ts";
import { partsOf, symbolsOf } from "./walk.ts";

/**
 * Tree nodes per piece. The engine gives up optimising a function whose bytecode is longer than 60
 * kB, which is about 8000 nodes; shorter pieces compile faster and keep their variables in
 * registers.
 */
export const PIECE_SIZE = 1200;

/** A run of steps with the names that cross its borders. */
export interface Segment {
  readonly steps: readonly Step[];
  /** Names from outside: given, or of an earlier segment. */
  readonly reads: readonly string[];
  /** Names that an output or a later segment needs. */
  readonly writes: readonly string[];
}

/** The names that a step reads. */
export function readBy(step: Step): readonly string[] {
  return step.kind === "formula" ? symbolsOf(step.tree) : step.inputs;
}

/** The steps that the outputs need, in the order of the program. */
export function neededSteps(program: Program, outputs: readonly string[]): Step[] {
  const needed = new Set(outputs);
  const kept: Step[] = [];
  for (const step of [...program.steps].reverse()) {
    if (!writtenBy(step).some((name) => needed.has(name))) continue;
    kept.push(step);
    for (const name of readBy(step)) needed.add(name);
  }
  return kept.reverse();
}

/** The steps in pieces of about `size` nodes. */
export function segmentsOf(
  steps: readonly Step[],
  outputs: readonly string[],
  size = PIECE_SIZE,
): Segment[] {
  const pieces: Step[][] = [];
  let room = 0;
  for (const step of steps) {
    if (room <= 0) {
      pieces.push([]);
      room = size;
    }
    pieces.at(-1)!.push(step);
    room -= sizeOf(step);
  }
  const wanted = new Set(outputs);
  const segments: Segment[] = [];
  for (const piece of pieces.reverse()) {
    const own = new Set(piece.flatMap(writtenBy));
    const reads = [...new Set(piece.flatMap(readBy))].filter((name) => !own.has(name));
    segments.push({ steps: piece, reads, writes: [...own].filter((name) => wanted.has(name)) });
    for (const name of reads) wanted.add(name);
  }
  return segments.reverse();
}

function sizeOf(step: Step): number {
  if (step.kind === "procedure") return 2 * (step.inputs.length + step.outputs.length);
  const count = (tree: Parameters<typeof partsOf>[0]): number =>
    partsOf(tree).reduce((sum, part) => sum + count(part), 1);
  return count(step.tree);
}

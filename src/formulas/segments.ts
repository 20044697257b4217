/** Cuts a program into pieces that the engine's optimiser takes. */

import { type Program, readBy, type Step, writtenBy } from "./program.ts";

/**
 * Tree nodes per piece. The engine optimises long functions badly and gives up on very long ones:
 * 800 formulas in one piece ran at 0.1 to 0.5 of the speed by hand, in pieces of this size at 1.0.
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
  if (step.kind === "formula") return step.size;
  return 2 * (step.inputs.length + step.outputs.length);
}

/** What of a graph is computed once and what for each set, where its values lie, and its code. */

import { codeOf, WORDS_EACH } from "../numerics/vectors/machine.ts";
import { FREE_FROM } from "../numerics/vectors/tables.ts";
import type { Call, Graph } from "./graph.ts";
import { INPUT, NUMBER, RESULT } from "./nodes.ts";

/** Sets that are computed together: their columns stay in the processor's cache. */
export const CHUNK = 128;
const COLUMN = 8 * CHUNK;
const CELL = 16;
const NEVER = 2 ** 30;

/** A stretch of instructions from byte to byte, or a call with the places where its values lie. */
export type Stage =
  | { readonly kind: "code"; readonly from: number; readonly to: number }
  | {
      readonly kind: "call";
      readonly call: Call;
      /** Doubles from the start of the memory. */
      readonly from: readonly number[];
      /** 1 for an operand with a value for each set, 0 for one with the same for all. */
      readonly steps: readonly number[];
      readonly to: readonly number[];
    };

export interface Plan {
  /** Operations and results that are the same for all sets. */
  readonly once: readonly number[];
  /** Nodes with one value that the code reads: the first in the first cell, and so on. */
  readonly cells: readonly number[];
  readonly stages: readonly Stage[];
  readonly code: Int32Array;
  /** Byte address of the code. */
  readonly codeAt: number;
  /** Bytes of memory. */
  readonly size: number;
  /** For each node its place in doubles; 0 for those with one value. */
  readonly places: Int32Array;
}

/** Where the cells are, in doubles: each twice the same number. */
export const CELLS_AT = FREE_FROM >> 3;

/**
 * @param graph the program
 * @param varying inputs that differ between sets
 * @param wanted nodes that are asked for
 */
export function planOf(graph: Graph, varying: readonly number[], wanted: readonly number[]): Plan {
  const moving = movingNodes(graph, varying);
  const lastUse = lastUses(graph, moving, wanted);
  // Columns 0, 1, ... until it is known where they start; of those that move, one more than that.
  const column = new Int32Array(graph.size);
  const cellOf = new Int32Array(graph.size);
  const cells: number[] = [];
  const once: number[] = [];
  const drafts: number[] = [];
  const free: number[] = [];
  let columns = 0;
  const take = (node: number): void => {
    column[node] = free.pop() ?? ++columns;
  };
  const read = (node: number): void => {
    if (node < 0 || moving[node] === 1 || cellOf[node]! > 0) return;
    cellOf[node] = cells.push(node);
  };
  const release = (node: number, at: number): void => {
    if (node < 0 || moving[node] === 0 || lastUse[node] !== at) return;
    free.push(column[node]!);
    // Not twice, where it is read twice by the same operation.
    lastUse[node] = NEVER;
  };
  for (const node of varying) take(node);
  for (let node = 0; node < graph.size; node++) {
    const kind = graph.kinds[node]!;
    if (kind === INPUT || kind === NUMBER) continue;
    if (moving[node] === 0) {
      once.push(node);
      continue;
    }
    const leading = kind !== RESULT || graph.second[node] === 0;
    if (leading) drafts.push(node);
    const reads = leading ? readsOf(graph, node) : [];
    for (const one of reads) read(one);
    take(node);
    for (const one of reads) release(one, node);
    release(node, node);
  }
  const columnsAt = Math.ceil((FREE_FROM + CELL * cells.length) / COLUMN) * COLUMN;
  const address = (node: number): number =>
    moving[node] === 1
      ? columnsAt + COLUMN * (column[node]! - 1)
      : FREE_FROM + CELL * (cellOf[node]! - 1);
  const codeAt = columnsAt + COLUMN * columns;
  const { stages, code } = finished(graph, drafts, moving, address, codeAt);
  const places = column.map((_, node) => (moving[node] === 1 ? address(node) >> 3 : 0));
  return { once, cells, stages, code, codeAt, size: codeAt + code.byteLength, places };
}

/** Instructions for the operations, and stages between which calls stand. */
function finished(
  graph: Graph,
  drafts: readonly number[],
  moving: Uint8Array,
  address: (node: number) => number,
  codeAt: number,
): { stages: Stage[]; code: Int32Array } {
  const { kinds, first, second, third, calls } = graph;
  const stages: Stage[] = [];
  const code = new Int32Array(drafts.length * WORDS_EACH);
  let at = 0;
  let begun = 0;
  const cut = (): void => {
    if (at > begun) stages.push({ kind: "code", from: codeAt + 4 * begun, to: codeAt + 4 * at });
    begun = at;
  };
  for (const node of drafts) {
    const kind = kinds[node]!;
    if (kind === RESULT) {
      cut();
      const call = calls[first[node]!]!;
      const placeOf = (one: number): number => address(one) >> 3;
      const steps = call.from.map((one) => moving[one]!);
      const [from, to] = [call.from.map(placeOf), call.to.map(placeOf)];
      stages.push({ kind: "call", call, from, steps, to });
      continue;
    }
    const operands = [first[node]!, second[node]!, third[node]!];
    let fixed = 0;
    for (const [k, operand] of operands.entries()) {
      if (operand < 0) continue;
      code[at + 2 + k] = address(operand);
      if (moving[operand] === 1) code[at + 5 + k] = 16;
      else fixed |= 1 << k;
    }
    code[at] = codeOf(kind, fixed);
    code[at + 1] = address(node);
    at += WORDS_EACH;
  }
  cut();
  return { stages, code: code.subarray(0, at) };
}

/** 1 for the nodes that differ between sets. */
function movingNodes(graph: Graph, varying: readonly number[]): Uint8Array {
  const { kinds, first, second, third } = graph;
  const moving = new Uint8Array(graph.size);
  for (const node of varying) moving[node] = 1;
  for (let node = 0; node < graph.size; node++) {
    const kind = kinds[node]!;
    if (kind === RESULT) {
      const { from } = graph.calls[first[node]!]!;
      if (from.some((one) => moving[one] === 1)) moving[node] = 1;
    } else if (kind >= 0) {
      // Beyond the operands there is nothing, which does not move.
      const [a, b, c] = [first[node]!, second[node]!, third[node]!];
      if (moving[a] === 1 || moving[b] === 1 || moving[c] === 1) moving[node] = 1;
    }
  }
  return moving;
}

/** For each node that moves the last one that reads it, or itself; never for what is wanted. */
function lastUses(graph: Graph, moving: Uint8Array, wanted: readonly number[]): Int32Array {
  const last = new Int32Array(graph.size);
  for (let node = 0; node < graph.size; node++) {
    last[node] = node;
    if (moving[node] === 0 || graph.kinds[node]! === INPUT) continue;
    if (graph.kinds[node] === RESULT && graph.second[node] !== 0) continue;
    for (const read of readsOf(graph, node)) if (read >= 0) last[read] = node;
  }
  for (const node of wanted) last[node] = NEVER;
  return last;
}

function readsOf(graph: Graph, node: number): readonly number[] {
  const a = graph.first[node]!;
  if (graph.kinds[node] === RESULT) return graph.calls[a]!.from;
  return [a, graph.second[node]!, graph.third[node]!];
}

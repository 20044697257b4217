/** What of a graph is computed once and what for each set, where its values lie, and its code. */

import { encode, type Instruction, WORDS_EACH } from "../numerics/vectors/machine.ts";
import { OPERATIONS } from "../numerics/vectors/operations.ts";
import { FREE_FROM } from "../numerics/vectors/tables.ts";
import { type Call, type Graph, INPUT, NUMBER, RESULT } from "./graph.ts";

/** Sets that are computed together: their columns stay in the processor's cache. */
export const CHUNK = 128;
const COLUMN = 8 * CHUNK;
const CELL = 16;

/** A stretch of instructions, from byte to byte, or a call with the doubles where its values lie. */
export type Stage =
  | { readonly kind: "code"; readonly from: number; readonly to: number }
  | {
      readonly kind: "call";
      readonly call: Call;
      readonly from: readonly Place[];
      readonly to: readonly Place[];
    };

/** Where a value lies, in doubles from the start of the memory. */
export interface Place {
  readonly at: number;
  /** Whether there is one for each set, or one for all. */
  readonly steps: boolean;
}

export interface Plan {
  /** Operations and results that are the same for all sets. */
  readonly once: readonly number[];
  /** Nodes with one value that the code reads, and where; twice each. */
  readonly cells: readonly { readonly node: number; readonly at: number }[];
  readonly stages: readonly Stage[];
  readonly code: Int32Array;
  /** Byte address of the code. */
  readonly codeAt: number;
  /** Bytes of memory. */
  readonly size: number;
  /** Places of the nodes that were asked for; undefined for those with one value. */
  readonly places: ReadonlyMap<number, number>;
}

/**
 * @param graph the program
 * @param varies whether a node that is an input differs between sets
 * @param wanted nodes that are asked for
 */
export function planOf(
  graph: Graph,
  varies: (input: number) => boolean,
  wanted: readonly number[],
): Plan {
  const { kinds, calls } = graph;
  const moving = movingNodes(graph, varies);
  const order: number[] = [];
  const once: number[] = [];
  for (let node = 0; node < graph.size; node++) {
    const kind = kinds[node]!;
    if (kind === INPUT || kind === NUMBER) continue;
    (moving[node] ? order : once).push(node);
  }
  const lastUse = lastUses(graph, order, wanted);
  const slots = new Slots();
  const slotOf = new Map<number, number>();
  for (let node = 0; node < graph.size; node++) {
    if (kinds[node] === INPUT && moving[node]) slotOf.set(node, slots.take());
  }
  const cells = new Map<number, number>();
  /** Addresses before the start of the columns is known: cells are -1, -2, ..., slots 0, 1, ... */
  const placeOf = (node: number): number => {
    if (moving[node]) return slotOf.get(node)!;
    const known = cells.get(node) ?? cells.size;
    cells.set(node, known);
    return -1 - known;
  };
  const release = (nodes: readonly number[], at: number): void => {
    for (const node of new Set(nodes)) {
      if (moving[node] && lastUse.get(node) === at) slots.give(slotOf.get(node)!);
    }
  };
  const drafts: Draft[] = [];
  for (const [at, node] of order.entries()) {
    if (kinds[node] !== RESULT) {
      const nodes = operandsOf(graph, node);
      const from = nodes.map(placeOf);
      slotOf.set(node, slots.take());
      drafts.push({ kind: kinds[node]!, from, to: [slotOf.get(node)!] });
      release(nodes, at);
      release([node], at);
    } else if (graph.operands[1][node] === 0) {
      const call = calls[graph.operands[0][node]!]!;
      const from = call.from.map(placeOf);
      for (const result of call.to) slotOf.set(result, slots.take());
      drafts.push({ kind: RESULT, call, from, to: call.to.map((one) => slotOf.get(one)!) });
      release(call.from, at);
    } else release([node], at);
  }
  const columnsAt = Math.ceil((FREE_FROM + CELL * cells.size) / COLUMN) * COLUMN;
  const address = (place: number): number =>
    place < 0 ? FREE_FROM + CELL * (-1 - place) : columnsAt + COLUMN * place;
  const codeAt = columnsAt + COLUMN * slots.most;
  const { stages, code } = finished(drafts, address, codeAt);
  return {
    once,
    cells: Array.from(cells, ([node, k]) => ({ node, at: (FREE_FROM + CELL * k) >> 3 })),
    stages,
    code,
    codeAt,
    size: codeAt + code.byteLength,
    places: new Map(Array.from(slotOf, ([node, slot]) => [node, address(slot) >> 3] as const)),
  };
}

/** An operation or a call before addresses are known. */
interface Draft {
  readonly kind: number;
  readonly call?: Call;
  readonly from: readonly number[];
  readonly to: readonly number[];
}

function finished(
  drafts: readonly Draft[],
  address: (place: number) => number,
  codeAt: number,
): { stages: Stage[]; code: Int32Array } {
  const stages: Stage[] = [];
  const instructions: Instruction[] = [];
  let begun = 0;
  const cut = (): void => {
    const at = (count: number): number => codeAt + 4 * WORDS_EACH * count;
    if (instructions.length > begun) {
      stages.push({ kind: "code", from: at(begun), to: at(instructions.length) });
    }
    begun = instructions.length;
  };
  for (const { kind, call, from, to } of drafts) {
    if (call === undefined) {
      instructions.push({
        operation: OPERATIONS[kind]!,
        to: address(to[0]!),
        from: from.map((place) => ({ at: address(place), steps: place >= 0 })),
      });
      continue;
    }
    cut();
    const place = (one: number): Place => ({ at: address(one) >> 3, steps: one >= 0 });
    stages.push({ kind: "call", call, from: from.map(place), to: to.map(place) });
  }
  cut();
  return { stages, code: encode(instructions) };
}

/** Which nodes differ between sets. */
function movingNodes(graph: Graph, varies: (input: number) => boolean): Uint8Array {
  const moving = new Uint8Array(graph.size);
  const moves = (node: number): boolean => moving[node] === 1;
  for (let node = 0; node < graph.size; node++) {
    const kind = graph.kinds[node]!;
    if (kind === NUMBER) continue;
    const is = kind === INPUT ? varies(node) : readsOf(graph, node).some(moves);
    moving[node] = is ? 1 : 0;
  }
  return moving;
}

/** For each node the place in the order of the last one that reads it; none for what is wanted. */
function lastUses(
  graph: Graph,
  order: readonly number[],
  wanted: readonly number[],
): Map<number, number> {
  const last = new Map<number, number>();
  for (const [at, node] of order.entries()) {
    const again = graph.kinds[node] === RESULT && graph.operands[1][node] !== 0;
    if (!again) for (const read of readsOf(graph, node)) last.set(read, at);
    if (!last.has(node)) last.set(node, at);
  }
  for (const node of wanted) last.delete(node);
  return last;
}

function readsOf(graph: Graph, node: number): readonly number[] {
  if (graph.kinds[node] !== RESULT) return operandsOf(graph, node);
  return graph.calls[graph.operands[0][node]!]!.from;
}

function operandsOf(graph: Graph, node: number): number[] {
  return graph.operands.map((column) => column[node]!).filter((one) => one >= 0);
}

/** Columns in use; the one that was given back last is taken first, as it is still in the cache. */
class Slots {
  most = 0;
  private readonly free: number[] = [];

  take(): number {
    return this.free.pop() ?? this.most++;
  }
  give(slot: number): void {
    this.free.push(slot);
  }
}

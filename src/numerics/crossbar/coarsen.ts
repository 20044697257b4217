/** Coarser crossbars: lines joined in pairs, a new crossbar of half as many lines. */
import type { Arena } from "./kernels/instance.ts";
import { ARRAYS, type Ends, factor, type Level, makeLevel, paddingOf, sizeOf } from "./level.ts";
import type { Shape } from "./lines.ts";

/**
 * Junctions stronger than this over the segment's resistance tie their two nodes: a coarse level carries no more, so
 * that line sweeps keep working where nodes are tied.
 */
const TIE = 0.5;
/** Mean conductance times segment resistance from which on a level is gone through twice. */
const TWICE = 0.1;
/** Coarsening stops at this many lines. */
const FEWEST = 4;

/** Which line of its group of four goes with the first one: 1, 2 or 3. */
type Partner = 1 | 2 | 3;

/** Coarse line (0 or 1 of the group) of the four lines, by partner of the first. */
const JOINED = { 1: [0, 0, 1, 1], 2: [0, 1, 0, 1], 3: [0, 1, 1, 0] } as const;

interface Joining {
  readonly partners: readonly Partner[];
  readonly of: Int32Array;
  readonly count: number;
  /** Empty lines before the first coarse line, and of them those that come from empty lines. */
  readonly padding: number;
  readonly empty: number;
}

function joinLines(lines: number, empty: number, partners: readonly Partner[]): Joining {
  const padding = paddingOf(lines / 2);
  const of = new Int32Array(lines);
  for (let i = 0; i < lines; i++) {
    of[i] = padding + 2 * (i >> 2) + JOINED[partners[i >> 2]!][i & 3]!;
  }
  return { partners, of, count: lines / 2 + padding, padding, empty: padding + (empty >> 1) };
}

/** Lines are compared on two stretches of this length. */
const STRETCH = 32;
/** How much stronger a tie between lines that are no neighbours must be. */
const FAVOUR = 1.2;

/**
 * Pairs lines by how strongly the crossing lines tie them: in every group of four the pairing with the largest sum of
 * min(g, g') over both pairs, so that a checkerboard, two interleaved networks, is not merged into one.
 */
function partnersOf(
  g: Float64Array,
  lines: number,
  empty: number,
  step: number,
  crossing: { from: number; count: number; step: number },
): Partner[] {
  const out: Partner[] = [];
  const half = crossing.from + (crossing.count >> 1);
  for (let i = 0; i < lines; i += 4) {
    let adjacent = 0;
    let alternate = 0;
    let outer = 0;
    for (let part = 0; part < 2; part++) {
      const from = part === 0 ? crossing.from : half;
      const to = Math.min(from + STRETCH, crossing.from + crossing.count);
      for (let j = from; j < to; j++) {
        const k = i * step + j * crossing.step;
        const a = g[k]!;
        const b = g[k + step]!;
        const c = g[k + 2 * step]!;
        const d = g[k + 3 * step]!;
        adjacent += Math.min(a, b) + Math.min(c, d);
        alternate += Math.min(a, c) + Math.min(b, d);
        outer += Math.min(a, d) + Math.min(b, c);
      }
    }
    adjacent *= FAVOUR;
    const best = adjacent >= Math.max(alternate, outer) ? 1 : alternate >= outer ? 2 : 3;
    out.push(i < empty ? 1 : best);
  }
  return out;
}

function summed(values: Float64Array, joining: Joining): Float64Array {
  const out = new Float64Array(joining.count);
  for (let i = 0; i < values.length; i++) out[joining.of[i]!]! += values[i]!;
  return out;
}

/** Junctions summed over blocks of 2 x 2, clipped at `most`; returns their mean before clipping. */
function sumJunctions(
  fine: Level,
  rows: Joining,
  columns: Joining,
  out: Float64Array,
  most: number,
): number {
  const { m, n } = fine.shape;
  const g = fine.g.view;
  const of = columns.of;
  const nc = columns.count;
  out.fill(0);
  for (let i = 0, k = 0; i < m; i++) {
    const o = rows.of[i]! * nc;
    for (let j = 0; j < n; j++, k++) out[o + of[j]!]! += g[k]!;
  }
  let sum = 0;
  for (let k = 0; k < out.length; k++) {
    sum += out[k]!;
    if (out[k]! > most) out[k] = most;
  }
  return sum / ((rows.count - rows.empty) * (nc - columns.empty));
}

/**
 * The crossbar of half the lines: junctions summed over blocks of 2 x 2, ends over 2, segments of the same resistance
 * (half as many wires, twice as wide, segments twice as long).
 */
function coarsen(arena: Arena, fine: Level): Level {
  const { m, n, top, left } = fine.shape;
  const { ends, wires } = fine;
  const across = { from: left, count: n - left, step: 1 };
  const along = { from: top, count: m - top, step: n };
  const rows = joinLines(m, top, partnersOf(fine.g.view, m, top, n, across));
  const columns = joinLines(n, left, partnersOf(fine.g.view, n, left, 1, along));
  const shape: Shape = { m: rows.count, n: columns.count, top: rows.empty, left: columns.empty };
  const coarseEnds: Ends = {
    left: summed(ends.left, rows),
    right: summed(ends.right, rows),
    top: summed(ends.top, columns),
    bottom: summed(ends.bottom, columns),
  };
  const least = Math.min(wires.row, wires.column);
  const g = arena.doubles(shape.m * shape.n);
  const mean = sumJunctions(fine, rows, columns, g.view, TIE / least);
  const level = makeLevel(arena, shape, wires, coarseEnds, g, mean * least > TWICE);
  factor(level);
  const joins = arena.doubles(8 * (m / 4));
  const words = new Int32Array(joins.view.buffer, joins.at, 16 * (m / 4));
  words.fill(0);
  for (const [k, partner] of rows.partners.entries()) {
    words.fill(-1, 16 * k + 4 * (partner - 1), 16 * k + 4 * partner);
    words[16 * k + 12] = 8 * shape.n * (rows.padding + 2 * k);
  }
  const columnOf = arena.integers(n);
  for (let j = 0; j < n; j++) columnOf.view[j] = 8 * columns.of[j]!;
  fine.coarser = { level, joins: joins.at, columnOf: columnOf.at };
  return level;
}

function goesOn(shape: { m: number; n: number }): boolean {
  return shape.m > FEWEST && shape.n > FEWEST;
}

/** Doubles that all coarser levels of a shape may take. */
export function coarserSize(shape: { m: number; n: number }): number {
  let total = 0;
  let { m, n } = shape;
  while (goesOn({ m, n })) {
    m = m / 2 + paddingOf(m / 2);
    n = n / 2 + paddingOf(n / 2);
    total += sizeOf({ m, n }, ARRAYS.twice);
  }
  return total;
}

/** Builds all coarser levels. */
export function coarsenAll(arena: Arena, finest: Level): void {
  let level = finest;
  while (goesOn(level.shape)) level = coarsen(arena, level);
}

/**
 * Tridiagonal line systems by accumulated excess: a line of nodes joined by segments of resistance r, every node with a
 * conductance G to elsewhere, the ends with conductances g. Only positive numbers are added, so every factor is right
 * to the last digits however weak the conductances are; a floating line, r = 0 and an ideal end (g infinite) need no
 * method of their own. With s the conductance seen from a node backwards along the line, the node itself included,
 *
 *   c = 1 / (1 + r s),   s' = G' + c s,   forward y' = b' + c y,   back x = (r y + x') c,   x_last = y / s.
 *
 * The last node's c is 1. A held node has c = 0 and passes 1/r on. A line that is held at its far end, or anywhere when
 * r = 0, and an empty line (no G, no ends) get 1/s = 0.
 */
import type { Level } from "./level.ts";

/** Sizes of a padded array: the first `top` rows and `left` columns are empty; m and n are multiples of four. */
export interface Shape {
  readonly m: number;
  readonly n: number;
  readonly top: number;
  readonly left: number;
}

function inverse(s: number, first: number, far: number, r: number, alone: boolean): number {
  const held = first === Infinity && (r === 0 || alone);
  return held || s + far === 0 ? 0 : 1 / (s + far);
}

/** Lets the kernel see the first ends as part of the junctions beside them; returns what puts them back. */
function withFirstEnds(
  g: Float64Array,
  ends: Float64Array,
  from: number,
  count: number,
  nodeOf: (line: number) => number,
  step: number,
  r: number,
): () => void {
  const saved = new Map<number, number>();
  const put = (k: number, value: number) => {
    saved.set(k, g[k]!);
    g[k] = value;
  };
  for (let line = from; line < ends.length; line++) {
    const end = ends[line]!;
    if (end === 0) continue;
    const k = nodeOf(line);
    if (end !== Infinity) put(k, g[k]! + end);
    else if (r > 0 && count > 1) {
      put(k, 0);
      put(k + step, g[k + step]! + 1 / r);
    }
  }
  return () => {
    for (const [k, value] of saved) g[k] = value;
  };
}

/** Factors all rows. The c of four rows lie side by side, column by column. */
export function factorRows(level: Level): void {
  const { shape, ends, g, rows, kernels } = level;
  const { m, n, top, left } = shape;
  const r = level.wires.row;
  const last = rows.last.view;
  const c = rows.c.view;
  last.fill(0);
  const node = (i: number) => i * n + left;
  const restore = withFirstEnds(g.view, ends.left, top, n - left, node, 1, r);
  kernels.factorRows(rows.c.at, g.at, rows.last.at, m, 8 * n, r);
  restore();
  for (let i = 0; i < m; i++) {
    const o = (i >> 2) * 4 * n + (i & 3);
    if (ends.left[i] === Infinity) c[o + 4 * left] = 0;
    c[o + 4 * (n - 1)] = 1;
    last[i] = inverse(last[i]!, ends.left[i]!, ends.right[i]!, r, n - left === 1);
  }
}

/** Factors all columns; c is laid out like g. */
export function factorColumns(level: Level): void {
  const { shape, ends, g, columns, kernels } = level;
  const { m, n, top, left } = shape;
  const r = level.wires.column;
  const last = columns.last.view;
  const c = columns.c.view;
  const restore = withFirstEnds(g.view, ends.top, left, m - top, (j) => top * n + j, n, r);
  last.set(g.view.subarray(top * n, top * n + n));
  c.fill(1, 0, top * n);
  if (m - top > 1) {
    const from = 8 * n * top;
    const { at } = columns.last;
    kernels.factorColumns(columns.c.at + from, g.at + from, at, m - 1 - top, 8 * n, r);
  }
  restore();
  for (let j = 0; j < n; j++) {
    if (ends.top[j] === Infinity) c[top * n + j] = 0;
    c[(m - 1) * n + j] = 1;
    last[j] = inverse(last[j]!, ends.top[j]!, ends.bottom[j]!, r, m - top === 1);
  }
}

/** Coarser crossbars: lines joined in pairs, a new crossbar of half as many lines. */
import { type Ends, type Level, makeLevel, padded, paddingOf } from "./level.ts";

/** Junctions stronger than this over the wire's segment tie their nodes anyhow: no need to carry more. */
const TIE = 2;

/** The coarse line of every line. */
function pairs(count: number, top: number): { of: Int32Array; count: number } {
  const of = new Int32Array(count);
  for (let i = 0; i < count; i++) of[i] = i >> 1;
  void top;
  return { of, count: (count + 1) >> 1 };
}

function summed(values: Float64Array, of: Int32Array, count: number): Float64Array {
  const out = new Float64Array(count);
  for (let i = 0; i < values.length; i++) out[of[i]!]! += values[i]!;
  return out;
}

/**
 * The crossbar of half the lines: junctions summed over blocks of 2 x 2, ends over 2, segments of the same resistance
 * (half as many wires, twice as wide, segments twice as long).
 */
export function coarsen(level: Level): void {
  const { m, n, g, ends, rowResistance: row, columnResistance: column } = level;
  const r = pairs(m, level.top);
  const c = pairs(n, 0);
  const top = paddingOf(r.count);
  const rowOf = r.of.map((i) => i + top);
  const mc = r.count + top;
  const nc = c.count;
  const gc = new Float64Array(mc * nc);
  for (let i = 0; i < m; i++) {
    const o = rowOf[i]! * nc;
    for (let j = 0; j < n; j++) gc[o + c.of[j]!]! += g[i * n + j]!;
  }
  const r0 = Math.min(row, column);
  if (r0 > 0) for (let k = 0; k < gc.length; k++) gc[k] = Math.min(gc[k]!, TIE / r0);
  const coarseEnds: Ends = {
    left: padded(summed(ends.left, r.of, r.count), top),
    right: padded(summed(ends.right, r.of, r.count), top),
    top: summed(ends.top, c.of, nc),
    bottom: summed(ends.bottom, c.of, nc),
  };
  const first = top + (level.top >> 1);
  level.coarse = {
    level: makeLevel({ m: mc, n: nc, top: first }, { row, column }, gc, coarseEnds),
    rowOf,
    columnOf: c.of,
  };
}

/** Coarsens until few lines are left on either side. */
export function coarsenAll(finest: Level): void {
  let level = finest;
  while (level.m - level.top > 8 && level.n > 8) {
    coarsen(level);
    level = level.coarse!.level;
  }
}

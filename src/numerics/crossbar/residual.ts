/** Kirchhoff's current law at every node, from currents that are each right to their own last digits. */
import type { Arena, Block, Kernels } from "./kernels/instance.ts";
import type { Network, Potentials } from "./state.ts";

/** Conductances of the segments on both sides of every column and row, for the kernel. */
export interface Segments {
  readonly before: Block;
  readonly after: Block;
  readonly inner: Block;
  readonly perRow: Block;
  readonly worst: Block;
}

/** Prepares a network's segments. Ideal wires get none: their lines are judged as a whole. */
export function makeSegments(arena: Arena, network: Network): Segments {
  const { m, n, top, left } = network.shape;
  const gr = network.rowResistance > 0 ? 1 / network.rowResistance : 0;
  const gc = network.columnResistance > 0 ? 1 / network.columnResistance : 0;
  const [before, after, inner] = [arena.doubles(n), arena.doubles(n), arena.doubles(n)];
  const perRow = arena.doubles(6 * m);
  for (let j = 0; j < n; j++) {
    before.view[j] = j > left ? gr : 0;
    after.view[j] = j >= left && j < n - 1 ? gr : 0;
    inner.view[j] = j > left && j < n - 1 && gr > 0 ? 1 : 0;
  }
  for (let i = 0; i < m; i++) {
    perRow.view.fill(i > top ? gc : 0, 6 * i, 6 * i + 2);
    perRow.view.fill(i >= top && i < m - 1 ? gc : 0, 6 * i + 2, 6 * i + 4);
    perRow.view.fill(i > top && i < m - 1 && gc > 0 ? 1 : 0, 6 * i + 4, 6 * i + 6);
  }
  return { before, after, inner, perRow, worst: arena.doubles(2) };
}

/** Current [A] from a source of voltage v through conductance g into node k. */
export function terminalCurrent(
  g: number,
  v: number,
  high: Float64Array,
  low: Float64Array,
  k: number,
): number {
  return g * (v - high[k]! - low[k]!);
}

/** The largest current through the resistance of a terminal [A]. */
export function largestTerminal(network: Network, x: Potentials): number {
  const { ends, sources } = network;
  const { m, n, top, left } = network.shape;
  let most = 0;
  const note = (g: number, v: number, node: Block, low: Block, k: number) => {
    if (g === Infinity) return;
    most = Math.max(most, Math.abs(terminalCurrent(g, v, node.view, low.view, k)));
  };
  for (let i = top; i < m; i++) {
    note(ends.left[i]!, sources.left[i]!, x.uh, x.ul, i * n + left);
    note(ends.right[i]!, sources.right[i]!, x.uh, x.ul, i * n + n - 1);
  }
  for (let j = left; j < n; j++) {
    note(ends.top[j]!, sources.top[j]!, x.wh, x.wl, top * n + j);
    note(ends.bottom[j]!, sources.bottom[j]!, x.wh, x.wl, (m - 1) * n + j);
  }
  return most;
}

/** Current [A] through a segment of conductance g from node a to node b. */
export function segmentCurrent(
  g: number,
  high: Float64Array,
  low: Float64Array,
  a: number,
  b: number,
): number {
  return g * (high[a]! - high[b]! + (low[a]! - low[b]!));
}

/**
 * Fills the current that is missing at every node [A], 0 at nodes that an ideal source holds.
 * @param current from row to column at every junction [A]
 * @param floor currents that count as nothing [A]
 * @returns the largest of them (of a line, where its wire has no resistance) over the sum of the magnitudes of the
 *   currents there
 */
export function kirchhoff(
  kernels: Kernels,
  network: Network,
  segments: Segments,
  x: Potentials,
  current: Block,
  out: { readonly u: Block; readonly w: Block },
  floor: number,
): number {
  const { shape, ends, sources } = network;
  const { m, n, top, left } = shape;
  const s = segments;
  kernels.kirchhoff(
    ...[x.uh.at, x.ul.at, x.wh.at, x.wl.at, current.at, out.u.at, out.w.at],
    ...[s.before.at, s.after.at, s.inner.at, s.perRow.at, m, 8 * n, s.worst.at],
    floor,
  );
  const inner = Math.max(s.worst.view[0]!, s.worst.view[1]!);
  const rows = judgeEnds({
    ends: [ends.left, ends.right],
    sources: [sources.left, sources.right],
    from: top,
    ...{ origin: top * n + left, pitch: n, step: 1, length: n - left },
    resistance: network.rowResistance,
    high: x.uh.view,
    low: x.ul.view,
    current: current.view,
    missing: out.u.view,
    floor,
  });
  const columns = judgeEnds({
    ends: [ends.top, ends.bottom],
    sources: [sources.top, sources.bottom],
    from: left,
    ...{ origin: top * n + left, pitch: 1, step: n, length: m - top },
    resistance: network.columnResistance,
    high: x.wh.view,
    low: x.wl.view,
    current: current.view,
    missing: out.w.view,
    floor,
  });
  return Math.max(inner, rows, columns);
}

interface Lines {
  readonly ends: readonly [Float64Array, Float64Array];
  readonly sources: readonly [Float64Array, Float64Array];
  readonly from: number;
  /** First node of the first line, from line to line, from node to node, and nodes per line. */
  readonly origin: number;
  readonly pitch: number;
  readonly step: number;
  readonly length: number;
  readonly resistance: number;
  readonly high: Float64Array;
  readonly low: Float64Array;
  readonly current: Float64Array;
  readonly missing: Float64Array;
  readonly floor: number;
}

/** Adds the terminals to the end nodes and judges these nodes, or whole lines without resistance. */
function judgeEnds(lines: Lines): number {
  const { resistance, high, low, current, missing, floor } = lines;
  const [firstEnds, farEnds] = lines.ends;
  const [firstSources, farSources] = lines.sources;
  const { origin, pitch, step, length } = lines;
  const whole = resistance === 0 || length === 1;
  let worst = 0;
  for (let line = lines.from, a = origin; line < firstEnds.length; line++, a += pitch) {
    const b = a + (length - 1) * step;
    const g0 = firstEnds[line]!;
    const g1 = farEnds[line]!;
    const i0 = g0 === Infinity ? 0 : terminalCurrent(g0, firstSources[line]!, high, low, a);
    const i1 = g1 === Infinity ? 0 : terminalCurrent(g1, farSources[line]!, high, low, b);
    missing[a]! += i0;
    missing[b]! += i1;
    if (whole) {
      const held = g0 === Infinity || g1 === Infinity;
      let sum = 0;
      let size = Math.abs(i0) + Math.abs(i1) + floor;
      for (let k = a; k <= b; k += step) {
        sum += missing[k]!;
        size += Math.abs(current[k]!);
        missing[k] = 0;
      }
      if (held) continue;
      // At one node of the line, which is one node: large currents that cancel along it would hide what is left.
      missing[a] = sum;
      worst = Math.max(worst, Math.abs(sum) / size);
      continue;
    }
    if (g0 === Infinity) missing[a] = 0;
    else {
      const wire = segmentCurrent(1 / resistance, high, low, a, a + step);
      const size = Math.abs(wire) + Math.abs(i0) + Math.abs(current[a]!) + floor;
      worst = Math.max(worst, Math.abs(missing[a]!) / size);
    }
    if (g1 === Infinity) missing[b] = 0;
    else {
      const wire = segmentCurrent(1 / resistance, high, low, b, b - step);
      const size = Math.abs(wire) + Math.abs(i1) + Math.abs(current[b]!) + floor;
      worst = Math.max(worst, Math.abs(missing[b]!) / size);
    }
  }
  return worst;
}

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
  return g === 0 ? 0 : g * (v - high[k]! - low[k]!);
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
    nodes: (i) => [i * n + left, i * n + n - 1, 1],
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
    nodes: (j) => [top * n + j, (m - 1) * n + j, n],
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
  /** First and last node of a line, and the step between neighbours. */
  nodes(line: number): [number, number, number];
  readonly resistance: number;
  readonly high: Float64Array;
  readonly low: Float64Array;
  readonly current: Float64Array;
  readonly missing: Float64Array;
  readonly floor: number;
}

/** Adds the terminals to the end nodes and judges these nodes, or whole lines without resistance. */
function judgeEnds(lines: Lines): number {
  const { ends, sources, resistance, high, low, current, missing, floor } = lines;
  let worst = 0;
  for (let line = lines.from; line < ends[0].length; line++) {
    const [first, last, step] = lines.nodes(line);
    const held = [ends[0][line] === Infinity, ends[1][line] === Infinity] as const;
    const [i0, i1] = [0, 1].map((end) =>
      held[end]
        ? 0
        : terminalCurrent(
            ends[end]![line]!,
            sources[end]![line]!,
            high,
            low,
            end === 0 ? first : last,
          ),
    ) as [number, number];
    missing[first]! += i0;
    missing[last]! += i1;
    const whole = resistance === 0 || first === last;
    if (whole) {
      let sum = 0;
      let size = Math.abs(i0) + Math.abs(i1) + floor;
      for (let k = first; k <= last; k += step) {
        sum += missing[k]!;
        size += Math.abs(current[k]!);
        if (held[0] || held[1]) missing[k] = 0;
      }
      if (!held[0] && !held[1]) worst = Math.max(worst, Math.abs(sum) / size);
      continue;
    }
    for (const end of [0, 1] as const) {
      const k = end === 0 ? first : last;
      if (held[end]) {
        missing[k] = 0;
        continue;
      }
      const wire = segmentCurrent(1 / resistance, high, low, k, end === 0 ? k + step : k - step);
      const i = end === 0 ? i0 : i1;
      const size = Math.abs(wire) + Math.abs(i) + Math.abs(current[k]!) + floor;
      worst = Math.max(worst, Math.abs(missing[k]!) / size);
    }
  }
  return worst;
}

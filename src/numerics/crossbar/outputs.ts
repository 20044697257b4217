/** Currents and power figures of solved potentials. */
import type { CrossbarSolution, SideName } from "./problem.ts";
import { terminalCurrent } from "./residual.ts";
import type { Network, Potentials } from "./state.ts";

type Currents = Pick<CrossbarSolution, "terminalCurrents" | "rowCurrents" | "columnCurrents">;

/**
 * Terminal currents [A]: through a resistance by its voltage, of an ideal source by what its node needs.
 * @param current of all junctions [A], padded
 */
export function terminalCurrents(network: Network, x: Potentials, current: Float64Array): Currents {
  const { m, n, top, ends, sources, rowResistance, columnResistance } = network;
  const rows = m - top;
  const out = {
    left: new Float64Array(rows),
    right: new Float64Array(rows),
    top: new Float64Array(n),
    bottom: new Float64Array(n),
  };
  const rowCurrents = new Float64Array(rows);
  const columnCurrents = new Float64Array(n);
  const lines = (
    count: number,
    length: number,
    r: number,
    nodeOf: (line: number, k: number) => number,
    side: { first: SideName; far: SideName; shift: number },
    high: Float64Array,
    low: Float64Array,
    total: Float64Array,
    sign: number,
  ) => {
    for (let line = 0; line < count; line++) {
      const at = line + side.shift;
      const g0 = ends[side.first][at]!;
      const g1 = ends[side.far][at]!;
      if (g0 === 0 && g1 === 0) continue;
      const a = nodeOf(line, 0);
      const b = nodeOf(line, length - 1);
      let sum = 0;
      for (let k = 0; k < length; k++) sum += current[nodeOf(line, k)]!;
      // Into the array: what the junctions and the wire take from the end node.
      const held = (node: number, next: number, others: number): number => {
        if (length === 1 || r === 0) return sign * sum - others;
        const wire = (high[node]! - high[next]! + (low[node]! - low[next]!)) / r;
        return sign * current[node]! + wire;
      };
      let i0 = g0 === Infinity ? 0 : terminalCurrent(g0, sources[side.first][at]!, high, low, a);
      let i1 = g1 === Infinity ? 0 : terminalCurrent(g1, sources[side.far][at]!, high, low, b);
      if (g0 === Infinity) i0 = held(a, length > 1 ? nodeOf(line, 1) : a, i1);
      if (g1 === Infinity) i1 = held(b, length > 1 ? nodeOf(line, length - 2) : b, i0);
      out[side.first][line] = sign * i0 + 0;
      out[side.far][line] = sign * i1 + 0;
      total[line] = g0 !== 0 && g1 !== 0 ? sum : sign * (i0 + i1) + 0;
    }
  };
  const row = (line: number, k: number) => (top + line) * n + k;
  const column = (line: number, k: number) => (top + k) * n + line;
  const { uh, ul, wh, wl } = x;
  const leftRight = { first: "left", far: "right", shift: top } as const;
  const topBottom = { first: "top", far: "bottom", shift: 0 } as const;
  lines(rows, n, rowResistance, row, leftRight, uh, ul, rowCurrents, 1);
  lines(n, rows, columnResistance, column, topBottom, wh, wl, columnCurrents, -1);
  return { terminalCurrents: out, rowCurrents, columnCurrents };
}

/** Source, junction, wire and driver power [W]. */
export function powers(
  network: Network,
  x: Potentials,
  v: Float64Array,
  current: Float64Array,
  ends: Currents["terminalCurrents"],
): CrossbarSolution["power"] {
  const { m, n, top, rowResistance, columnResistance } = network;
  const { uh, ul, wh, wl } = x;
  const gr = rowResistance > 0 ? 1 / rowResistance : 0;
  const gc = columnResistance > 0 ? 1 / columnResistance : 0;
  let junction = 0;
  let wire = 0;
  for (let i = top; i < m; i++) {
    let junctionRow = 0;
    let wireRow = 0;
    for (let j = 0, k = i * n; j < n; j++, k++) {
      junctionRow += v[k]! * current[k]!;
      if (j < n - 1) wireRow += (uh[k]! - uh[k + 1]! + (ul[k]! - ul[k + 1]!)) ** 2 * gr;
      if (i < m - 1) wireRow += (wh[k]! - wh[k + n]! + (wl[k]! - wl[k + n]!)) ** 2 * gc;
    }
    junction += junctionRow;
    wire += wireRow;
  }
  let source = 0;
  let driver = 0;
  for (const side of ["left", "right", "top", "bottom"] as const) {
    const onRows = side === "left" || side === "right";
    const sign = onRows ? 1 : -1;
    const shift = onRows ? top : 0;
    for (let k = 0; k < ends[side].length; k++) {
      const i = ends[side][k]!;
      source += sign * network.sources[side][k + shift]! * i;
      if (i !== 0) driver += (i * i) / network.ends[side][k + shift]!;
    }
  }
  return { source, junction, wire, driver };
}

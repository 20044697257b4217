/** Currents and power figures of solved potentials. */
import type { CrossbarSolution } from "./problem.ts";
import { segmentCurrent, terminalCurrent } from "./residual.ts";
import type { Network, Potentials } from "./state.ts";

type Currents = Pick<CrossbarSolution, "terminalCurrents" | "rowCurrents" | "columnCurrents">;

/** All rows, or all columns. */
interface Lines {
  readonly count: number;
  /** First node of line 0, from line to line, from node to node, and nodes per line. */
  readonly origin: number;
  readonly pitch: number;
  readonly step: number;
  readonly length: number;
  readonly resistance: number;
  readonly ends: readonly [Float64Array, Float64Array];
  readonly sources: readonly [Float64Array, Float64Array];
  readonly shift: number;
  readonly high: Float64Array;
  readonly low: Float64Array;
  /** 1 for rows, whose junction currents leave the line, -1 for columns. */
  readonly sign: 1 | -1;
}

/**
 * Currents through both ends of all lines, in the direction row terminals → junctions → column terminals: through a
 * resistance by its voltage, of an ideal source by what its node needs.
 */
function endCurrents(lines: Lines, current: Float64Array) {
  const { count, length, step, resistance, high, low, sign, ends, sources } = lines;
  const first = new Float64Array(count);
  const far = new Float64Array(count);
  const total = new Float64Array(count);
  for (let line = 0; line < count; line++) {
    const g0 = ends[0][line + lines.shift]!;
    const g1 = ends[1][line + lines.shift]!;
    // Whole sums only where they are needed: they pass through all memory.
    if (g0 === 0 && g1 === 0) continue;
    const a = lines.origin + line * lines.pitch;
    const b = a + (length - 1) * step;
    const v = (end: 0 | 1) => sources[end][line + lines.shift]!;
    const whole = length === 1 || resistance === 0;
    let sum = 0;
    if ((g0 !== 0 && g1 !== 0) || whole) {
      for (let k = a; k <= b; k += step) sum += current[k]!;
    }
    const held = (node: number, next: number, other: number): number =>
      whole
        ? sign * sum - other
        : sign * current[node]! + segmentCurrent(1 / resistance, high, low, node, next);
    let i0 = g0 === Infinity ? 0 : terminalCurrent(g0, v(0), high, low, a);
    let i1 = g1 === Infinity ? 0 : terminalCurrent(g1, v(1), high, low, b);
    if (g0 === Infinity) i0 = held(a, a + step, i1);
    if (g1 === Infinity) i1 = held(b, b - step, i0);
    // Adding zero turns -0 into 0.
    first[line] = sign * i0 + 0;
    far[line] = sign * i1 + 0;
    total[line] = g0 !== 0 && g1 !== 0 ? sum : sign * (i0 + i1) + 0;
  }
  return { first, far, total };
}

/**
 * Terminal currents [A].
 * @param current of all junctions [A], padded
 */
export function terminalCurrents(network: Network, x: Potentials, current: Float64Array): Currents {
  const { ends, sources } = network;
  const { m, n, top, left } = network.shape;
  const origin = top * n + left;
  const rows = endCurrents(
    {
      ...{ count: m - top, origin, pitch: n, step: 1, length: n - left, shift: top, sign: 1 },
      resistance: network.rowResistance,
      ends: [ends.left, ends.right],
      sources: [sources.left, sources.right],
      high: x.uh.view,
      low: x.ul.view,
    },
    current,
  );
  const columns = endCurrents(
    {
      ...{ count: n - left, origin, pitch: 1, step: n, length: m - top, shift: left, sign: -1 },
      resistance: network.columnResistance,
      ends: [ends.top, ends.bottom],
      sources: [sources.top, sources.bottom],
      high: x.wh.view,
      low: x.wl.view,
    },
    current,
  );
  return {
    terminalCurrents: {
      left: rows.first,
      right: rows.far,
      top: columns.first,
      bottom: columns.far,
    },
    rowCurrents: rows.total,
    columnCurrents: columns.total,
  };
}

/** Source, junction, wire and driver power [W]. */
export function powers(
  network: Network,
  x: Potentials,
  v: Float64Array,
  current: Float64Array,
  ends: Currents["terminalCurrents"],
): CrossbarSolution["power"] {
  const { m, n, top, left } = network.shape;
  const [uh, ul, wh, wl] = [x.uh.view, x.ul.view, x.wh.view, x.wl.view];
  const gr = network.rowResistance > 0 ? 1 / network.rowResistance : 0;
  const gc = network.columnResistance > 0 ? 1 / network.columnResistance : 0;
  let junction = 0;
  let wire = 0;
  for (let i = top; i < m; i++) {
    let junctionRow = 0;
    let rowWire = 0;
    let columnWire = 0;
    const from = i * n + left;
    const end = i * n + n;
    for (let k = from; k < end; k++) junctionRow += v[k]! * current[k]!;
    for (let k = from + 1; k < end; k++) {
      const d = uh[k - 1]! - uh[k]! + (ul[k - 1]! - ul[k]!);
      rowWire += d * d;
    }
    if (i < m - 1) {
      for (let k = from; k < end; k++) {
        const d = wh[k]! - wh[k + n]! + (wl[k]! - wl[k + n]!);
        columnWire += d * d;
      }
    }
    junction += junctionRow;
    wire += gr * rowWire + gc * columnWire;
  }
  let source = 0;
  let driver = 0;
  for (const side of ["left", "right", "top", "bottom"] as const) {
    const onRows = side === "left" || side === "right";
    const sign = onRows ? 1 : -1;
    const shift = onRows ? top : left;
    for (let k = 0; k < ends[side].length; k++) {
      const i = ends[side][k]!;
      source += sign * network.sources[side][k + shift]! * i;
      if (i !== 0) driver += (i * i) / network.ends[side][k + shift]!;
    }
  }
  return { source, junction, wire, driver };
}

/**
 * The network with its terminals, and the node voltages as unevaluated sums high + low of two doubles. Differences of
 * neighbours, (high - high) + (low - low), are then right to the last digits however small, so that every current is
 * computed to a few units in its own last place: the error of a solution stays that of element values shaken by 1e-16.
 */
import type { Arena, Block } from "./kernels/instance.ts";
import { type Ends, padded, paddingOf } from "./level.ts";
import type { Shape } from "./lines.ts";
import type { CrossbarProblem, SideName, StartVoltages, TerminalSide } from "./problem.ts";

/** Source voltages and conductances per line, padded like the arrays. */
export interface Network {
  readonly shape: Shape;
  readonly rowResistance: number;
  readonly columnResistance: number;
  readonly ends: Ends;
  readonly sources: { readonly [side in SideName]: Float64Array };
}

/** Node voltages [V]: row nodes u, column nodes w, each high + low. */
export interface Potentials {
  readonly uh: Block;
  readonly ul: Block;
  readonly wh: Block;
  readonly wl: Block;
}

export function makePotentials(arena: Arena, shape: Shape): Potentials {
  const array = () => arena.framed(shape.m, shape.n);
  return { uh: array(), ul: array(), wh: array(), wl: array() };
}

function conductances(side: TerminalSide | undefined, count: number): Float64Array {
  const out = new Float64Array(count);
  if (side !== undefined) {
    for (let k = 0; k < count; k++) {
      const r = side.resistance[k]!;
      // A minus before a zero says nothing.
      out[k] = Number.isNaN(r) ? 0 : 1 / Math.abs(r);
    }
  }
  return out;
}

function voltages(side: TerminalSide | undefined, count: number): Float64Array {
  const out = new Float64Array(count);
  if (side !== undefined) {
    for (let k = 0; k < count; k++)
      if (!Number.isNaN(side.resistance[k]!)) out[k] = side.voltage[k]!;
  }
  return out;
}

export function networkOf(problem: CrossbarProblem): Network {
  const { rows, columns, terminals } = problem;
  const top = paddingOf(rows);
  const left = paddingOf(columns);
  return {
    shape: { m: rows + top, n: columns + left, top, left },
    rowResistance: Math.abs(problem.rowResistance),
    columnResistance: Math.abs(problem.columnResistance),
    ends: {
      left: padded(conductances(terminals.left, rows), top),
      right: padded(conductances(terminals.right, rows), top),
      top: padded(conductances(terminals.top, columns), left),
      bottom: padded(conductances(terminals.bottom, columns), left),
    },
    sources: {
      left: padded(voltages(terminals.left, rows), top),
      right: padded(voltages(terminals.right, rows), top),
      top: padded(voltages(terminals.top, columns), left),
      bottom: padded(voltages(terminals.bottom, columns), left),
    },
  };
}

/** The voltage that the terminals of a line give it when nothing flows; NaN when it floats. */
function openVoltage(g0: number, v0: number, g1: number, v1: number): number {
  if (g0 === 0 && g1 === 0) return Number.NaN;
  if (g1 === 0 || v0 === v1 || (g0 === Infinity && g1 !== Infinity)) return v0;
  if (g0 === 0 || (g1 === Infinity && g0 !== Infinity)) return v1;
  if (g0 === Infinity) return (v0 + v1) / 2;
  return (g0 * v0 + g1 * v1) / (g0 + g1);
}

/** Every line at its open-circuit voltage, floating lines between the extremes. */
export function startPotentials(network: Network, x: Potentials): void {
  const { shape, ends, sources } = network;
  const { m, n, top, left } = shape;
  const u = new Float64Array(m);
  const w = new Float64Array(n);
  for (let i = top; i < m; i++) {
    u[i] = openVoltage(ends.left[i]!, sources.left[i]!, ends.right[i]!, sources.right[i]!);
  }
  for (let j = left; j < n; j++) {
    w[j] = openVoltage(ends.top[j]!, sources.top[j]!, ends.bottom[j]!, sources.bottom[j]!);
  }
  let low = Infinity;
  let high = -Infinity;
  for (const list of [u.subarray(top), w.subarray(left)]) {
    for (let k = 0; k < list.length; k++) {
      // A floating line is NaN and passes neither test.
      if (list[k]! < low) low = list[k]!;
      if (list[k]! > high) high = list[k]!;
    }
  }
  const middle = low / 2 + high / 2;
  const start = (v: number) => (Number.isNaN(v) ? middle : v);
  const [uh, ul, wh, wl] = [x.uh.view, x.ul.view, x.wh.view, x.wl.view];
  ul.fill(0);
  wl.fill(0);
  for (let i = 0; i < m; i++) {
    uh.fill(start(u[i]!), i * n, i * n + n);
    for (let j = 0; j < n; j++) wh[i * n + j] = start(w[j]!);
  }
  holdEnds(network, uh, wh);
}

/** The voltages of another solution, and at ideal sources those of this network. */
export function givenPotentials(network: Network, x: Potentials, given: StartVoltages): void {
  const { m, n, top, left } = network.shape;
  const columns = n - left;
  startPotentials(network, x);
  for (let i = top, from = 0; i < m; i++, from += columns) {
    x.uh.view.set(given.rowVoltages.subarray(from, from + columns), i * n + left);
    x.wh.view.set(given.columnVoltages.subarray(from, from + columns), i * n + left);
  }
  holdEnds(network, x.uh.view, x.wh.view);
}

/** Nodes that an ideal source holds. */
function holdEnds({ shape, ends, sources }: Network, uh: Float64Array, wh: Float64Array): void {
  const { m, n, top, left } = shape;
  for (let i = 0; i < m; i++) {
    if (ends.left[i] === Infinity) uh[i * n + left] = sources.left[i]!;
    if (ends.right[i] === Infinity) uh[i * n + n - 1] = sources.right[i]!;
  }
  for (let j = left; j < n; j++) {
    if (ends.top[j] === Infinity) wh[top * n + j] = sources.top[j]!;
    if (ends.bottom[j] === Infinity) wh[(m - 1) * n + j] = sources.bottom[j]!;
  }
}

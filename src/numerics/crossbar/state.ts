/**
 * The network with its terminals, and the node voltages as unevaluated sums high + low of two doubles. Differences of
 * neighbours, (high - high) + (low - low), are then right to the last digits however small, so that every current is
 * computed to a few units in its own last place: the error of a solution stays that of element values shaken by 1e-16.
 */
import type { Ends } from "./level.ts";
import { padded, paddingOf } from "./level.ts";
import type { CrossbarProblem, SideName, TerminalSide } from "./problem.ts";

/** Source voltages and conductances per line; rows are padded on top to a multiple of four. */
export interface Network {
  readonly m: number;
  readonly n: number;
  readonly top: number;
  readonly rowResistance: number;
  readonly columnResistance: number;
  readonly ends: Ends;
  readonly sources: { readonly [side in SideName]: Float64Array };
}

/** Node voltages [V]: row nodes u, column nodes w. */
export interface Potentials {
  readonly uh: Float64Array;
  readonly ul: Float64Array;
  readonly wh: Float64Array;
  readonly wl: Float64Array;
}

function conductances(side: TerminalSide | undefined, count: number): Float64Array {
  const out = new Float64Array(count);
  if (side !== undefined) {
    for (let k = 0; k < count; k++) {
      const r = side.resistance[k]!;
      out[k] = Number.isNaN(r) ? 0 : 1 / r;
    }
  }
  return out;
}

function voltages(side: TerminalSide | undefined, count: number): Float64Array {
  return side === undefined ? new Float64Array(count) : Float64Array.from(side.voltage);
}

export function networkOf(problem: CrossbarProblem): Network {
  const { rows, columns, terminals } = problem;
  const top = paddingOf(rows);
  return {
    m: rows + top,
    n: columns,
    top,
    rowResistance: problem.rowResistance,
    columnResistance: problem.columnResistance,
    ends: {
      left: padded(conductances(terminals.left, rows), top),
      right: padded(conductances(terminals.right, rows), top),
      top: conductances(terminals.top, columns),
      bottom: conductances(terminals.bottom, columns),
    },
    sources: {
      left: padded(voltages(terminals.left, rows), top),
      right: padded(voltages(terminals.right, rows), top),
      top: voltages(terminals.top, columns),
      bottom: voltages(terminals.bottom, columns),
    },
  };
}

/** The voltage that the terminals of a line give it when nothing flows; NaN when it floats. */
function openVoltage(g0: number, v0: number, g1: number, v1: number): number {
  if (g0 === 0 && g1 === 0) return Number.NaN;
  if (g1 === 0 || v0 === v1 || (g0 === Infinity && g1 !== Infinity)) return g0 === 0 ? v1 : v0;
  if (g0 === 0 || (g1 === Infinity && g0 !== Infinity)) return v1;
  if (g0 === Infinity) return (v0 + v1) / 2;
  return (g0 * v0 + g1 * v1) / (g0 + g1);
}

/** Every line at its open-circuit voltage, floating lines between the extremes. */
export function startPotentials(network: Network): Potentials {
  const { m, n, top, ends, sources } = network;
  const u = new Float64Array(m);
  const w = new Float64Array(n);
  let low = Infinity;
  let high = -Infinity;
  const note = (v: number) => {
    if (v < low) low = v;
    if (v > high) high = v;
    return v;
  };
  for (let i = top; i < m; i++) {
    u[i] = note(openVoltage(ends.left[i]!, sources.left[i]!, ends.right[i]!, sources.right[i]!));
  }
  for (let j = 0; j < n; j++) {
    w[j] = note(openVoltage(ends.top[j]!, sources.top[j]!, ends.bottom[j]!, sources.bottom[j]!));
  }
  const middle = low === high ? low : low / 2 + high / 2;
  const uh = new Float64Array(m * n);
  const wh = new Float64Array(m * n);
  for (let i = top; i < m; i++) {
    uh.fill(Number.isNaN(u[i]!) ? middle : u[i]!, i * n, i * n + n);
    if (ends.left[i] === Infinity) uh[i * n] = sources.left[i]!;
    if (ends.right[i] === Infinity) uh[i * n + n - 1] = sources.right[i]!;
    for (let j = 0; j < n; j++) wh[i * n + j] = Number.isNaN(w[j]!) ? middle : w[j]!;
  }
  for (let j = 0; j < n; j++) {
    if (ends.top[j] === Infinity) wh[top * n + j] = sources.top[j]!;
    if (ends.bottom[j] === Infinity) wh[(m - 1) * n + j] = sources.bottom[j]!;
  }
  return { uh, ul: new Float64Array(m * n), wh, wl: new Float64Array(m * n) };
}

/** high + low += factor * step, without loss. */
export function advance(
  high: Float64Array,
  low: Float64Array,
  step: Float64Array,
  factor: number,
): void {
  for (let k = 0; k < high.length; k++) {
    const a = high[k]!;
    const b = factor * step[k]!;
    const sum = a + b;
    const back = sum - a;
    const rest = low[k]! + (a - (sum - back) + (b - back));
    const h = sum + rest;
    high[k] = h;
    low[k] = rest - (h - sum);
  }
}

/** Kirchhoff's current law at every node, from currents that are each right to their own last digits. */
import type { Network, Potentials } from "./state.ts";

/** Current that is missing at the row and column nodes [A]; 0 at nodes that an ideal source holds. */
export interface Residual {
  readonly u: Float64Array;
  readonly w: Float64Array;
}

/** Junction voltages v of all nodes [V]. */
export function junctionVoltages(x: Potentials, v: Float64Array): void {
  const { uh, ul, wh, wl } = x;
  for (let k = 0; k < v.length; k++) v[k] = uh[k]! - wh[k]! + (ul[k]! - wl[k]!);
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

/**
 * Fills the residual for given junction currents.
 * @param current from row to column at every junction [A]
 * @param floor currents that count as nothing [A]
 * @returns the largest residual of a node (of a line, where its wire has no resistance) over the sum of the magnitudes
 *   of the currents there
 */
export function kirchhoff(
  network: Network,
  x: Potentials,
  current: Float64Array,
  into: Residual,
  floor: number,
): number {
  const rows = rowResiduals(network, x, current, into.u, floor);
  return Math.max(rows, columnResiduals(network, x, current, into.w, floor));
}

function rowResiduals(
  network: Network,
  x: Potentials,
  current: Float64Array,
  out: Float64Array,
  floor: number,
): number {
  const { m, n, top, ends, sources, rowResistance: r } = network;
  const { uh, ul } = x;
  const g = r > 0 ? 1 / r : 0;
  let worst = 0;
  for (let i = top; i < m; i++) {
    const o = i * n;
    const e = o + n - 1;
    const gl = ends.left[i]!;
    const gr = ends.right[i]!;
    const heldLeft = gl === Infinity;
    const heldRight = gr === Infinity;
    const left = heldLeft ? 0 : terminalCurrent(gl, sources.left[i]!, uh, ul, o);
    const right = heldRight ? 0 : terminalCurrent(gr, sources.right[i]!, uh, ul, e);
    let flow = left;
    let size = Math.abs(left) + floor;
    let sum = 0;
    let lineSize = size + Math.abs(right);
    for (let k = o; k < e; k++) {
      const down = current[k]!;
      const next = g * (uh[k]! - uh[k + 1]! + (ul[k]! - ul[k + 1]!));
      const missing = flow - next - down;
      const ratio = Math.abs(missing) / (size + Math.abs(next) + Math.abs(down));
      if (ratio > worst && g > 0 && !(heldLeft && k === o)) worst = ratio;
      out[k] = missing;
      sum += missing;
      lineSize += Math.abs(down);
      flow = next;
      size = Math.abs(next) + floor;
    }
    const down = current[e]!;
    out[e] = flow + right - down;
    if (heldLeft && g > 0) out[o] = 0;
    if (heldRight && g > 0) out[e] = 0;
    if (g > 0) {
      const ratio = Math.abs(out[e]!) / (size + Math.abs(right) + Math.abs(down));
      if (ratio > worst && !(heldLeft && n === 1)) worst = ratio;
    } else if (heldLeft || heldRight) out.fill(0, o, e + 1);
    else worst = Math.max(worst, Math.abs(sum + out[e]!) / (lineSize + Math.abs(down)));
  }
  return worst;
}

function columnResiduals(
  network: Network,
  x: Potentials,
  current: Float64Array,
  out: Float64Array,
  floor: number,
): number {
  const { m, n, top, ends, sources, columnResistance: r } = network;
  const { wh, wl } = x;
  const g = r > 0 ? 1 / r : 0;
  const flow = new Float64Array(n);
  const sum = new Float64Array(n);
  const size = new Float64Array(n).fill(floor);
  const bottom = (m - 1) * n;
  for (let j = 0; j < n; j++) {
    if (ends.top[j] === Infinity) continue;
    flow[j] = terminalCurrent(ends.top[j]!, sources.top[j]!, wh, wl, top * n + j);
    size[j]! += Math.abs(flow[j]!);
  }
  let worst = 0;
  for (let i = top; i < m; i++) {
    const o = i * n;
    const end = i === m - 1;
    for (let j = 0, k = o; j < n; j++, k++) {
      const down = current[k]!;
      const next = end ? 0 : g * (wh[k]! - wh[k + n]! + (wl[k]! - wl[k + n]!));
      const missing = flow[j]! - next + down;
      const here = size[j]! + Math.abs(next) + Math.abs(down);
      out[k] = missing;
      if (g > 0 && !end) {
        flow[j] = next;
        size[j] = Math.abs(next) + floor;
        const ratio = Math.abs(missing) / here;
        if (ratio > worst && !(i === top && ends.top[j] === Infinity)) worst = ratio;
      } else {
        flow[j] = 0;
        sum[j]! += missing;
        size[j] = here;
      }
    }
  }
  for (let j = 0; j < n; j++) {
    const heldTop = ends.top[j] === Infinity;
    const heldBottom = ends.bottom[j] === Infinity;
    if (g > 0 && heldTop) out[top * n + j] = 0;
    if (g > 0 && heldBottom) out[bottom + j] = 0;
    if (g === 0 && (heldTop || heldBottom)) {
      for (let k = top * n + j; k <= bottom + j; k += n) out[k] = 0;
      continue;
    }
    if (heldBottom || (heldTop && m - top === 1)) continue;
    const end = terminalCurrent(ends.bottom[j]!, sources.bottom[j]!, wh, wl, bottom + j);
    out[bottom + j]! += end;
    worst = Math.max(worst, Math.abs(sum[j]! + end) / (size[j]! + Math.abs(end)));
  }
  return worst;
}

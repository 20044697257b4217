/**
 * What the last digits of currents do to a solution. Every current is right to its own last digits; what is rounded off
 * at one node is missing there and moves the potentials everywhere. The inverse of the network has no negative element,
 * so the steps that rounding errors of one sign would make bound those of any. A node whose own currents are less than
 * such steps stir up in the conductors around it, a floating line between equal voltages for one, can't be balanced to
 * its own last digits by any arithmetic of doubles.
 */
import type { NodeValues } from "./direct.ts";
import { segmentCurrent, terminalCurrent } from "./residual.ts";
import type { Network, Potentials } from "./state.ts";

/** Last digits of a current: a sum of some products, each within half a unit of its 53rd bit. */
const DIGITS = 2 ** -50;

/** Junction voltages [V], currents [A] and slopes [S]. */
export interface Junctions {
  readonly v: Float64Array;
  readonly current: Float64Array;
  readonly slope: Float64Array;
}

type Lines = readonly [near: Float64Array, far: Float64Array];

/** One direction of wires: where its nodes lie, and what stands at its ends. */
interface Direction {
  readonly lines: number;
  readonly from: number;
  readonly first: number;
  readonly pitch: number;
  readonly step: number;
  readonly length: number;
  /** Conductance of a segment [S]; infinite without resistance. */
  readonly segment: number;
  readonly ends: Lines;
  readonly sources: Lines;
  readonly high: Float64Array;
  readonly low: Float64Array;
}

/** Sum of the magnitudes of the currents at every node [A]. */
export function sizesOf(network: Network, x: Potentials, { current }: Junctions): NodeValues {
  return eachDirection(network, x, (direction, out) => {
    const { high, low, step } = direction;
    eachNode(direction, (k, { before, after, near, far }) => {
      let size = Math.abs(current[k]!);
      if (before > 0) size += Math.abs(segmentCurrent(before, high, low, k, k - step));
      if (after > 0) size += Math.abs(segmentCurrent(after, high, low, k, k + step));
      if (near !== undefined) size += Math.abs(terminalCurrent(near.g, near.v, high, low, k));
      if (far !== undefined) size += Math.abs(terminalCurrent(far.g, far.v, high, low, k));
      out[k] = size;
    });
  });
}

/** What may be rounded off at every node [A]; nothing where an ideal source holds it. */
export function roundedOff(
  network: Network,
  x: Potentials,
  junctions: Junctions,
  sizes: NodeValues,
): NodeValues {
  const { v, slope } = junctions;
  return eachDirection(network, x, (direction, out, name) => {
    eachNode(direction, (k, { held }) => {
      // A junction's voltage is rounded to one double before its law is evaluated.
      if (!held) out[k] = DIGITS * (sizes[name][k]! + slope[k]! * Math.abs(v[k]!));
    });
  });
}

/** Currents that steps of the potentials can stir up at every node [A]. */
export function stirred(
  network: Network,
  x: Potentials,
  { slope }: Junctions,
  steps: NodeValues,
): NodeValues {
  return eachDirection(network, x, (direction, out, name) => {
    const [own, other] = name === "u" ? [steps.u, steps.w] : [steps.w, steps.u];
    eachNode(direction, (k, { before, after, near, far }) => {
      const at = Math.abs(own[k]!);
      let sum = slope[k]! * (at + Math.abs(other[k]!));
      if (before > 0) sum += before * (at + Math.abs(own[k - direction.step]!));
      if (after > 0) sum += after * (at + Math.abs(own[k + direction.step]!));
      if (near !== undefined) sum += near.g * at;
      if (far !== undefined) sum += far.g * at;
      out[k] = sum;
    });
  });
}

/**
 * The largest part of a node's currents that is missing, where what rounding stirs up counts as nothing.
 *
 * @param missing at every node [A]
 * @param nothing currents that count as nothing at any node [A]
 * @param error that a node may have whose currents are no larger than what is stirred up
 */
export function largestError(
  network: Network,
  x: Potentials,
  missing: NodeValues,
  sizes: NodeValues,
  stir: NodeValues,
  nothing: number,
  error: number,
): number {
  let worst = 0;
  const note = (absent: number, size: number) => {
    worst = Math.max(worst, Math.abs(absent) / (size + nothing));
  };
  eachDirection(network, x, (direction, _, name) => {
    const whole = direction.segment === Infinity;
    let [absent, size, anyHeld] = [0, 0, false];
    eachNode(direction, (k, { held, last }) => {
      const own = sizes[name][k]! + stir[name][k]! / error;
      if (!whole) {
        if (!held) note(missing[name][k]!, own);
        return;
      }
      absent += missing[name][k]!;
      size += own;
      anyHeld ||= held;
      if (!last) return;
      if (!anyHeld) note(absent, size);
      [absent, size, anyHeld] = [0, 0, false];
    });
  });
  return worst;
}

interface End {
  readonly g: number;
  readonly v: number;
}

/** Conductances of the segments on both sides of a node, and its terminals that are no ideal sources. */
interface Around {
  readonly before: number;
  readonly after: number;
  readonly near: End | undefined;
  readonly far: End | undefined;
  readonly held: boolean;
  /** Whether it is the last node of its line. */
  readonly last: boolean;
}

function eachNode(direction: Direction, visit: (k: number, around: Around) => void): void {
  const { lines, from, first, pitch, step, length, segment, ends, sources } = direction;
  const inner = segment === Infinity ? 0 : segment;
  for (let line = from, a = first; line < lines; line++, a += pitch) {
    const [near, far] = [0, 1].map((side) => ({
      g: ends[side]![line]!,
      v: sources[side]![line]!,
    })) as [End, End];
    const wholeHeld = segment === Infinity && (near.g === Infinity || far.g === Infinity);
    for (let at = 0, k = a; at < length; at++, k += step) {
      const [isFirst, last] = [at === 0, at === length - 1];
      const held = wholeHeld || (isFirst && near.g === Infinity) || (last && far.g === Infinity);
      visit(k, {
        before: isFirst ? 0 : inner,
        after: last ? 0 : inner,
        near: isFirst && near.g < Infinity ? near : undefined,
        far: last && far.g < Infinity ? far : undefined,
        held,
        last,
      });
    }
  }
}

function eachDirection(
  network: Network,
  x: Potentials,
  fill: (direction: Direction, out: Float64Array, name: "u" | "w") => void,
): NodeValues {
  const { shape, ends, sources, rowResistance, columnResistance } = network;
  const { m, n, top, left } = shape;
  const out = { u: new Float64Array(m * n), w: new Float64Array(m * n) };
  const first = top * n + left;
  fill(
    {
      ...{ lines: m, from: top, first, pitch: n, step: 1, length: n - left },
      segment: 1 / rowResistance,
      ends: [ends.left, ends.right],
      sources: [sources.left, sources.right],
      high: x.uh.view,
      low: x.ul.view,
    },
    out.u,
    "u",
  );
  fill(
    {
      ...{ lines: n, from: left, first, pitch: 1, step: n, length: m - top },
      segment: 1 / columnResistance,
      ends: [ends.top, ends.bottom],
      sources: [sources.top, sources.bottom],
      high: x.wh.view,
      low: x.wl.view,
    },
    out.w,
    "w",
  );
  return out;
}

import { exp, log } from "../../numerics/special/elementary.ts";
import type { Parameter } from "../../quantities/parameter.ts";

/** Where a quantity takes a wanted value as one parameter moves. */
export interface Crossing {
  readonly parameter: Parameter;
  /** SI; undefined where no value between `from` and `to` does it. */
  readonly value?: number;
  /** Whether the value lies in the parameter's own range. */
  readonly inRange: boolean;
  /** What was searched, SI. */
  readonly from: number;
  readonly to: number;
}

/** Where a positive parameter is moved to, SI. */
export interface Range {
  readonly from: number;
  readonly to: number;
}

const STEPS = 96;
const HALVINGS = 60;
/** How far beyond its range a parameter is moved. */
const REACH = 100;

/**
 * Searches the value of one parameter at which `f` passes `wanted`, the nearest to the nominal one:
 * a grid over the parameter's range and `REACH` times beyond, then bisection. Where `f` jumps, as a
 * rounded number of tiles makes it, the value is that of the jump.
 *
 * @param f what is compared, of the parameter in SI; NaN, where it cannot be computed, is no crossing
 * @param range of a positive parameter; `REACH` times beyond its own range unless given
 */
export function crossingOf(
  parameter: Parameter,
  f: (value: number) => number,
  wanted: number,
  range: Range = { from: parameter.low / REACH, to: parameter.high * REACH },
): Crossing {
  const points = searched(parameter, range);
  const above = points.map((x) => sideOf(f, x, wanted));
  const found = points.flatMap((x, i) => {
    const [here, next] = [above[i], above[i + 1]];
    return here !== undefined && next !== undefined && here !== next ? [[x, points[i + 1]!]] : [];
  });
  const [from, to] = [points[0]!, points.at(-1)!];
  const nearest = found.sort((a, b) => distance(a, parameter) - distance(b, parameter))[0];
  if (nearest === undefined) return { parameter, inRange: false, from, to };
  const value = bisected(f, wanted, nearest[0]!, nearest[1]!, isWhole(parameter));
  const inRange = value >= parameter.low && value <= parameter.high;
  return { parameter, value, inRange, from, to };
}

function sideOf(f: (x: number) => number, x: number, wanted: number): boolean | undefined {
  const value = f(x);
  return Number.isFinite(value) ? value >= wanted : undefined;
}

/** Counts that the user chooses are whole. */
function isWhole({ unit, value, key }: Parameter): boolean {
  return unit === "1" && Number.isInteger(value) && key.startsWith("choice/");
}

function searched(parameter: Parameter, range: Range): number[] {
  const { value, low, high } = parameter;
  if (!(low > 0)) {
    const half = Math.max(high - low, Math.abs(value)) * 2 || 1;
    return Array.from({ length: STEPS + 1 }, (_, i) => value + half * ((2 * i) / STEPS - 1));
  }
  const from = log(range.from);
  const to = log(range.to);
  const points = Array.from({ length: STEPS + 1 }, (_, i) => {
    const x = exp(from + ((to - from) * i) / STEPS);
    return isWhole(parameter) ? Math.max(1, Math.round(x)) : x;
  });
  return [...new Set([...points, value])].sort((a, b) => a - b);
}

function distance(pair: readonly number[], { value, low }: Parameter): number {
  const of = (x: number) => (low > 0 ? Math.abs(log(x / value)) : Math.abs(x - value));
  return Math.min(...pair.map(of));
}

function bisected(
  f: (x: number) => number,
  wanted: number,
  first: number,
  last: number,
  whole: boolean,
): number {
  let [low, high] = [first, last];
  const start = f(low) >= wanted;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = low > 0 ? Math.sqrt(low * high) : (low + high) / 2;
    const x = whole ? Math.round(middle) : middle;
    if (x <= low || x >= high) break;
    if (f(x) >= wanted === start) low = x;
    else high = x;
  }
  return high;
}

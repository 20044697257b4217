/**
 * Bounds of formulas over a box of what they read, by interval arithmetic.
 *
 * The bounds hold for the numbers that the compiled program gives, not only for exact arithmetic:
 * additions, products, quotients, roots and roundings to whole numbers are monotone in each
 * argument also when they are rounded, so that rounded ends enclose rounded results. Functions of
 * the library of which that is not known are widened by a few units in the last place.
 */

import { pow } from "../numerics/special/elementary.ts";
import { IMPLEMENTATIONS } from "./functions.ts";
import type { Condition } from "./reader.ts";
import type { Comparison, FunctionName, Tree } from "./tree.ts";

/** From `low` to `high`, both included; of all numbers where nothing is known. */
export interface Bounds {
  readonly low: number;
  readonly high: number;
}

const ANYTHING: Bounds = { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY };

/** Whether a function rises, and its rounding with it. */
export function isExactlyRising(name: FunctionName): boolean {
  return EXACT.has(name);
}

/** What a quantity never goes below, from the bounds of quantities before it. */
export type Floor = (lookUp: (name: string) => Bounds) => number;

/** Relative error that is granted to functions whose rounding need not be monotone. */
const SLACK = 1e-14;

const RISING: ReadonlySet<FunctionName> = new Set(
  "ceil floor round sqrt cbrt exp expm1 log log1p log2 log10 sinh tanh asinh acosh normal_quantile".split(
    " ",
  ) as FunctionName[],
);
const FALLING: ReadonlySet<FunctionName> = new Set(["erfc", "normal_tail"]);
const EXACT: ReadonlySet<FunctionName> = new Set(["ceil", "floor", "round", "sqrt"]);

/** Bounds of the value of a tree. */
export function boundTree(tree: Tree, lookUp: (name: string) => Bounds): Bounds {
  const of = (part: Tree): Bounds => boundTree(part, lookUp);
  switch (tree.kind) {
    case "number":
      return { low: tree.value, high: tree.value };
    case "symbol":
      return lookUp(tree.name);
    case "negate": {
      const { low, high } = of(tree.of);
      return { low: -high, high: -low };
    }
    case "binary":
      return boundsOfBinary(tree.operator, of(tree.left), of(tree.right));
    case "call":
      return boundsOfCall(tree.name, tree.of.map(of));
    case "choose": {
      const holds = boundComparison(tree.when, lookUp);
      if (holds !== undefined) return of(holds ? tree.chosen : tree.otherwise);
      return hull(of(tree.chosen), of(tree.otherwise));
    }
  }
}

/** Whether a comparison holds everywhere (true), nowhere (false), or it depends. */
export function boundComparison(
  { operator, left, right }: Comparison,
  lookUp: (name: string) => Bounds,
): boolean | undefined {
  return certainComparison(operator, boundTree(left, lookUp), boundTree(right, lookUp));
}

/** The same of two sides whose bounds are known. */
export function certainComparison(
  operator: Comparison["operator"],
  l: Bounds,
  r: Bounds,
): boolean | undefined {
  const certain = (always: boolean, never: boolean): boolean | undefined =>
    always ? true : never ? false : undefined;
  switch (operator) {
    case "<":
      return certain(l.high < r.low, l.low >= r.high);
    case "<=":
      return certain(l.high <= r.low, l.low > r.high);
    case ">":
      return certain(l.low > r.high, l.high <= r.low);
    case ">=":
      return certain(l.low >= r.high, l.high < r.low);
    default: {
      const apart = l.high < r.low || l.low > r.high;
      const same = l.low === l.high && r.low === r.high && l.low === r.low;
      const equal = certain(same, apart);
      return operator === "==" || equal === undefined ? equal : !equal;
    }
  }
}

export function hull(a: Bounds, b: Bounds): Bounds {
  return { low: Math.min(a.low, b.low), high: Math.max(a.high, b.high) };
}

function checked(low: number, high: number): Bounds {
  return Number.isNaN(low) || Number.isNaN(high) ? ANYTHING : { low, high };
}

/** Infinite ends stay: infinity less a share of itself would be no number. */
function widened({ low, high }: Bounds): Bounds {
  const slack = (end: number): number => (Number.isFinite(end) ? SLACK * Math.abs(end) : 0);
  return { low: low - slack(low), high: high + slack(high) };
}

/** Bounds of an operator's value. */
export function boundsOfBinary(
  operator: "+" | "-" | "*" | "/" | "^",
  a: Bounds,
  b: Bounds,
): Bounds {
  switch (operator) {
    case "+":
      return checked(a.low + b.low, a.high + b.high);
    case "-":
      return checked(a.low - b.high, a.high - b.low);
    case "*":
      return product(a, b);
    case "/":
      if (b.low <= 0 && b.high >= 0) return quotientToZero(a, b);
      return corners(a, b, (x, y) => x / y);
    case "^":
      return power(a, b);
  }
}

/** Where the divisor reaches zero from one side only, and the other does not, one end is known. */
function quotientToZero(a: Bounds, b: Bounds): Bounds {
  const above = a.low > 0;
  if (!(above || a.high < 0) || (b.low < 0 && b.high > 0) || b.low === b.high) return ANYTHING;
  const rising = b.low === 0;
  const least = (above ? a.low : a.high) / (rising ? b.high : b.low);
  return above === rising
    ? { low: least, high: ANYTHING.high }
    : { low: ANYTHING.low, high: least };
}

function product(a: Bounds, b: Bounds): Bounds {
  if (a.low >= 0 && b.low >= 0) return checked(a.low * b.low, a.high * b.high);
  return corners(a, b, (x, y) => (x === 0 || y === 0 ? 0 : x * y));
}

function corners(a: Bounds, b: Bounds, f: (x: number, y: number) => number): Bounds {
  const values = [f(a.low, b.low), f(a.low, b.high), f(a.high, b.low), f(a.high, b.high)];
  return checked(Math.min(...values), Math.max(...values));
}

/** Monotone in each argument where the base is positive: the ends are at corners. */
function power(a: Bounds, b: Bounds): Bounds {
  if (b.low === b.high && (b.low === 2 || b.low === 3) && a.low >= 0) {
    const raise = (x: number): number => (b.low === 2 ? x * x : x * x * x);
    return checked(raise(a.low), raise(a.high));
  }
  if (a.low > 0 || (a.low === 0 && b.low > 0)) return widened(corners(a, b, pow));
  const { low: exponent } = b;
  if (b.low !== b.high || !Number.isInteger(exponent) || exponent < 0) return ANYTHING;
  const ends = [pow(a.low, exponent), pow(a.high, exponent)];
  const even = exponent > 0 && exponent % 2 === 0;
  const low = even && a.low < 0 && a.high > 0 ? 0 : Math.min(...ends);
  return widened(checked(low, Math.max(...ends)));
}

/** Bounds of a function's value. */
export function boundsOfCall(name: FunctionName, of: readonly Bounds[]): Bounds {
  const f = IMPLEMENTATIONS[name];
  if (name === "min" || name === "max") {
    return checked(f(...of.map(({ low }) => low)), f(...of.map(({ high }) => high)));
  }
  const [{ low, high }] = of as [Bounds];
  if (name === "abs") {
    const ends = [Math.abs(low), Math.abs(high)];
    return checked(low < 0 && high > 0 ? 0 : Math.min(...ends), Math.max(...ends));
  }
  if (of.length > 1) return ANYTHING;
  if (name === "cosh") {
    const { low: least, high: most } = boundsOfCall("abs", of);
    return widened(checked(f(least), f(most)));
  }
  if (RISING.has(name)) {
    const ends = checked(f(low), f(high));
    return EXACT.has(name) ? ends : widened(ends);
  }
  return FALLING.has(name) ? widened(checked(f(high), f(low))) : ANYTHING;
}

/** Whether a condition holds everywhere (true), nowhere (false), or it depends. */
export function boundCondition(
  condition: Condition,
  lookUp: (name: string) => Bounds,
): boolean | undefined {
  switch (condition.kind) {
    case "compare":
      return boundComparison(condition.comparison, lookUp);
    case "not": {
      const inner = boundCondition(condition.of, lookUp);
      return inner === undefined ? undefined : !inner;
    }
    default: {
      const sides = [condition.left, condition.right].map((one) => boundCondition(one, lookUp));
      // `and` is decided by a side that fails, `or` by one that holds.
      const deciding = condition.kind === "or";
      if (sides.includes(deciding)) return deciding;
      return sides.includes(undefined) ? undefined : !deciding;
    }
  }
}

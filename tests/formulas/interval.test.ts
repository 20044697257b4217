/** Bounds by intervals against all values on grids of points: none is outside, and the ends are values. */
import { describe, expect, test } from "vitest";
import { IMPLEMENTATIONS } from "../../src/formulas/functions.ts";
import { parseExpression, parseFormula } from "../../src/formulas/index.ts";
import {
  type Bounds,
  boundComparison,
  boundCondition,
  boundsOfBinary,
  boundsOfCall,
  boundTree,
  hull,
} from "../../src/formulas/interval.ts";
import type { Condition } from "../../src/formulas/reader.ts";
import { FUNCTIONS, type FunctionName, type Tree } from "../../src/formulas/tree.ts";

const ANYTHING = { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY };
const ENDS = [-3, -2, -0.5, 0, 0.5, 2, 3];
const BOXES: Bounds[] = ENDS.flatMap((low, i) => ENDS.slice(i).map((high) => ({ low, high })));
const box = (low: number, high: number): Bounds => ({ low, high });

/** Points of a box: its ends, zero where it holds it, and others. */
function pointsOf({ low, high }: Bounds): number[] {
  const between = [0.1, 0.37, 0.5, 0.9].map((share) => low + share * (high - low));
  return [...new Set([low, high, ...(low < 0 && high > 0 ? [0] : []), ...between])];
}

function hullOf(values: readonly number[]): Bounds {
  return { low: Math.min(...values), high: Math.max(...values) };
}

function valuesOf(a: Bounds, b: Bounds, f: (x: number, y: number) => number): number[] {
  return pointsOf(a).flatMap((x) => pointsOf(b).map((y) => f(x, y)));
}

/** The same numbers; zeros of either sign are one number. */
function expectSame(bounds: Bounds, expected: Bounds, what: string): void {
  expect([bounds.low + 0, bounds.high + 0], what).toEqual([expected.low + 0, expected.high + 0]);
}

/** Holds all values, and is wider by more than rounding and less than 3e-14 of its ends. */
function expectBarely(bounds: Bounds, expected: Bounds, what: string): void {
  for (const [outer, inner] of [
    [-bounds.low, -expected.low],
    [bounds.high, expected.high],
  ] as const) {
    if (inner === 0 || !Number.isFinite(inner)) expect(outer + 0, what).toBe(inner + 0);
    else {
      const wider = (outer - inner) / Math.abs(inner);
      expect(wider, what).toBeGreaterThan(2e-15);
      expect(wider, what).toBeLessThan(3e-14);
    }
  }
}

describe("operators over all pairs of boxes about zero", () => {
  test.each([
    ["+", (x: number, y: number) => x + y],
    ["-", (x: number, y: number) => x - y],
    ["*", (x: number, y: number) => x * y],
  ] as const)("%s has the least and the largest value as its ends", (operator, f) => {
    for (const a of BOXES) {
      for (const b of BOXES) {
        const what = JSON.stringify([a, operator, b]);
        expectSame(boundsOfBinary(operator, a, b), hullOf(valuesOf(a, b, f)), what);
      }
    }
  });

  test("/ has them where the divisor has no zero, and all numbers above or below where it ends at zero", () => {
    for (const a of BOXES) {
      for (const b of BOXES) {
        const what = JSON.stringify([a, "/", b]);
        const bounds = boundsOfBinary("/", a, b);
        const values = valuesOf(a, b, (x, y) => x / y);
        if (b.low > 0 || b.high < 0) expectSame(bounds, hullOf(values), what);
        else if ((a.low <= 0 && a.high >= 0) || (b.low < 0 && b.high > 0) || b.low === b.high) {
          expect(bounds, what).toEqual(ANYTHING);
        } else {
          // The one-sided end is the least in size; towards zero the quotient has no bound.
          const finite = values.filter(Number.isFinite);
          const ends = hullOf(finite);
          const upwards = a.low > 0 === (b.low === 0);
          expectSame(
            bounds,
            upwards ? box(ends.low, ANYTHING.high) : box(ANYTHING.low, ends.high),
            what,
          );
        }
      }
    }
  });

  test("^ is exact for squares and cubes of what is not negative, and wider by rounding elsewhere", () => {
    for (const a of BOXES.filter(({ low }) => low >= 0)) {
      expect(boundsOfBinary("^", a, box(2, 2))).toEqual(box(a.low ** 2, a.high ** 2));
      expect(boundsOfBinary("^", a, box(3, 3))).toEqual(box(a.low ** 3, a.high ** 3));
      for (const b of BOXES) {
        if (b.low === b.high && b.low >= 2) continue;
        const what = JSON.stringify([a, "^", b]);
        const bounds = boundsOfBinary("^", a, b);
        if (a.low > 0 || b.low > 0) expectBarely(bounds, hullOf(valuesOf(a, b, Math.pow)), what);
        // 0^0 is 1 and 0 to a negative power has no bound.
        else if (b.low !== b.high || b.low !== 0) expect(bounds, what).toEqual(ANYTHING);
      }
    }
  });

  test("^ of what may be negative is known for whole exponents that are not negative", () => {
    for (const a of BOXES.filter(({ low }) => low < 0)) {
      for (const exponent of [1, 2, 3, 4, 5]) {
        const values = pointsOf(a).map((x) => x ** exponent);
        const bounds = boundsOfBinary("^", a, box(exponent, exponent));
        expectBarely(bounds, hullOf(values), JSON.stringify([a, exponent]));
      }
      expectBarely(boundsOfBinary("^", a, box(0, 0)), box(1, 1), JSON.stringify(a));
      for (const unknown of [box(-2, -2), box(0.5, 0.5), box(2, 3), box(-1, 0)]) {
        expect(boundsOfBinary("^", a, unknown)).toEqual(ANYTHING);
      }
    }
  });

  test("ends that have no value leave everything possible", () => {
    const { low, high } = ANYTHING;
    expect(boundsOfBinary("+", box(low, 1), box(1, high))).toEqual(ANYTHING);
    expect(boundsOfBinary("-", box(1, high), box(1, high))).toEqual(ANYTHING);
    expect(boundsOfBinary("+", box(1, high), box(1, high))).toEqual(box(2, high));
    expect(boundsOfBinary("-", box(1, high), box(1, 2))).toEqual(box(-1, high));
    expect(boundsOfBinary("/", box(1, high), box(1, high))).toEqual(ANYTHING);
    // Nothing times anything is nothing, as for every number in the box.
    expectSame(boundsOfBinary("*", box(-1, 0), ANYTHING), ANYTHING, "one side of zero");
    expectSame(boundsOfBinary("*", box(0, 0), ANYTHING), box(0, 0), "zero");
    expectSame(boundsOfBinary("*", ANYTHING, box(0, 0)), box(0, 0), "zero");
  });
});

describe("functions", () => {
  const FALLING: readonly FunctionName[] = ["erfc", "normal_tail"];
  const EXACT: readonly FunctionName[] = ["ceil", "floor", "round", "sqrt"];
  const UNKNOWN: readonly FunctionName[] = ["gamma", "binomial_tail", "poisson_tail"];
  const monotone = FUNCTIONS.filter((name) => !["min", "max", "abs", "cosh"].includes(name))
    .filter((name) => !UNKNOWN.includes(name))
    .map((name) => [name] as const);

  test.each(monotone)("%s has its values at the ends as its ends", (name) => {
    const f = IMPLEMENTATIONS[name];
    let compared = 0;
    for (const low of [-1.3, -0.4, 0, 0.2, 0.7, 1, 2.6]) {
      for (const high of [-0.3, 0.3, 0.8, 1.1, 2.9]) {
        if (high < low) continue;
        const bounds = boundsOfCall(name, [box(low, high)]);
        const ends = FALLING.includes(name) ? [f(high), f(low)] : [f(low), f(high)];
        const what = `${name} of ${low} to ${high}`;
        if (ends.some(Number.isNaN)) expect(bounds, what).toEqual(ANYTHING);
        else {
          const expected = box(ends[0]!, ends[1]!);
          if (EXACT.includes(name)) expect(bounds, what).toEqual(expected);
          else expectBarely(bounds, expected, what);
          compared++;
        }
      }
    }
    expect(compared).toBeGreaterThan(2);
  });

  test("abs and cosh have their least value at zero where the box holds it", () => {
    for (const a of BOXES) {
      expectSame(boundsOfCall("abs", [a]), hullOf(pointsOf(a).map(Math.abs)), JSON.stringify(a));
      expectBarely(
        boundsOfCall("cosh", [a]),
        hullOf(pointsOf(a).map(Math.cosh)),
        JSON.stringify(a),
      );
    }
  });

  test("min and max of several are those of the ends", () => {
    const three = [box(-2, 3), box(0, 1), box(-1, 7)];
    expect(boundsOfCall("min", three)).toEqual(box(-2, 1));
    expect(boundsOfCall("max", three)).toEqual(box(0, 7));
    expect(boundsOfCall("max", [box(Number.NaN, 1), box(0, 1)])).toEqual(ANYTHING);
  });

  test("ends that overflow stay infinite, and are wider by nothing", () => {
    const { low, high } = ANYTHING;
    expect(boundsOfCall("exp", [box(1000, 2000)])).toEqual(box(high, high));
    expect(boundsOfCall("log", [box(0, 0)])).toEqual(box(low, low));
    expect(boundsOfBinary("^", box(10, 10), box(400, 500))).toEqual(box(high, high));
  });

  test("of which nothing is known may be anything", () => {
    for (const name of UNKNOWN) {
      const of = Array(name === "gamma" ? 1 : name === "poisson_tail" ? 2 : 3).fill(box(1, 2));
      expect(boundsOfCall(name, of)).toEqual(ANYTHING);
    }
  });
});

describe("comparisons over all pairs of boxes", () => {
  const HOLDS = {
    "<": (x: number, y: number) => x < y,
    "<=": (x: number, y: number) => x <= y,
    ">": (x: number, y: number) => x > y,
    ">=": (x: number, y: number) => x >= y,
    "==": (x: number, y: number) => x === y,
    "!=": (x: number, y: number) => x !== y,
  } as const;
  const left = { kind: "symbol", name: "left" } as const;
  const right = { kind: "symbol", name: "right" } as const;
  const steps = [0, 1, 2, 3];
  const boxes = steps.flatMap((low, i) => steps.slice(i).map((high) => box(low, high)));

  test.each(Object.keys(HOLDS) as (keyof typeof HOLDS)[])("%s", (operator) => {
    for (const a of boxes) {
      for (const b of boxes) {
        const inside = ({ low, high }: Bounds) =>
          [0, 0.5, 1, 1.5, 2, 2.5, 3].filter((x) => x >= low && x <= high);
        const all = inside(a).flatMap((x) => inside(b).map((y) => HOLDS[operator](x, y)));
        const expected = all.every(Boolean) ? true : all.some(Boolean) ? undefined : false;
        const found = boundComparison({ operator, left, right }, (name) =>
          name === "left" ? a : b,
        );
        expect(found, JSON.stringify([a, operator, b])).toBe(expected);
      }
    }
  });

  test("and, or and not of them follow the logic of three values", () => {
    // x is 0 to 1: x < 2 holds, x > 2 does not, x < 0.5 depends.
    const texts = new Map([
      [true, "x < 2"],
      [false, "x > 2"],
      [undefined, "x < 0.5"],
    ]);
    const decided = (text: string) => {
      const { body } = parseExpression(text, "condition");
      return boundCondition(body as Condition, () => box(0, 1));
    };
    for (const [p, left] of texts) {
      expect(decided(left)).toBe(p);
      expect(decided(`not ${left}`)).toBe(p === undefined ? undefined : !p);
      for (const [q, right] of texts) {
        const both = p === false || q === false ? false : p && q;
        expect(decided(`${left} and ${right}`)).toBe(both);
        const either = p === true || q === true ? true : p === false ? q : p;
        expect(decided(`${left} or ${right}`)).toBe(either);
      }
    }
  });
});

describe("trees", () => {
  const bounds = (text: string, boxes: Record<string, Bounds>) =>
    boundTree(parseFormula(text), (name) => boxes[name]!);

  test("hold numbers, names, signs and calls", () => {
    expect(bounds("3", {})).toEqual(box(3, 3));
    expect(bounds("x", { x: box(1, 2) })).toEqual(box(1, 2));
    expect(bounds("-x", { x: box(1, 2) })).toEqual(box(-2, -1));
    expect(bounds("max(x, 5) - y / 2", { x: box(1, 7), y: box(0, 4) })).toEqual(box(3, 7));
  });

  test("a choice has the bounds of the side that is taken, of both where it depends", () => {
    const at = (x: Bounds) => bounds("x > 1 ? x : 10 - x", { x });
    expect(at(box(2, 3))).toEqual(box(2, 3));
    expect(at(box(0, 1))).toEqual(box(9, 10));
    expect(at(box(0, 3))).toEqual(box(0, 10));
    expect(hull(box(1, 5), box(2, 3))).toEqual(box(1, 5));
    expect(hull(box(2, 3), box(1, 2))).toEqual(box(1, 3));
  });

  test("a deep tree costs one pass", () => {
    const x: Tree = { kind: "symbol", name: "x" };
    let tree: Tree = x;
    for (let n = 0; n < 100; n++) tree = { kind: "binary", operator: "+", left: tree, right: x };
    expect(boundTree(tree, () => box(-1, 2))).toEqual(box(-101, 202));
  });
});

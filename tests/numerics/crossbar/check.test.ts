/** What has no solution or no meaning is refused with its reason, and what is just within is solved. */
import { expect, test } from "vitest";
import { type Problem, TenfoldError } from "../../../src/errors/problem.ts";
import type { CrossbarProblem, JunctionKind, Law } from "../../../src/numerics/crossbar/problem.ts";
import { solveCrossbar } from "../../../src/numerics/crossbar/solve.ts";
import { side } from "./build.ts";

const every = (value: number) => () => value;

/** A good problem of 2 x 3, but for what a test changes. */
function problem(change: Partial<CrossbarProblem> = {}): CrossbarProblem {
  return {
    rows: 2,
    columns: 3,
    rowResistance: 1,
    columnResistance: 1,
    junctions: { conductance: new Float64Array(6).fill(1e-3) },
    terminals: { left: side(2, every(1), every(10)), bottom: side(3, every(0), every(10)) },
    ...change,
  };
}

function refusal(change: Partial<CrossbarProblem>): Problem {
  try {
    solveCrossbar(problem(change));
  } catch (error) {
    if (error instanceof TenfoldError) return error.problems[0]!;
    throw error;
  }
  throw new Error("nothing was refused");
}

const terminals = (left: [number, number], bottom: [number, number] = [0, 10]) => ({
  terminals: {
    left: side(2, every(left[0]), every(left[1])),
    bottom: side(3, every(bottom[0]), every(bottom[1])),
  },
});
const conductance = (...values: number[]) => ({
  junctions: { conductance: Float64Array.from(values) },
});
const kinds = (element: Law, selector?: Law) => ({
  junctions: {
    kinds: [{ element, ...(selector === undefined ? {} : { selector }) } as JunctionKind],
    kindOf: new Uint8Array(6),
  },
});
const threshold = (onResistance: number, offResistance: number): Law => ({
  law: "threshold",
  onResistance,
  offResistance,
  thresholdVoltage: 0.5,
  widthVoltage: 0.1,
});
const { NaN: none, POSITIVE_INFINITY: infinite } = Number;

test.each<[Partial<CrossbarProblem>, string, string]>([
  [{ rows: 0 }, "shape", "rows must be a whole number above zero"],
  [{ rows: 1.5 }, "shape", "rows must be a whole number above zero"],
  [{ columns: -1 }, "shape", "columns must be a whole number above zero"],
  [{ rowResistance: -1 }, "not-positive", "the row wire's resistance, if not zero, must be above"],
  [{ columnResistance: none }, "not-positive", "the column wire's resistance, if not zero, must"],
  [{ rowResistance: infinite }, "not-a-number", "row wire: not a finite number"],
  [{ columnResistance: infinite }, "not-a-number", "column wire: not a finite number"],
  [conductance(1, 1, 1), "shape", "the junctions must be one per crossing"],
  [conductance(1, 1, 1, 1, 0, 1), "not-positive", "the conductance of junction 4 must be above"],
  [conductance(1, -1, 1, 1, 1, 1), "not-positive", "the conductance of junction 1 must be above"],
  [conductance(infinite, 1, 1, 1, 1, 1), "not-positive", "the conductance of junction 0 must be"],
  [conductance(1, 1, 1, 1, 1, none), "not-positive", "the conductance of junction 5 must be"],
  [kinds({ law: "ohmic", resistance: 0 }), "not-positive", "kind 0: resistance must be above zero"],
  [
    kinds({ law: "ohmic", resistance: 1 }, { law: "sinh", resistance: 1, scaleVoltage: -1 }),
    "not-positive",
    "kind 0, selector: scaleVoltage must be above zero",
  ],
  [
    kinds({ law: "ohmic", resistance: infinite }),
    "not-positive",
    "kind 0: resistance must be above zero",
  ],
  [
    kinds(threshold(2, 1)),
    "out-of-range",
    "kind 0: the on resistance of a threshold law is above its off resistance",
  ],
  [
    { junctions: { kinds: [], kindOf: new Uint8Array(6) } },
    "unknown-name",
    "junction 0 has no kind",
  ],
  [
    {
      junctions: {
        kinds: [{ element: { law: "ohmic", resistance: 1 } }],
        kindOf: Uint8Array.of(0, 0, 0, 1, 0, 0),
      },
    },
    "unknown-name",
    "junction 3 has no kind",
  ],
  [terminals([1, -1]), "not-positive", "left terminal 0: resistance, if not zero, must be above"],
  [terminals([1, infinite]), "not-a-number", "left terminal 0: not a finite number"],
  [terminals([1, 1], [none, 1]), "not-a-number", "bottom terminal 0: not a finite number"],
  [terminals([infinite, 1]), "not-a-number", "left terminal 0: not a finite number"],
  [terminals([1, none], [0, none]), "no-reference", "no line has a terminal: nothing fixes the"],
  [{ terminals: {} }, "no-reference", "no line has a terminal: nothing fixes the voltages"],
  [
    { terminals: { right: side(3, every(1), every(1)) } },
    "shape",
    "the right terminals must be one per line",
  ],
  [
    { terminals: { bottom: { voltage: new Float64Array(4), resistance: new Float64Array(3) } } },
    "shape",
    "the bottom terminals must be one per line",
  ],
  [
    { terminals: { top: { voltage: new Float64Array(3), resistance: new Float64Array(2) } } },
    "shape",
    "the top terminals must be one per line",
  ],
])("%j is refused", (change, code, what) => {
  const found = refusal(change);
  expect(found.code).toBe(code);
  expect(found.what.slice(0, what.length)).toBe(what);
});

test("figures that were wrong are in the message", () => {
  expect(refusal({ rows: 1.5 }).got).toBe("1.5");
  expect(refusal({ rowResistance: -2 }).got).toBe("-2");
  expect(refusal(conductance(1, 1))).toMatchObject({ got: "2", expected: "6" });
  const right = side(3, every(1), every(1));
  expect(refusal({ terminals: { right } })).toMatchObject({ got: "3", expected: "2" });
  expect(refusal(kinds(threshold(2, 1)))).toMatchObject({
    got: "2 ohm above 1 ohm",
    fix: "give the on state the smaller resistance: a current must not fall with the voltage",
  });
});

test("an ideal wire, or a wire of one junction, must not join two ideal sources", () => {
  const both = (count: number, resistance: (k: number) => number) => [
    side(count, every(1), resistance),
    side(count, every(2), resistance),
  ];
  const second = (k: number) => (k === 1 ? 0 : 5);
  const [left, right] = both(2, second);
  const rows = { terminals: { left: left!, right: right! } };
  expect(refusal({ ...rows, rowResistance: 0 })).toMatchObject({
    code: "conflict",
    what: "row 1 joins two sources by zero resistance",
    got: "1 V and 2 V",
    fix: "give the wire or one terminal a resistance above zero, or leave one terminal out",
  });
  const [first, far] = both(2, (k) => 5 * k);
  const lowest = { terminals: { left: first!, right: far! }, rowResistance: 0 };
  expect(refusal(lowest).what).toBe("row 0 joins two sources by zero resistance");
  expect(() => solveCrossbar(problem(rows))).not.toThrow();
  const [top, bottom] = both(3, second);
  const columns = { terminals: { top: top!, bottom: bottom! } };
  expect(refusal({ ...columns, columnResistance: 0 }).what).toBe(
    "column 1 joins two sources by zero resistance",
  );
  expect(() => solveCrossbar(problem(columns))).not.toThrow();
  // One junction on each line: the wire has no segment.
  const tall = { rows: 2, columns: 1, ...conductance(1, 1) };
  expect(refusal({ ...tall, ...rows }).code).toBe("conflict");
  const wide = { rows: 1, columns: 3, ...conductance(1, 1, 1) };
  expect(refusal({ ...wide, ...columns }).code).toBe("conflict");
  // One ideal source at an ideal wire is none too many.
  const [ideal, other] = [side(2, every(1), every(0)), side(2, every(2), every(3))];
  for (const one of [
    { left: ideal, right: other },
    { left: other, right: ideal },
  ]) {
    expect(solveCrossbar(problem({ terminals: one, rowResistance: 0 })).converged).toBe(true);
  }
});

test("a line without a terminal floats, whatever voltage is written beside it", () => {
  const floating = (k: number) => (k === 0 ? 10 : Number.NaN);
  const left = { ...side(2, every(1), floating), voltage: Float64Array.of(1, Number.NaN) };
  const solution = solveCrossbar(
    problem({ terminals: { left, bottom: side(3, every(0), every(10)) } }),
  );
  expect(solution.converged).toBe(true);
  expect(solution.terminalCurrents.left[1]).toBe(0);
});

test("equal resistances of a threshold law are a resistor", () => {
  const same = solveCrossbar(problem(kinds(threshold(1000, 1000))));
  const ohmic = solveCrossbar(problem());
  same.rowCurrents.forEach((current, k) => {
    expect(Math.abs(current / ohmic.rowCurrents[k]! - 1)).toBeLessThan(1e-12);
  });
});

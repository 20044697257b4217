/** Source: the node equations in 64 decimal digits, see `crossbar-dense.ts`. */
import fc from "fast-check";
import { expect, test } from "vitest";
import type { CrossbarProblem } from "../../src/numerics/crossbar/problem.ts";
import { solved, stream } from "../numerics/crossbar/build.ts";
import { solveDense } from "./crossbar-dense.ts";

/** Random values over twelve decades; every line has a terminal at each end with a chance of 0.6. */
function wild(rows: number, columns: number, seed: number): CrossbarProblem {
  const next = stream(seed);
  for (let k = 0; k < 5; k++) next();
  const conductance = Float64Array.from({ length: rows * columns }, () => 10 ** (-12 * next()));
  const ends = (count: number) => ({
    voltage: Float64Array.from({ length: count }, () => Math.round(8 * next()) / 4 - 1),
    resistance: Float64Array.from({ length: count }, () =>
      next() < 0.4 ? Number.NaN : 10 ** (-3 + 9 * next()),
    ),
  });
  const problem = {
    rows,
    columns,
    rowResistance: 10 ** (-3 + 6 * next()),
    columnResistance: 10 ** (-3 + 6 * next()),
    junctions: { conductance },
    terminals: { left: ends(rows), right: ends(rows), top: ends(columns), bottom: ends(columns) },
  };
  // One terminal for certain, so that there is a reference.
  problem.terminals.left.resistance[0] = 50;
  return problem;
}

/** Largest difference relative to each number; numbers below `nothing` of the largest are compared with that. */
function worst(got: ArrayLike<number>, want: readonly number[], largest: number, nothing = 1e-18) {
  return Math.max(
    ...want.map((w, k) => Math.abs(got[k]! - w) / Math.max(Math.abs(w), nothing * largest)),
  );
}

test("every output up to 8 x 8 over twelve decades agrees with 64-digit elimination to 1e-10", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 8 }),
      fc.integer({ min: 1, max: 8 }),
      fc.integer({ min: 1, max: 2 ** 31 }),
      (rows, columns, seed) => {
        const problem = wild(rows, columns, seed);
        const got = solved(problem);
        const want = solveDense(problem);
        const amperes = Math.max(
          ...[...want.rowCurrents, ...want.columnCurrents, ...want.junctionCurrents].map(Math.abs),
          want.power.source,
          1e-12,
        );
        for (const name of ["rowCurrents", "columnCurrents", "junctionCurrents"] as const) {
          expect(worst(got[name], want[name], amperes), name).toBeLessThanOrEqual(1e-10);
        }
        for (const name of ["rowVoltages", "columnVoltages", "junctionVoltages"] as const) {
          // A junction that carries nothing has a voltage of nothing: right to 1e-22 V.
          expect(worst(got[name], want[name], 1, 1e-12), name).toBeLessThanOrEqual(1e-10);
        }
        const power = Object.values(want.power);
        const watts = Math.max(1e-12, ...power);
        expect(worst(Object.values(got.power), power, watts), "power").toBeLessThanOrEqual(1e-10);
      },
    ),
    { seed: 20260411, numRuns: 200 },
  );
});

test("node voltages agree with elimination for every shape up to 12 x 12", () => {
  for (const [rows, columns] of [
    [1, 1],
    [1, 12],
    [12, 1],
    [2, 3],
    [7, 12],
    [12, 12],
  ] as const) {
    const problem = wild(rows, columns, 100 * rows + columns);
    const got = solved(problem);
    const want = solveDense(problem);
    expect(worst(got.rowVoltages, want.rowVoltages, 1)).toBeLessThanOrEqual(1e-12);
    expect(worst(got.columnVoltages, want.columnVoltages, 1)).toBeLessThanOrEqual(1e-12);
  }
});

/** Columns that only wires of up to 1e13 ohm tie together, some of them without a terminal. */
function loose(rows: number, columns: number, seed: number): CrossbarProblem {
  const next = stream(seed);
  for (let k = 0; k < 5; k++) next();
  const open = (count: number) => ({
    voltage: new Float64Array(count),
    resistance: new Float64Array(count).fill(Number.NaN),
  });
  const problem = {
    rows,
    columns,
    rowResistance: 10 ** (6 + 7 * next()),
    columnResistance: 10 ** (-1 + 2 * next()),
    junctions: {
      conductance: Float64Array.from({ length: rows * columns }, () => 1e-3 * (1 + next())),
    },
    terminals: { left: open(rows), right: open(rows), top: open(columns), bottom: open(columns) },
  };
  const { bottom } = problem.terminals;
  bottom.voltage[0] = 1;
  bottom.resistance[0] = 100;
  bottom.voltage[columns - 1] = -0.5;
  bottom.resistance[columns - 1] = 0.01;
  return problem;
}

test("lines that hardly anything ties to the rest agree with 64-digit elimination to 1e-14", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 7 }),
      fc.integer({ min: 3, max: 6 }),
      fc.integer({ min: 1, max: 2 ** 31 }),
      (rows, columns, seed) => {
        const problem = loose(rows, columns, seed);
        const got = solved(problem);
        const want = solveDense(problem);
        // Of 1 V: potentials near zero are differences of such.
        expect(worst(got.rowVoltages, want.rowVoltages, 1, 1)).toBeLessThanOrEqual(1e-14);
        expect(worst(got.columnVoltages, want.columnVoltages, 1, 1)).toBeLessThanOrEqual(1e-14);
        const amperes = Math.max(...want.columnCurrents.map(Math.abs));
        expect(worst(got.columnCurrents, want.columnCurrents, amperes)).toBeLessThanOrEqual(1e-10);
      },
    ),
    { seed: 20261126, numRuns: 40 },
  );
});

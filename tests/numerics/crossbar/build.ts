/** Small problems for the crossbar tests, and the validator that runs on every solution in them. */
import { expect } from "vitest";
import type {
  CrossbarProblem,
  CrossbarSolution,
  TerminalSide,
} from "../../../src/numerics/crossbar/problem.ts";
import { solveCrossbar } from "../../../src/numerics/crossbar/solve.ts";

/** A repeatable stream of numbers in [0, 1). */
export function stream(seed: number): () => number {
  let s = seed >>> 0;
  return () => {
    s = (Math.imul(s, 1664525) + 1013904223) >>> 0;
    return s / 4294967296;
  };
}

/** Terminals for all lines: one voltage and resistance each; NaN resistance floats. */
export function side(
  count: number,
  voltage: (k: number) => number,
  resistance: (k: number) => number,
): TerminalSide {
  const of = (f: (k: number) => number) => Float64Array.from({ length: count }, (_, k) => f(k));
  return { voltage: of(voltage), resistance: of(resistance) };
}

export interface Recipe {
  readonly rows: number;
  readonly columns: number;
  readonly r: number;
  readonly seed?: number;
  /** log10 of the range of junction resistances [ohm]. */
  readonly decades?: readonly [number, number];
  readonly scheme?: "grounded" | "floating" | "one-half";
  readonly driver?: number;
}

/** Random ohmic junctions, row 0 at 1 V on the left, the last column at 0 V at the bottom. */
export function ohmic(recipe: Recipe): CrossbarProblem {
  const {
    rows,
    columns,
    r,
    seed = 1,
    decades = [3, 7],
    scheme = "grounded",
    driver = 100,
  } = recipe;
  const next = stream(seed);
  const [low, high] = decades;
  const conductance = Float64Array.from(
    { length: rows * columns },
    () => 10 ** -(low + (high - low) * next()),
  );
  const idle = scheme === "one-half" ? 0.5 : 0;
  const absent = scheme === "floating" ? Number.NaN : driver;
  return {
    rows,
    columns,
    rowResistance: r,
    columnResistance: r,
    junctions: { conductance },
    terminals: {
      left: side(
        rows,
        (k) => (k === 0 ? 1 : idle),
        (k) => (k === 0 ? driver : absent),
      ),
      bottom: side(
        columns,
        (k) => (k === columns - 1 ? 0 : idle),
        (k) => (k === columns - 1 ? driver : absent),
      ),
    },
  };
}

/** What every solution must obey, whatever the problem. */
export function validate(problem: CrossbarProblem, solution: CrossbarSolution): void {
  expect(solution.converged).toBe(true);
  expect(solution.residual).toBeLessThanOrEqual(1e-10);
  expect(solution.energyError).toBeLessThanOrEqual(1e-10);
  const { source, junction, wire, driver } = solution.power;
  for (const power of [junction, wire, driver]) expect(power).toBeGreaterThanOrEqual(0);
  expect(Math.abs(source - junction - wire - driver)).toBeLessThanOrEqual(
    1e-10 * (Math.abs(source) + junction + wire + driver),
  );
  // What flows in flows out, and no node lies beyond the extreme sources.
  const sum = (list: Float64Array) => list.reduce((a, b) => a + b, 0);
  const size = (list: Float64Array) => list.reduce((a, b) => a + Math.abs(b), 0);
  const { rowCurrents, columnCurrents } = solution;
  const most = size(rowCurrents) + size(columnCurrents);
  expect(Math.abs(sum(rowCurrents) - sum(columnCurrents))).toBeLessThanOrEqual(
    1e-10 * most + 1e-30,
  );
  const volts = Object.values(problem.terminals).flatMap((t) =>
    [...t.voltage].filter((_, k) => !Number.isNaN(t.resistance[k]!)),
  );
  const [low, high] = [Math.min(...volts), Math.max(...volts)];
  const slack = 1e-12 * Math.max(Math.abs(low), Math.abs(high));
  for (const nodes of [solution.rowVoltages, solution.columnVoltages]) {
    for (const v of nodes) if (v < low - slack || v > high + slack) expect(v).toBeNaN();
  }
}

/** Solves and validates. */
export function solved(problem: CrossbarProblem, method?: "line" | "coarsened"): CrossbarSolution {
  const solution = solveCrossbar(problem, method === undefined ? {} : { method });
  validate(problem, solution);
  return solution;
}

/** Largest relative difference of two lists, relative to each expected number. */
export function worstRelative(got: ArrayLike<number>, want: ArrayLike<number>): number {
  let worst = 0;
  for (let k = 0; k < want.length; k++) {
    const error = want[k] === got[k] ? 0 : Math.abs(got[k]! / want[k]! - 1);
    if (!(error <= worst)) worst = error;
  }
  return worst;
}

/** Many reads at once against single solves. */
import { expect, test } from "vitest";
import type { Problem, TenfoldError } from "../../../src/errors/problem.ts";
import { allReads } from "../../../src/numerics/crossbar/reads.ts";
import { ohmic, side, solved } from "./build.ts";

const shape = { rows: 9, columns: 13, r: 20, seed: 3 };

test.each([
  ["grounded", { rows: 0, columns: 0 }],
  ["one-half", { rows: 0.35, columns: 0.35 }],
  ["one-third", { rows: 0.7 / 3, columns: 1.4 / 3 }],
  ["floating", undefined],
] as const)("every %s read equals its own solve to 1e-10", (_, others) => {
  const { terminals: _none, ...array } = ohmic(shape);
  const scheme = { voltage: 0.7, rowTerminal: 120, columnTerminal: 80 };
  const reads = allReads(array, others === undefined ? scheme : { ...scheme, others });
  expect(reads.solves).toBeLessThan(shape.rows + shape.columns);
  for (const [i, j] of [
    [0, 0],
    [4, 7],
    [8, 12],
    [8, 0],
  ] as const) {
    const idle = (r: number) => (others === undefined ? Number.NaN : r);
    const left = side(
      9,
      (k) => (k === i ? 0.7 : (others?.rows ?? 0)),
      (k) => (k === i ? 120 : idle(120)),
    );
    const bottom = side(
      13,
      (k) => (k === j ? 0 : (others?.columns ?? 0)),
      (k) => (k === j ? 80 : idle(80)),
    );
    const one = solved({ ...array, terminals: { left, bottom } });
    expect(Math.abs(reads.sensed[i * 13 + j]! / one.columnCurrents[j]! - 1)).toBeLessThan(1e-10);
    expect(Math.abs(reads.driven[i * 13 + j]! / one.rowCurrents[i]! - 1)).toBeLessThan(1e-10);
  }
});

test("a read that rounding leaves unsolved is refused, with what is left", () => {
  const { terminals: _none, ...array } = ohmic({
    rows: 65,
    columns: 65,
    r: 1,
    decades: [-200, 200],
  });
  const scheme = { voltage: 1, rowTerminal: 1, columnTerminal: 1, others: { rows: 0, columns: 0 } };
  let problem: Problem | undefined;
  try {
    allReads(array, scheme);
  } catch (error) {
    problem = (error as TenfoldError).problems[0];
  }
  expect(problem).toMatchObject({ code: "not-converged" });
  expect(problem!.what).toMatch(/^the solve for line \d+ did not converge$/);
  expect(Number(problem!.got!.replace("a Kirchhoff error of ", ""))).toBeGreaterThan(1e-10);
});

test("an array of nonlinear junctions is refused", () => {
  const { terminals: _none, ...array } = ohmic(shape);
  const kinds = [{ element: { law: "sinh", resistance: 1e6, scaleVoltage: 0.2 } }] as const;
  const junctions = { kinds, kindOf: new Uint8Array(9 * 13) };
  const scheme = { voltage: 1, rowTerminal: 1, columnTerminal: 1 };
  expect(() => allReads({ ...array, junctions }, scheme)).toThrow("not-linear");
});

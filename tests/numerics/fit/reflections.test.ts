/** Reflections keep lengths and angles: what they make of a matrix has the same products of columns. */
import { describe, expect, test } from "vitest";
import type { TenfoldError } from "../../../src/errors/problem.ts";
import {
  inverseOfSquare,
  lengthOfColumn,
  reduce,
  solveTriangle,
} from "../../../src/numerics/fit/orthogonal.ts";
import { fitLeastSquares } from "../../../src/numerics/index.ts";

const matrix = (columns: number, entries: readonly number[]) => ({
  rows: entries.length / columns,
  columns,
  entries: Float64Array.from(entries),
});

/** Heads of either sign, of nothing and of almost all of their column. */
const CASES = [
  matrix(2, [3, 1, 4, -2, 0, 5]),
  matrix(2, [-3, 1, 4, 2, 0, 5]),
  matrix(2, [0, 1, 2, -7, 1, 0]),
  matrix(2, [1, 2, 1e-9, 1, 0, 3]),
  matrix(2, [-1, 2, 1e-9, -1, 0, 3]),
  matrix(3, [2, 0, 1, 0, -3, 1, 1, 1, 4, 5, 0, -2]),
];

describe("a matrix in a triangle", () => {
  test("has the products of its columns with each other and with the right-hand side", () => {
    for (const given of CASES) {
      const { rows, columns, entries } = given;
      const right = Float64Array.from({ length: rows }, (_, i) => 1 + i * i);
      const kept = [entries.slice(), right.slice()];
      const { triangle, rhs } = reduce(given, right);
      expect([entries, right]).toEqual(kept);
      expect([triangle.length, rhs.length]).toEqual([columns * columns, columns]);
      for (let j = 0; j < columns; j++) {
        for (let k = 0; k <= columns; k++) {
          let [want, got] = [0, 0];
          const of = (i: number) => (k < columns ? entries[i * columns + k]! : right[i]!);
          for (let i = 0; i < rows; i++) want += entries[i * columns + j]! * of(i);
          const end = (i: number) => (k < columns ? triangle[i * columns + k]! : rhs[i]!);
          for (let i = 0; i < columns; i++) got += triangle[i * columns + j]! * end(i);
          expect(Math.abs(got - want)).toBeLessThan(1e-14 * Math.max(10, Math.abs(want)));
        }
        for (let i = j + 1; i < columns; i++) {
          expect(Math.abs(triangle[i * columns + j]!)).toBeLessThan(1e-15);
        }
      }
    }
  });

  test("keeps a column of nothing, and the others as they are", () => {
    const { triangle, rhs } = reduce(matrix(2, [0, 3, 0, 4, 0, 0]), Float64Array.of(1, 2, 3));
    expect([...triangle, ...rhs].every(Number.isFinite)).toBe(true);
    expect([triangle[0], triangle[2]]).toEqual([0, 0]);
    expect(Math.hypot(triangle[1]!, triangle[3]!)).toBeCloseTo(5, 14);
  });

  test("has lengths of columns, from a row on", () => {
    const three = matrix(2, [9, 3, 9, 4, 9, 12]);
    expect([lengthOfColumn(three, 1), lengthOfColumn(three, 1, 1)]).toEqual([13, Math.sqrt(160)]);
  });

  test("is solved from below, and inverted with its transpose: by hand", () => {
    const triangle = Float64Array.of(2, 1, -1, 0, 4, 2, 0, 0, 5);
    expect([...solveTriangle(triangle, Float64Array.of(3, 14, 15))]).toEqual([2, 2, 3]);
    // [[2, 1], [0, 4]] has the product [[4, 2], [2, 17]] of determinant 64.
    const inverse = inverseOfSquare(Float64Array.of(2, 1, 0, 4), 2);
    [17 / 64, -2 / 64, -2 / 64, 4 / 64].forEach((want, k) => {
      expect(inverse[k]).toBeCloseTo(want, 16);
    });
  });
});

describe("a fit", () => {
  const refused = (work: () => unknown) => {
    try {
      work();
    } catch (error) {
      return (error as TenfoldError).problems[0];
    }
    return undefined;
  };

  test("of a linear law is done in few steps; from its minimum, in one", () => {
    const line = ([a, b]: readonly number[]) => [1, 2, 4, 7].map((x, i) => a! + b! * x - i * i);
    const fit = fitLeastSquares(line, [0, 0]);
    expect(fit.steps).toBeLessThan(10);
    const again = fitLeastSquares(line, fit.parameters);
    expect(again.steps).toBe(1);
    expect(again.parameters[1]! / fit.parameters[1]!).toBeCloseTo(1, 9);
  });

  test("says how many points, which parameter or where it was when it is refused", () => {
    expect(refused(() => fitLeastSquares(([a, b]) => [a!, b!], [1, 2]))).toEqual({
      code: "too-few-points",
      what: "a fit of 2 parameters needs more than 2 points",
    });
    expect(refused(() => fitLeastSquares(([a]) => [a!, a! - 1, 2], [1, 2]))).toEqual({
      code: "fit-undetermined",
      what: "the points do not depend on parameter 2 of the fit",
      fix: "leave that parameter out of the fit",
    });
    const bent = ([a]: readonly number[]) => [Math.exp(a!) - 3, Math.exp(2 * a!) - 10, 1];
    const problem = refused(() => fitLeastSquares(bent, [-2], { steps: 1 }));
    expect(problem).toMatchObject({
      code: "fit-not-settled",
      what: "the fit did not settle in the allowed number of steps",
      fix: "start nearer, or fit fewer parameters",
    });
    expect(Number(problem!.got)).toBeGreaterThan(-2);
  });
});

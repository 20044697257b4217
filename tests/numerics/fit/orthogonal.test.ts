/** Reflections against what they keep, "Matrix Computations", section 5.2, ISBN 978-1-4214-0794-4. */
import { expect, test } from "vitest";
import {
  inverseOfSquare,
  lengthOfColumn,
  reduce,
  solveTriangle,
} from "../../../src/numerics/fit/orthogonal.ts";
import { RandomStream } from "../../../src/numerics/sampling/random.ts";

test("a triangle keeps all products of columns, with each other and with the right-hand side", () => {
  for (let seed = 0; seed < 20; seed++) {
    const [rows, columns] = [5 + (seed % 3), 1 + (seed % 4)];
    const draw = RandomStream.of(seed, "rows");
    const entries = Float64Array.from({ length: rows * columns }, (_, i) => draw.uniform(i) - 0.5);
    const rhs = Float64Array.from({ length: rows }, (_, i) => draw.uniform(100 + i) - 0.5);
    const [before, right] = [entries.slice(), rhs.slice()];
    const reduced = reduce({ rows, columns, entries }, rhs);
    // The inputs stay as they are.
    expect(entries).toEqual(before);
    expect(rhs).toEqual(right);
    expect(reduced.triangle).toHaveLength(columns * columns);
    expect(reduced.rhs).toHaveLength(columns);
    for (let a = 0; a < columns; a++) {
      for (let b = 0; b < columns; b++) {
        let [want, got] = [0, 0];
        for (let i = 0; i < rows; i++)
          want += entries[i * columns + a]! * entries[i * columns + b]!;
        for (let i = 0; i <= Math.min(a, b); i++) {
          got += reduced.triangle[i * columns + a]! * reduced.triangle[i * columns + b]!;
        }
        expect(Math.abs(got - want)).toBeLessThan(1e-14);
      }
      let [want, got] = [0, 0];
      for (let i = 0; i < rows; i++) want += entries[i * columns + a]! * rhs[i]!;
      for (let i = 0; i <= a; i++) got += reduced.triangle[i * columns + a]! * reduced.rhs[i]!;
      expect(Math.abs(got - want)).toBeLessThan(1e-14);
    }
  }
});

test("a column of zeros leaves numbers, and a small one beside its head keeps its digits", () => {
  const zero = reduce(
    { rows: 3, columns: 2, entries: Float64Array.of(0, 2, 0, 3, 0, 6) },
    Float64Array.of(2, 3, 6),
  );
  expect([zero.triangle[0], zero.triangle[2]]).toEqual([0, 0]);
  expect(Math.hypot(zero.triangle[1]!, zero.triangle[3]!)).toBeCloseTo(7, 13);
  expect(zero.rhs.every(Number.isFinite)).toBe(true);
  // x = (1e10 b1 + b2) / (1e20 + 1) where b1 is zero: the digits of b2 are all there are.
  for (const sign of [1, -1]) {
    const head = reduce(
      { rows: 2, columns: 1, entries: Float64Array.of(sign * 1e10, 1) },
      Float64Array.of(0, 3),
    );
    expect(solveTriangle(head.triangle, head.rhs)[0]! / 3e-20).toBeCloseTo(1, 13);
  }
});

test("lengths of columns, from a row on: 3, 4, 5 and 8, 6, 10", () => {
  const matrix = { rows: 3, columns: 2, entries: Float64Array.of(7, 9, 3, 8, 4, 6) };
  expect(lengthOfColumn(matrix, 0, 1)).toBe(5);
  expect(lengthOfColumn(matrix, 1, 1)).toBe(10);
  expect(lengthOfColumn(matrix, 1)).toBe(Math.sqrt(181));
});

test("a triangle's system and the inverse of its square, in whole numbers", () => {
  const triangle = Float64Array.of(2, 4, 6, 0, 1, 3, 0, 0, 5);
  const rhs = Float64Array.of(28, 11, 15);
  expect([...solveTriangle(triangle, rhs)]).toEqual([1, 2, 3]);
  expect([...rhs]).toEqual([28, 11, 15]);
  // (1, 2; 0, 1) has the square (1, 2; 2, 5), whose inverse is (5, -2; -2, 1).
  expect([...inverseOfSquare(Float64Array.of(1, 2, 0, 1), 2)]).toEqual([5, -2, -2, 1]);
});

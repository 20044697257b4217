/** Elimination with partial pivoting against its definition, "Matrix Computations", section 3.4, ISBN 978-1-4214-0794-4. */
import { expect, test } from "vitest";
import { factorise, substitute } from "../../../src/numerics/ode/dense.ts";
import { RandomStream } from "../../../src/numerics/sampling/random.ts";

/** A matrix whose entries lie decades apart, with some zeros. */
function scattered(size: number, seed: number): number[][] {
  const draw = RandomStream.of(seed, "matrix");
  return Array.from({ length: size }, (_, i) =>
    Array.from({ length: size }, (_unused, j) => {
      const [u, v] = [draw.uniform(2 * (i * size + j)), draw.uniform(2 * (i * size + j) + 1)];
      return v < 0.2 && i !== j ? 0 : (u - 0.5) * 10 ** Math.round(6 * v - 3);
    }),
  );
}

test("no multiplier exceeds one, and the triangles multiply to the rows in their order", () => {
  for (let seed = 0; seed < 60; seed++) {
    const size = 2 + (seed % 5);
    const matrix = scattered(size, seed);
    const factors = factorise(Float64Array.from(matrix.flat()), size)!;
    const { entries, order } = factors;
    const rows = [...matrix];
    order.forEach((pivot, k) => {
      expect(pivot).toBeGreaterThanOrEqual(k);
      [rows[k], rows[pivot]] = [rows[pivot]!, rows[k]!];
    });
    for (let i = 0; i < size; i++) {
      for (let j = 0; j < i; j++) expect(Math.abs(entries[i * size + j]!)).toBeLessThanOrEqual(1);
      for (let j = 0; j < size; j++) {
        let [sum, scale] = [0, 0];
        for (let k = 0; k <= Math.min(i, j); k++) {
          const part = (k === i ? 1 : entries[i * size + k]!) * entries[k * size + j]!;
          sum += part;
          scale += Math.abs(part);
        }
        expect(Math.abs(sum - rows[i]![j]!)).toBeLessThanOrEqual(size * 2 ** -52 * scale);
      }
    }
    // A solution of ones: what is left of each row is rounding alone.
    const rhs = Float64Array.from(matrix, (row) => row.reduce((a, b) => a + b));
    const right = rhs.slice();
    substitute(factors, rhs);
    matrix.forEach((row, i) => {
      const parts = row.map((a, j) => a * rhs[j]!);
      const scale = parts.reduce((a, b) => a + Math.abs(b), Math.abs(right[i]!));
      const largest = Math.max(...matrix.flat().map(Math.abs)) * Math.max(...rhs.map(Math.abs));
      const left = parts.reduce((a, b) => a + b) - right[i]!;
      expect(Math.abs(left)).toBeLessThanOrEqual(2 ** -48 * Math.max(scale, largest));
    });
  }
});

test("rows whose first entries vanish are moved: the answer of a permuted system in whole numbers", () => {
  const factors = factorise(Float64Array.of(0, 0, 2, 3, 0, 0, 0, 5, 0), 3)!;
  const rhs = Float64Array.of(8, 9, 10);
  substitute(factors, rhs);
  expect([...rhs]).toEqual([3, 2, 4]);
});

test("a singular matrix has no factors, nor one that is not finite", () => {
  expect(factorise(Float64Array.of(1, 2, 2, 4), 2)).toBeUndefined();
  expect(factorise(Float64Array.of(0), 1)).toBeUndefined();
  expect(factorise(Float64Array.of(Number.POSITIVE_INFINITY), 1)).toBeUndefined();
  expect(factorise(Float64Array.of(Number.NaN), 1)).toBeUndefined();
  expect(factorise(Float64Array.of(1, 0, 0, Number.NEGATIVE_INFINITY), 2)).toBeUndefined();
});

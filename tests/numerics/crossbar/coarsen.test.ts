import { expect, test } from "vitest";
import { coarsenAll, coarserSize } from "../../../src/numerics/crossbar/coarsen.ts";
import { Arena } from "../../../src/numerics/crossbar/kernels/instance.ts";
import { ARRAYS, factor, makeLevel, sizeOf } from "../../../src/numerics/crossbar/level.ts";
import { networkOf } from "../../../src/numerics/crossbar/state.ts";
import { ohmic } from "./build.ts";

/** All levels of an array between wires of 1 and 3 ohm. */
function levels(
  rows: number,
  columns: number,
  siemens: number | ((i: number, j: number) => number),
) {
  const at = typeof siemens === "number" ? () => siemens : siemens;
  const { shape, ends } = networkOf(ohmic({ rows, columns, r: 1 }));
  const arena = new Arena(8 * (sizeOf(shape, ARRAYS.twice + 1) + coarserSize(shape)));
  const g = arena.doubles(shape.m * shape.n);
  g.view.fill(0);
  for (let i = shape.top; i < shape.m; i++) {
    for (let j = shape.left; j < shape.n; j++) {
      g.view[i * shape.n + j] = at(i - shape.top, j - shape.left);
    }
  }
  const finest = makeLevel(arena, shape, { row: 3, column: 1 }, ends, g, true);
  factor(finest);
  coarsenAll(arena, finest);
  const all = [finest];
  for (let next = finest.coarser; next !== undefined; next = next.level.coarser)
    all.push(next.level);
  return all;
}

const sum = (list: Float64Array) => list.reduce((all, x) => all + x, 0);

test.each([
  [8, 8],
  [5, 7],
  [17, 30],
  [39, 22],
  [12, 70],
  [70, 12],
])(
  "%i x %i junctions are joined two by two, with all that they and the ends conduct",
  (rows, columns) => {
    const all = levels(rows, columns, 1e-5);
    let [m, n] = [rows, columns];
    for (const [k, { shape, g, ends }] of all.entries()) {
      expect([shape.m - shape.top, shape.n - shape.left]).toEqual([m, n]);
      expect(Math.abs(sum(g.view) / (rows * columns * 1e-5) - 1)).toBeLessThan(1e-13);
      for (const side of ["left", "right", "top", "bottom"] as const) {
        expect(Math.abs(sum(ends[side]) - sum(all[0]!.ends[side]))).toBeLessThan(1e-13);
      }
      const few = Math.min(shape.m, shape.n) <= 4;
      expect(few).toBe(k === all.length - 1);
      [m, n] = [Math.ceil(m / 2), Math.ceil(n / 2)];
    }
  },
);

test("a coarser level is gone through twice where a joined junction conducts a tenth of a segment", () => {
  for (const [rows, columns] of [
    [8, 8],
    [5, 7],
    [6, 9],
  ] as const) {
    // The lesser resistance, 1 ohm, times the mean of the joined junctions.
    const joined = (rows * columns) / (Math.ceil(rows / 2) * Math.ceil(columns / 2));
    const limit = 0.1 / joined;
    expect(levels(rows, columns, 0.99 * limit)[1]!.again).toBeUndefined();
    expect(levels(rows, columns, 1.01 * limit)[1]!.again).toBeDefined();
  }
});

test("there is as much room for the coarser levels as they take", () => {
  for (const [rows, columns] of [
    [8, 8],
    [17, 30],
    [39, 22],
    [12, 70],
  ] as const) {
    const [finest, ...coarser] = levels(rows, columns, 1e-5);
    const taken = coarser.reduce((all, { shape }) => all + sizeOf(shape, ARRAYS.twice), 0);
    expect(coarserSize(finest!.shape)).toBe(taken);
  }
});

test.each([
  [0, 1],
  [2, 3],
  [0, 2],
  [1, 3],
  [0, 3],
  [1, 2],
])("of four lines the two that conduct, %d and %d, are joined", (a, b) => {
  const strong = (line: number) => line % 4 === a || line % 4 === b;
  // The others conduct hardly anything, and no two of them the same.
  const value = (line: number) => (strong(line) ? 1e-3 : 1e-7 / (1 + (line % 4)));
  // One after the other: there is one memory for all.
  const [, rows] = levels(8, 8, (i) => value(i));
  const rowSums = [0, 1, 2, 3].map((i) => sum(rows!.g.view.subarray(4 * i, 4 * i + 4)));
  const [, columns] = levels(8, 8, (_, j) => value(j));
  const columnSums = [0, 1, 2, 3].map((j) => sum(columns!.g.view.filter((_, k) => k % 4 === j)));
  for (const sums of [rowSums, columnSums]) {
    sums.sort((x, y) => x - y);
    const weak = 8 * [0, 1, 2, 3].reduce((all, k) => all + (strong(k) ? 0 : value(k)), 0);
    [weak, weak, 1.6e-2, 1.6e-2].forEach((want, k) => {
      expect(Math.abs(sums[k]! / want - 1)).toBeLessThan(1e-12);
    });
  }
});

test("a joined junction conducts half a segment at most", () => {
  const [, coarse] = levels(8, 8, 0.2);
  expect(Math.max(...coarse!.g.view)).toBe(0.5);
});

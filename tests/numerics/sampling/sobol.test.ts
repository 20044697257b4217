import { expect, test } from "vitest";
import { MOST_SOBOL_DIMENSIONS, SobolSequence } from "../../../src/numerics/sampling/sobol.ts";
import reference from "./sobol-reference.json" with { type: "json" };

function points(sequence: SobolSequence, count: number): number[][] {
  const point = new Float64Array(sequence.dimensions);
  return Array.from({ length: count }, () => {
    sequence.next(point);
    return Array.from(point);
  });
}

test("plain points equal a general library's, bit for bit, up to dimension 1111", () => {
  const all = points(new SobolSequence(MOST_SOBOL_DIMENSIONS), 2048);
  expect(all[0]!.every((x) => x === 0)).toBe(true);
  for (const [index, want] of Object.entries(reference.plain.points)) {
    const got = reference.plain.columns.map((c) => all[Number(index)]![c]);
    expect(got).toEqual(want);
  }
});

test("points scrambled by a given matrix and shift equal a general library's, bit for bit", () => {
  const { shifts, rows, points: expected } = reference.scrambled;
  const scrambles = shifts.map((shift, d) => ({ shift, rows: Uint32Array.from(rows[d]!) }));
  const all = points(new SobolSequence(4, { scrambles }), 64);
  for (const [index, want] of Object.entries(expected)) expect(all[Number(index)]).toEqual(want);
});

test("a seed scrambles within the open unit interval and keeps the net property", () => {
  const sequence = new SobolSequence(40, { seed: 9 });
  const all = points(sequence, 1024);
  for (let d = 0; d < 40; d++) {
    const cells = new Set(all.map((p) => Math.floor(p[d]! * 1024)));
    expect(cells.size).toBe(1024);
    expect(all.every((p) => p[d]! > 0 && p[d]! < 1)).toBe(true);
  }
  const boxes = new Map<string, number>();
  for (const p of all) {
    const box = `${Math.floor(p[0]! * 32)} ${Math.floor(p[1]! * 32)}`;
    boxes.set(box, (boxes.get(box) ?? 0) + 1);
  }
  expect(new Set(boxes.values())).toEqual(new Set([1]));
});

test("a dimension's scramble depends on its key alone, so designs share what they share", () => {
  const both = points(new SobolSequence(2, { seed: 5, keys: ["a", "b"] }), 100);
  const other = points(new SobolSequence(2, { seed: 5, keys: ["a", "c"] }), 100);
  expect(both.map((p) => p[0])).toEqual(other.map((p) => p[0]));
  expect(both.map((p) => p[1])).not.toEqual(other.map((p) => p[1]));
});

test("seeking to any index gives the point that counting there gives", () => {
  const counted = points(new SobolSequence(7, { seed: 3 }), 300);
  const sought = new SobolSequence(7, { seed: 3 });
  for (const index of [299, 0, 128, 127, 255]) {
    sought.seek(index);
    expect(points(sought, 1)[0]).toEqual(counted[index]);
  }
  const columns = Array.from({ length: 7 }, () => new Float64Array(10));
  sought.fill(columns, 200, 10);
  expect(columns.map((c) => c[4])).toEqual(counted[204]);
});

test("the error of a smooth integral falls nearly as 1/n, root mean square over 16 seeds", () => {
  const deviation = (n: number): number => {
    let sum = 0;
    for (let seed = 0; seed < 16; seed++) {
      const all = points(new SobolSequence(5, { seed }), n);
      const mean = all.reduce((s, p) => s + Math.exp(p.reduce((a, b) => a + b) / 5), 0) / n;
      sum += (mean - (5 * Math.expm1(0.2)) ** 5) ** 2;
    }
    return Math.sqrt(sum / 16);
  };
  const order = Math.log2(deviation(256) / deviation(4096)) / 4;
  expect(order).toBeGreaterThan(0.95);
});

test("too many dimensions are refused with the number that is possible", () => {
  expect(() => new SobolSequence(1112)).toThrow(/too-many-dimensions/);
  expect(() => new SobolSequence(0)).toThrow(/too-many-dimensions/);
});

/** Sensitivity indices where their estimators have exact answers: what they ask, leave out, refuse and how wide they are. */
import { describe, expect, test } from "vitest";
import type { TenfoldError } from "../../../src/errors/problem.ts";
import {
  type ModelOfUnitCube,
  sensitivityIndices,
  studentTailQuantile,
} from "../../../src/numerics/index.ts";

/** A model of one point, as a model of columns. */
function pointwise(f: (u: readonly number[]) => number): ModelOfUnitCube {
  return (inputs, count, output) => {
    for (let i = 0; i < count; i++) output[i] = f(inputs.map((column) => column[i]!));
  };
}

const SMALL = { seed: 5, count: 64, replicates: 4 };
const product = ([a, b]: readonly number[]) => (a! + 0.5) * (b! + 1);

describe("sensitivity indices", () => {
  test("ask for two runs and one more for each group, of all replicates", () => {
    for (const [groups, runs] of [
      [undefined, 5],
      [[[0, 1], [2]], 4],
    ] as const) {
      let calls = 0;
      const model: ModelOfUnitCube = (inputs, count, output) => {
        calls++;
        expect([inputs.length, count, output.length]).toEqual([3, 64, 64]);
        inputs.forEach((column) => {
          expect(column).toHaveLength(64);
        });
      };
      const found = sensitivityIndices(model, 3, { ...SMALL, ...(groups && { groups }) });
      expect([calls, found.evaluations]).toEqual([4 * runs, 4 * runs * 64]);
    }
    const { evaluations } = sensitivityIndices(pointwise(product), 2, { seed: 1 });
    expect(evaluations).toBe(16 * 1024 * 4);
  });

  test("of what does not matter are exactly nothing; a group of all is everything in total", () => {
    const one = sensitivityIndices(
      pointwise(([a]) => a!),
      2,
      SMALL,
    );
    expect([one.first[1], one.total[1]]).toEqual(Array(2).fill({ value: 0, low: 0, high: 0 }));
    // By hand: a uniform draw has the mean 1/2 and the variance 1/12.
    expect(Math.abs(one.mean.value - 0.5)).toBeLessThan(1e-3);
    expect(Math.abs(one.variance.value * 12 - 1)).toBeLessThan(1e-2);
    expect(Math.abs(one.first[0]!.value - 1)).toBeLessThan(0.02);
    expect(Math.abs(one.total[0]!.value - 1)).toBeLessThan(0.02);
  });

  test("know no origin and no unit", () => {
    const plain = sensitivityIndices(pointwise(product), 2, SMALL);
    const moved = sensitivityIndices(
      pointwise((u) => 3 * product(u) - 1000),
      2,
      SMALL,
    );
    for (const kind of ["first", "total"] as const) {
      for (const end of ["value", "low", "high"] as const) {
        plain[kind].forEach((index, k) => {
          expect(Math.abs(moved[kind][k]![end] / index[end] - 1)).toBeLessThan(1e-9);
        });
      }
    }
    expect(moved.mean.value).toBeCloseTo(3 * plain.mean.value - 1000, 10);
    expect(moved.variance.value / plain.variance.value).toBeCloseTo(9, 9);
  });

  test("of a product are those by hand", () => {
    // Factors of means 1 and 3/2 and variances 1/12: V = (9/4)/12 + 1/12 + 1/144.
    const found = sensitivityIndices(pointwise(product), 2, { seed: 5, confidence: 0.999 });
    const [va, vb, both] = [9 / 48, 1 / 12, 1 / 144];
    const all = va + vb + both;
    const want = {
      first: [va / all, vb / all],
      total: [(va + both) / all, (vb + both) / all],
    };
    for (const kind of ["first", "total"] as const) {
      found[kind].forEach((index, k) => {
        expect(index.low).toBeLessThan(want[kind][k]!);
        expect(index.high).toBeGreaterThan(want[kind][k]!);
        expect(Math.abs(index.value - want[kind][k]!)).toBeLessThan(2e-3);
      });
    }
    expect(Math.abs(found.variance.value / all - 1)).toBeLessThan(1e-3);
  });

  test("have intervals of Student's law around their values, as wide as the confidence asks", () => {
    const half = (confidence?: number) => {
      const options = confidence === undefined ? SMALL : { ...SMALL, confidence };
      const { first, mean } = sensitivityIndices(pointwise(product), 2, options);
      for (const { value, low, high } of [...first, mean]) {
        expect(Math.abs(high - value - (value - low))).toBeLessThan(1e-15);
        expect(high).toBeGreaterThan(value);
      }
      return [first[0]!, mean].map(({ low, high }) => (high - low) / 2);
    };
    expect(half()).toEqual(half(0.95));
    const ratio = studentTailQuantile(0.005, 3) / studentTailQuantile(0.025, 3);
    half(0.99).forEach((wide, k) => {
      expect(wide / half()[k]!).toBeCloseTo(ratio, 9);
    });
  });

  test("leave out points where any of their runs has no number, and say how many", () => {
    const holed = pointwise(([a]) => (a! < 0.25 ? Number.NaN : a!));
    const { leftOut, mean } = sensitivityIndices(holed, 2, SMALL);
    // Both draws of the parameter must be above a quarter: 9/16 stay, of mean 5/8.
    expect(Math.abs(leftOut - 7 / 16)).toBeLessThan(0.02);
    expect(Math.abs(mean.value - 5 / 8)).toBeLessThan(0.01);
    expect(sensitivityIndices(pointwise(product), 2, SMALL).leftOut).toBe(0);
    const none = sensitivityIndices(
      pointwise(() => Number.NaN),
      2,
      SMALL,
    );
    expect([none.leftOut, none.mean.value, none.total[0]!.value]).toEqual([1, NaN, NaN]);
    // A replicate without a point does not spoil the others.
    let calls = 0;
    const late: ModelOfUnitCube = (inputs, count, output) => {
      if (++calls <= 4) output.fill(Number.NaN);
      else pointwise(product)(inputs, count, output);
    };
    const rest = sensitivityIndices(late, 2, SMALL);
    expect(rest.leftOut).toBe(1 / 4);
    expect(rest.mean.value).toBeCloseTo(1.5, 2);
  });

  test("of no parameter, or of more than half of the dimensions, are refused", () => {
    const least = { seed: 1, count: 2, replicates: 2 };
    expect(
      sensitivityIndices(
        pointwise(([a]) => a!),
        1,
        least,
      ).first,
    ).toHaveLength(1);
    expect(
      sensitivityIndices(
        pointwise(([a]) => a!),
        555,
        least,
      ).first,
    ).toHaveLength(555);
    for (const parameters of [0, 556]) {
      try {
        sensitivityIndices(
          pointwise(() => 1),
          parameters,
          least,
        );
        expect.unreachable();
      } catch (error) {
        expect((error as TenfoldError).problems[0]).toEqual({
          code: "too-many-dimensions",
          what: "sensitivity indices need two dimensions of the sequence for each parameter",
          got: `${parameters} parameters`,
          expected: "1 to 555",
          fix: "state some parameters as exact",
        });
      }
    }
  });
});

import { lusolve } from "mathjs";
import { describe, expect, it } from "vitest";
import { IMPLICIT } from "../../../src/numerics/ode/implicit.ts";

/** One step of y' = f(t) from y(0) = 1: the increment, and the estimate of its error. */
function step(f: (t: number) => number, h: number): { increment: number; error: number } {
  const stepper = IMPLICIT.stepper((t, _y, slope) => {
    slope[0] = f(t);
  }, 1);
  const next = new Float64Array(1);
  const error = new Float64Array(1);
  expect(stepper.step(0, Float64Array.of(1), h, next, error)).toBe(true);
  return { increment: next[0]! - 1, error: error[0]! };
}

/** The real eigenvalue of the inverse of the method's matrix. */
const EIGENVALUE = 3 + Math.cbrt(9) - Math.cbrt(3);

describe("the error estimate of the implicit method", () => {
  it("is zero for slopes up to degree 2: the embedded rule has order 3", () => {
    for (const degree of [0, 1, 2]) {
      const { increment, error } = step((t) => t ** degree, 0.5);
      expect(increment / (0.5 ** (degree + 1) / (degree + 1))).toBeCloseTo(1, 12);
      expect(Math.abs(error)).toBeLessThan(1e-14);
    }
  });

  // The embedded rule adds the node 0 with the weight 1/u. Both rules are exact for degree 2, and
  // (t - c1)(t - c2)(t - 1) vanishes at the method's nodes and has integral 0 over the step: for
  // t^3 they differ by 1/u times its value at 0, which is -c1 c2 = -1/10. By hand.
  it("has the scale of the closed form for a cubic slope, -h^4/(10 u)", () => {
    for (const h of [0.1, 0.5, 2]) {
      const { error } = step((t) => t ** 3, h);
      expect(error / (-(h ** 4) / (10 * EIGENVALUE))).toBeCloseTo(1, 10);
    }
  });

  it("goes as the fourth power of the step, and bounds the error made, for a smooth slope", () => {
    const [coarse, fine] = [step(Math.exp, 0.2), step(Math.exp, 0.1)];
    expect(Math.log2(coarse.error / fine.error)).toBeGreaterThan(3.9);
    expect(Math.log2(coarse.error / fine.error)).toBeLessThan(4.2);
    expect(Math.abs(coarse.increment - Math.expm1(0.2))).toBeLessThan(
      0.01 * Math.abs(coarse.error),
    );
  });
});

/** The method's nodes; its weights follow from them, by what collocation is. */
const POINTS = [(4 - Math.sqrt(6)) / 10, (4 + Math.sqrt(6)) / 10, 1];
const solved = (matrix: number[][], right: number[]) =>
  (lusolve(matrix, right) as number[][]).map(([x]) => x!);
const powers = [0, 1, 2].map((power) => POINTS.map((point) => point ** power));
const WEIGHTS = POINTS.map((c) => solved(powers, [c, c ** 2 / 2, c ** 3 / 3]));
/** What the embedded rule, with the weight 1/u at the start, has less at the nodes. */
const LESS = solved(powers, [-1 / EIGENVALUE, 0, 0]);

// (1 - h J/u)^-1 of the difference of both rules, section IV.8 of the book: for y' = J y in linear systems alone.
it("of linear systems is that of both rules, filtered by the slopes of all components", () => {
  const jacobian = [
    [-3, 2, 0.5],
    [1, -40, 7],
    [-0.25, 4, 1.5],
  ];
  const start = [1, -0.5, 2];
  for (const h of [0.01, 0.1, 1]) {
    const stepper = IMPLICIT.stepper((_t, y, slope) => {
      jacobian.forEach((row, i) => {
        slope[i] = row.reduce((sum, a, j) => sum + a * y[j]!, 0);
      });
    }, 3);
    const [next, error] = [new Float64Array(3), new Float64Array(3)];
    expect(stepper.step(0, Float64Array.from(start), h, next, error)).toBe(true);
    const matrix = [0, 1, 2].flatMap((a) =>
      jacobian.map((row, i) =>
        [0, 1, 2].flatMap((b) =>
          row.map((slope, j) => (a === b && i === j ? 1 : 0) - h * WEIGHTS[a]![b]! * slope),
        ),
      ),
    );
    const stages = solved(matrix, [...start, ...start, ...start]);
    const slopes = (y: readonly number[]) =>
      jacobian.map((row) => row.reduce((sum, a, j) => sum + a * y[j]!, 0));
    const at = [0, 1, 2].map((k) => slopes(stages.slice(3 * k, 3 * k + 3)));
    const apart = slopes(start).map(
      (s, i) => h * (s / EIGENVALUE + LESS.reduce((sum, w, k) => sum + w * at[k]![i]!, 0)),
    );
    const filter = jacobian.map((row, i) =>
      row.map((slope, j) => (i === j ? 1 : 0) - (h * slope) / EIGENVALUE),
    );
    const want = solved(filter, apart);
    const scale = Math.max(...want.map(Math.abs));
    want.forEach((value, i) => {
      expect(next[i]! / stages[6 + i]!).toBeCloseTo(1, 11);
      expect(Math.abs(error[i]! - value)).toBeLessThan(1e-6 * scale);
    });
  }
});

it("a step counts as solved only where its stages fulfil their equations", () => {
  const [h, count] = [0.3, 300];
  const seen = { solved: 0, unsolved: 0 };
  for (let k = 0; k < count; k++) {
    const start = (4 * k) / count;
    const asked: number[] = [];
    // Slopes that bend within a step: Newton's method often finds no stages.
    const slope = (y: number) => 20 * Math.sin(6 * y) * (1 + y);
    const stepper = IMPLICIT.stepper((_t, y, s) => {
      asked.push(y[0]!);
      s[0] = slope(y[0]!);
    }, 1);
    const [next, error] = [new Float64Array(1), new Float64Array(1)];
    if (!stepper.step(0, Float64Array.of(start), h, next, error)) {
      seen.unsolved++;
      continue;
    }
    seen.solved++;
    const stages = asked.slice(-3);
    stages.forEach((y, i) => {
      const right = stages.reduce((sum, other, j) => sum + WEIGHTS[i]![j]! * slope(other), 0);
      // The last step of the iteration comes after: 1e-11 of the size at most, times what slopes make of it.
      expect(Math.abs(y - start - h * right)).toBeLessThan(1e-8 * (1 + Math.abs(y)));
    });
    expect(Math.abs(next[0]! - stages[2]!)).toBeLessThan(1e-10 * (1 + Math.abs(next[0]!)));
  }
  expect(seen.solved).toBeGreaterThan(10);
  expect(seen.unsolved).toBeGreaterThan(10);
});

it("slopes that are no numbers leave a step unsolved", () => {
  const stepper = IMPLICIT.stepper((_t, _y, slope) => slope.fill(Number.NaN), 1);
  const [next, error] = [new Float64Array(1), new Float64Array(1)];
  expect(stepper.step(0, Float64Array.of(1), 0.1, next, error)).toBe(false);
});

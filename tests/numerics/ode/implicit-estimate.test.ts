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

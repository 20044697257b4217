/**
 * A decay far faster than its drive, y' = a (y - cos t) - sin t with a = -1e6, whose solution is cos t. The equation is
 * linear, so that what collocation at the points of Radau leaves of it after each step has a closed form. The points
 * are those of "Solving Ordinary Differential Equations II", section IV.5, ISBN 978-3-540-60452-5; the weights follow
 * from them here, by what collocation is: polynomials up to the second degree are integrated exactly to each point.
 */
import { lusolve } from "mathjs";
import { expect, test } from "vitest";
import { integrate } from "../../../src/numerics/ode/integrate.ts";
import type { Derivative } from "../../../src/numerics/ode/step.ts";

const POINTS = [(4 - Math.sqrt(6)) / 10, (4 + Math.sqrt(6)) / 10, 1];
const RATE = -1e6;
const drive: Derivative = (t, y, slope) => {
  slope[0] = RATE * (y[0]! - Math.cos(t)) - Math.sin(t);
};

function solved(matrix: number[][], right: number[]): number[] {
  return (lusolve(matrix, right) as number[][]).map(([x]) => x!);
}

const WEIGHTS = POINTS.map((c) =>
  solved(
    [0, 1, 2].map((power) => POINTS.map((point) => point ** power)),
    [1, 2, 3].map((power) => c ** power / power),
  ),
);

/**
 * The error after a step from t with an error before it. In each point the error d fulfils
 * d_i = before + h a sum w_ij d_j + (cos t - h sum w_ij sin t_j - cos t_i): the drive, integrated by the weights, less
 * the solution.
 */
function errorAfter(before: number, t: number, h: number): number {
  const matrix = WEIGHTS.map((row, i) => row.map((w, j) => (i === j ? 1 : 0) - h * RATE * w));
  const left = POINTS.map((c, i) => {
    const moved = WEIGHTS[i]!.reduce((sum, w, j) => sum + w * Math.sin(t + POINTS[j]! * h), 0);
    return before + Math.cos(t) - h * moved - Math.cos(t + c * h);
  });
  return solved(matrix, left)[2]!;
}

test.each([2, 1.7, 1, 5])(
  "from %d the implicit method ends where theory puts it, in few steps",
  (start) => {
    let t = 0;
    let error = start - 1;
    let allowed = 0;
    let before = start;
    const onStep = (reached: number, y: Float64Array): void => {
      error = errorAfter(error, t, reached - t);
      allowed = 1e-9 * Math.max(Math.abs(before), Math.abs(y[0]!)) + 1e-12;
      [t, before] = [reached, y[0]!];
    };
    const options = { method: "implicit", relative: 1e-9, absolute: 1e-12, onStep } as const;
    const { y, steps } = integrate(drive, [start], 0, 10, options);
    expect(t).toBe(10);
    expect(Math.abs(y[0]! - Math.cos(10) - error)).toBeLessThan(4 * 2 ** -53);
    // The solution's error is three times what the estimate of third order finds of it: at points c, with
    // r_i = sum w_ij c_j^3/6 - c_i^4/24, (w^-1 r)_3 over sum e_i c_i^4/24 is -3. Errors of steps before are damped by 1e-5.
    expect(Math.abs(error)).toBeLessThan(3 * allowed);
    expect(steps).toBeLessThan(400);
  },
);

/**
 * The three-stage Radau IIA method of order 5 with its embedded estimate of order 3, "Solving
 * Ordinary Differential Equations II", 2nd edition, section IV.8 (1996), ISBN 978-3-540-60452-5.
 * For stiff problems; meant for small systems, since it solves all stages at once.
 */
import { factorise, substitute } from "./dense.ts";
import type { Derivative, StepMethod, Stepper } from "./step.ts";

const R = Math.sqrt(6);
const NODES = [(4 - R) / 10, (4 + R) / 10, 1];
const A: readonly (readonly number[])[] = [
  [(88 - 7 * R) / 360, (296 - 169 * R) / 1800, (-2 + 3 * R) / 225],
  [(296 + 169 * R) / 1800, (88 + 7 * R) / 360, (-2 - 3 * R) / 225],
  [(16 - R) / 36, (16 + R) / 36, 1 / 9],
];
/** The real eigenvalue of the inverse of A, 3 + 9^(1/3) - 3^(1/3). */
const REAL_EIGENVALUE = 3.637834252744496;
const ESTIMATE = [-(13 + 7 * R) / 3, (-13 + 7 * R) / 3, -1 / 3];
const MOST_ITERATIONS = 12;

class ImplicitStepper implements Stepper {
  evaluations = 0;
  private readonly derivative: Derivative;
  private readonly size: number;
  private readonly jacobian: Float64Array;
  private readonly slope: Float64Array;
  private readonly point: Float64Array;
  private readonly stages: Float64Array;
  private readonly slopes: Float64Array;

  constructor(derivative: Derivative, size: number) {
    this.derivative = derivative;
    this.size = size;
    this.jacobian = new Float64Array(size * size);
    this.slope = new Float64Array(size);
    this.point = new Float64Array(size);
    this.stages = new Float64Array(3 * size);
    this.slopes = new Float64Array(3 * size);
  }

  step(t: number, y: Float64Array, h: number, next: Float64Array, error: Float64Array): boolean {
    this.findJacobian(t, y);
    if (!this.solveStages(t, y, h)) return false;
    const n = this.size;
    for (let i = 0; i < n; i++) next[i] = y[i]! + this.stages[2 * n + i]!;
    this.estimate(t, y, h, error);
    return next.every(Number.isFinite) && error.every(Number.isFinite);
  }

  /** Forward differences; `slope` keeps the derivative at (t, y). */
  private findJacobian(t: number, y: Float64Array): void {
    const n = this.size;
    this.call(t, y, this.slope);
    this.point.set(y);
    const moved = new Float64Array(n);
    for (let j = 0; j < n; j++) {
      const delta = 1.5e-8 * Math.max(Math.abs(y[j]!), 1e-300 + 1e-8 * Math.abs(this.slope[j]!));
      this.point[j] = y[j]! + (delta || 1e-8);
      const taken = this.point[j]! - y[j]!;
      this.call(t, this.point, moved);
      for (let i = 0; i < n; i++) this.jacobian[i * n + j] = (moved[i]! - this.slope[i]!) / taken;
      this.point[j] = y[j]!;
    }
  }

  /** Simplified Newton iteration for the increments of all three stages. */
  private solveStages(t: number, y: Float64Array, h: number): boolean {
    const n = this.size;
    const lu = factorise(this.stageMatrix(h), 3 * n);
    if (lu === undefined) return false;
    this.stages.fill(0);
    let before = Number.POSITIVE_INFINITY;
    for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
      const residual = this.residual(t, y, h);
      substitute(lu, residual);
      let change = 0;
      for (let i = 0; i < 3 * n; i++) {
        this.stages[i] = this.stages[i]! + residual[i]!;
        const size = Math.abs(y[i % n]!) + Math.abs(this.stages[i]!) + 1e-300;
        change = Math.max(change, Math.abs(residual[i]!) / size);
      }
      if (!Number.isFinite(change)) return false;
      if (change < 1e-14 || (change < 1e-12 && change >= before)) return true;
      if (iteration > 1 && change > 2 * before) return false;
      before = change;
    }
    return before < 1e-11;
  }

  private stageMatrix(h: number): Float64Array {
    const n = this.size;
    const matrix = new Float64Array(9 * n * n);
    for (let a = 0; a < 3; a++) {
      for (let b = 0; b < 3; b++) {
        for (let i = 0; i < n; i++) {
          for (let j = 0; j < n; j++) {
            const identity = a === b && i === j ? 1 : 0;
            const place = (a * n + i) * 3 * n + b * n + j;
            matrix[place] = identity - h * A[a]![b]! * this.jacobian[i * n + j]!;
          }
        }
      }
    }
    return matrix;
  }

  private residual(t: number, y: Float64Array, h: number): Float64Array {
    const n = this.size;
    for (let stage = 0; stage < 3; stage++) {
      for (let i = 0; i < n; i++) this.point[i] = y[i]! + this.stages[stage * n + i]!;
      const out = this.slopes.subarray(stage * n, (stage + 1) * n);
      this.call(t + NODES[stage]! * h, this.point, out);
    }
    const residual = new Float64Array(3 * n);
    for (let a = 0; a < 3; a++) {
      for (let i = 0; i < n; i++) {
        let sum = 0;
        for (let b = 0; b < 3; b++) sum += A[a]![b]! * this.slopes[b * n + i]!;
        residual[a * n + i] = h * sum - this.stages[a * n + i]!;
      }
    }
    return residual;
  }

  /** (u I / h - J)^-1 (u slope / u + sum e_k z_k u / h), u the real eigenvalue. */
  private estimate(_t: number, _y: Float64Array, h: number, error: Float64Array): void {
    const n = this.size;
    const matrix = new Float64Array(n * n);
    for (let i = 0; i < n * n; i++) matrix[i] = -this.jacobian[i]!;
    for (let i = 0; i < n; i++) matrix[i * n + i] = matrix[i * n + i]! + REAL_EIGENVALUE / h;
    for (let i = 0; i < n; i++) {
      let sum = this.slope[i]!;
      for (let k = 0; k < 3; k++) sum += (ESTIMATE[k]! * this.stages[k * n + i]!) / h;
      error[i] = sum;
    }
    const lu = factorise(matrix, n);
    if (lu === undefined) error.fill(Number.NaN);
    else substitute(lu, error);
  }

  private call(t: number, y: Float64Array, out: Float64Array): void {
    this.derivative(t, y, out);
    this.evaluations++;
  }
}

export const IMPLICIT: StepMethod = {
  name: "implicit Radau IIA 5(3)",
  order: 5,
  errorOrder: 4,
  stepper: (derivative, size) => new ImplicitStepper(derivative, size),
};

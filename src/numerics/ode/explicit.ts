/**
 * The explicit Runge-Kutta pair of order 5(4), "A family of embedded Runge-Kutta formulae",
 * Journal of Computational and Applied Mathematics 6 (1980) 19-26,
 * doi 10.1016/0771-050X(80)90013-3. For problems that are not stiff.
 */
import type { Derivative, StepMethod, Stepper } from "./step.ts";

const NODES = [0, 1 / 5, 3 / 10, 4 / 5, 8 / 9, 1, 1];
const WEIGHTS: readonly (readonly number[])[] = [
  [],
  [1 / 5],
  [3 / 40, 9 / 40],
  [44 / 45, -56 / 15, 32 / 9],
  [19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729],
  [9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656],
  [35 / 384, 0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84],
];
const ERROR = [71 / 57600, 0, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40];

class ExplicitStepper implements Stepper {
  evaluations = 0;
  private readonly derivative: Derivative;
  private readonly slopes: Float64Array[];

  constructor(derivative: Derivative, size: number) {
    this.derivative = derivative;
    this.slopes = NODES.map(() => new Float64Array(size));
  }

  step(t: number, y: Float64Array, h: number, next: Float64Array, error: Float64Array): boolean {
    for (let stage = 0; stage < NODES.length; stage++) {
      const weights = WEIGHTS[stage]!;
      for (let i = 0; i < y.length; i++) {
        let sum = 0;
        for (let j = 0; j < weights.length; j++) sum += weights[j]! * this.slopes[j]![i]!;
        next[i] = y[i]! + h * sum;
      }
      this.derivative(t + NODES[stage]! * h, next, this.slopes[stage]!);
    }
    this.evaluations += NODES.length;
    let finite = true;
    for (let i = 0; i < y.length; i++) {
      let sum = 0;
      for (let j = 0; j < ERROR.length; j++) sum += ERROR[j]! * this.slopes[j]![i]!;
      error[i] = h * sum;
      finite &&= Number.isFinite(next[i]!) && Number.isFinite(error[i]!);
    }
    return finite;
  }
}

export const EXPLICIT: StepMethod = {
  name: "explicit Runge-Kutta 5(4)",
  order: 5,
  errorOrder: 5,
  stepper: (derivative, size) => new ExplicitStepper(derivative, size),
};

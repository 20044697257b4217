/** What one step of an integration method needs and gives. */

/** Writes dy/dt at (t, y) into `slope`. */
export type Derivative = (t: number, y: Float64Array, slope: Float64Array) => void;

/** A one-step method with an error estimate. */
export interface StepMethod {
  readonly name: string;
  /** Order p of the solution: the global error falls as h^p. */
  readonly order: number;
  /** The error estimate of one step falls as h^errorOrder. */
  readonly errorOrder: number;
  /** A new stepper for a system of that size. */
  stepper(derivative: Derivative, size: number): Stepper;
}

export interface Stepper {
  /** How often the derivative was called so far. */
  readonly evaluations: number;
  /**
   * One step of length h from (t, y): writes the new state into `next` and the estimated error of
   * each component into `error`. Returns false when the step could not be solved (take a shorter
   * one).
   */
  step(t: number, y: Float64Array, h: number, next: Float64Array, error: Float64Array): boolean;
}

/** Integration of ordinary differential equations with an error-controlled step. */
import { fail } from "../../errors/problem.ts";
import { solve } from "../roots.ts";
import { pow } from "../special/elementary.ts";
import { EXPLICIT } from "./explicit.ts";
import { IMPLICIT } from "./implicit.ts";
import type { Derivative, StepMethod, Stepper } from "./step.ts";

export interface OdeOptions {
  /** "explicit" for smooth problems, "implicit" for stiff ones. Default: explicit. */
  readonly method?: "explicit" | "implicit";
  /** Error allowed per step, relative to each component. Default 1e-9. */
  readonly relative?: number;
  /** Error allowed per step, absolute, one for all or one per component. Default 0. */
  readonly absolute?: number | readonly number[];
  readonly firstStep?: number;
  readonly longestStep?: number;
  readonly mostSteps?: number;
  /** Integration ends where this function of (t, y) changes its sign. */
  readonly event?: (t: number, y: Float64Array) => number;
  /** Called after each accepted step. */
  readonly onStep?: (t: number, y: Float64Array) => void;
}

export interface OdeResult {
  readonly t: number;
  readonly y: Float64Array;
  readonly steps: number;
  readonly rejected: number;
  readonly evaluations: number;
  /** True when the event ended the integration. */
  readonly stopped: boolean;
}

/** Steps never change by more than these factors, and aim below the allowed error. */
const SAFETY = 0.9;
const LEAST = 0.2;
const MOST = 8;

/**
 * Integrates dy/dt = derivative(t, y) from t0 to t1 > t0.
 *
 * Fails when the step shrinks below what a double can add to t, or after `mostSteps` steps.
 */
export function integrate(
  derivative: Derivative,
  start: ArrayLike<number>,
  t0: number,
  t1: number,
  options: OdeOptions = {},
): OdeResult {
  const method = options.method === "implicit" ? IMPLICIT : EXPLICIT;
  const run = new Run(derivative, start, t0, t1, options, method);
  return run.go();
}

class Run {
  private readonly stepper: Stepper;
  private y: Float64Array;
  private next: Float64Array;
  private readonly error: Float64Array;
  private steps = 0;
  private rejected = 0;
  private t: number;
  private h: number;
  private readonly t1: number;
  private readonly options: OdeOptions;
  private readonly exponent: number;

  constructor(
    derivative: Derivative,
    start: ArrayLike<number>,
    t0: number,
    t1: number,
    options: OdeOptions,
    method: StepMethod,
  ) {
    this.y = Float64Array.from(start);
    this.next = new Float64Array(this.y.length);
    this.error = new Float64Array(this.y.length);
    this.stepper = method.stepper(derivative, this.y.length);
    this.t = t0;
    this.t1 = t1;
    this.h = options.firstStep ?? (t1 - t0) * 1e-6;
    this.options = options;
    this.exponent = -1 / method.errorOrder;
  }

  go(): OdeResult {
    const { event, onStep } = this.options;
    let sign = event === undefined ? 0 : Math.sign(event(this.t, this.y));
    while (this.t < this.t1) {
      const h = this.acceptedStep();
      const reached = Math.min(this.t + h, this.t1);
      if (event !== undefined) {
        const after = Math.sign(event(reached, this.next));
        if (sign !== 0 && after !== sign) return this.stopAtEvent(h, event);
        sign = after;
      }
      this.t = reached;
      [this.y, this.next] = [this.next, this.y];
      onStep?.(this.t, this.y);
    }
    return this.result(false);
  }

  /** Tries steps until one is within the allowed error; returns its length. */
  private acceptedStep(): number {
    const longest = this.options.longestStep ?? Number.POSITIVE_INFINITY;
    for (;;) {
      this.requireProgress();
      const h = Math.min(this.h, longest, this.t1 - this.t);
      const solved = this.stepper.step(this.t, this.y, h, this.next, this.error);
      const size = solved ? this.errorSize() : Number.NaN;
      if (size <= 1) {
        // Without any error the factor is infinite.
        const factor = SAFETY * pow(size, this.exponent);
        this.h = h * Math.min(MOST, Math.max(LEAST, factor));
        this.steps++;
        return h;
      }
      this.rejected++;
      const factor = Number.isNaN(size) ? LEAST : SAFETY * pow(size, this.exponent);
      this.h = h * Math.max(LEAST, factor);
    }
  }

  /** The largest error in units of what is allowed. */
  private errorSize(): number {
    const { relative = 1e-9, absolute = 0 } = this.options;
    let largest = 0;
    for (let i = 0; i < this.y.length; i++) {
      const floor = typeof absolute === "number" ? absolute : absolute[i]!;
      const scale = Math.max(Math.abs(this.y[i]!), Math.abs(this.next[i]!));
      const ratio = this.error[i] === 0 ? 0 : Math.abs(this.error[i]!) / (floor + relative * scale);
      if (!(ratio <= largest)) largest = ratio;
    }
    return largest;
  }

  private requireProgress(): void {
    const most = this.options.mostSteps ?? 200_000;
    const stuck = this.t + this.h === this.t;
    if (!stuck && this.steps + this.rejected < most) return;
    fail({
      code: "ode-stuck",
      what: "the integration in time makes no progress",
      got: `step ${this.h} at time ${this.t} after ${this.steps + this.rejected} steps`,
      fix: "allow a larger error, or use the implicit method",
    });
  }

  /** Shortens the last step so that it ends on the event: the order of the method is kept. */
  private stopAtEvent(h: number, event: (t: number, y: Float64Array) => number): OdeResult {
    const value = (share: number): number => {
      this.stepper.step(this.t, this.y, share * h, this.next, this.error);
      return event(this.t + share * h, this.next);
    };
    const share = solve(value, 0, 1, { relative: 1e-15, absolute: 1e-18 });
    this.stepper.step(this.t, this.y, share * h, this.next, this.error);
    this.t += share * h;
    [this.y, this.next] = [this.next, this.y];
    this.options.onStep?.(this.t, this.y);
    return this.result(true);
  }

  private result(stopped: boolean): OdeResult {
    return {
      t: this.t,
      y: this.y,
      steps: this.steps,
      rejected: this.rejected,
      evaluations: this.stepper.evaluations,
      stopped,
    };
  }
}

/**
 * Nonlinear networks: Newton's method on the co-content, the sum over all elements of the integral of I dV. It is
 * strictly convex and its gradient is the missing current, so its slope along a step only grows: a step is cut until
 * the slope has fallen to half, which cannot diverge.
 */
import { approach } from "./approach.ts";
import type { Engine } from "./engine.ts";

/** How an iteration ended. */
export interface Progress {
  /** Only where the residual is small enough for a solution. */
  readonly done: boolean;
  /** Largest Kirchhoff error of a node. */
  readonly residual: number;
  readonly iterations: number;
  readonly solves: number;
}

/** Fall of the error in the energy norm that is asked for in all. */
const TARGET = 1e-13;
/** Kirchhoff error of a node that a solution may have. */
const CLEAN = 1e-12;
/** Kirchhoff error of a solution that no further step improves: what every solution keeps. */
const RESIDUAL = 1e-10;
/** Kirchhoff error of start potentials that are the solution. */
const EXACT = 4e-16;
const MOST_ITERATIONS = 20000;
/** Halvings of a step; more are needed only when currents overflow. */
const MOST_CUTS = 80;
/** Part of the co-content's slope along a step that may remain after it. */
const ENOUGH = 0.5;
/** Bounds of the linear solves' tolerances. */
const LOOSEST = 1e-2;
const TIGHTEST = 1e-8;
/** Solves without getting closer before giving up. */
const PATIENCE = 20;

/** Counts the solves in a row that brought neither the error nor the worst node's residual down by half. */
export class Gains {
  private error = Infinity;
  private residual = Infinity;
  private count = 0;

  stuck(error: number, residual: number): number {
    const gained = error < 0.5 * this.error || residual < 0.5 * this.residual;
    this.count = gained ? 0 : this.count + 1;
    this.error = Math.min(this.error, error);
    this.residual = Math.min(this.residual, residual);
    return this.count;
  }
}

/** Takes the step, or the part of it that lowers the co-content enough; returns the part of the slope that is left. */
function search(engine: Engine, work: number): { residual: number; bend: number; whole: boolean } {
  let low = 0;
  let high = 1;
  let at = 1;
  engine.advance(1);
  for (let cut = 0; ; cut++) {
    engine.evaluate();
    const residual = engine.judge();
    const bend = engine.along() / work;
    // The slope is minus what is missing along the step: bend falls from 1 at the start, below 0 beyond the minimum.
    const beyond = !(bend >= -ENOUGH) || !Number.isFinite(residual);
    if ((!beyond && (bend <= ENOUGH || at === 1)) || cut === MOST_CUTS) {
      return { residual, bend: Math.abs(bend), whole: at === 1 };
    }
    if (beyond) high = at;
    else low = at;
    const next = (low + high) / 2;
    engine.advance(next - at);
    at = next;
  }
}

/** Solves from the engine's present potentials. */
export function newton(engine: Engine, maxSolves: number): Progress {
  engine.evaluate();
  let residual = engine.judge();
  let iterations = 0;
  if (residual <= EXACT) return { done: true, residual, iterations, solves: 0 };
  // The error that is asked for is relative to the whole, which a near start has hardly any of: there the power in the
  // junctions stands for it.
  let first = 0;
  let solved = 0;
  if (engine.near) first = Math.sqrt(Math.max(0, engine.power()));
  else {
    const brought = approach(engine);
    iterations = brought.iterations;
    solved = brought.solves;
    engine.evaluate();
    residual = engine.judge();
  }
  let tolerance = LOOSEST;
  const gains = new Gains();
  for (let solves = solved + 1; ; solves++) {
    engine.prepare();
    const result = engine.solve(tolerance, MOST_ITERATIONS);
    iterations += result.iterations;
    first = Math.max(first, result.start);
    const step = search(engine, result.work);
    residual = step.residual;
    const left = result.start * (result.reduction + step.bend);
    const done = step.whole && left <= TARGET * first && residual <= CLEAN;
    if (done || solves >= maxSolves) return { done, residual, iterations, solves };
    const stuck = gains.stuck(left, residual);
    // Where rounding rules nothing more can be gained.
    if (stuck === PATIENCE || (stuck >= 2 && residual <= CLEAN)) {
      const rounded = residual <= CLEAN ? residual : engine.judgeRounded(CLEAN);
      return { done: rounded <= RESIDUAL, residual: rounded, iterations, solves };
    }
    tolerance = Math.min(LOOSEST, Math.max(TIGHTEST, 0.1 * step.bend * step.bend));
  }
}

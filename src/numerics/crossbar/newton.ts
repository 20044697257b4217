/**
 * Nonlinear networks: Newton's method on the co-content, the sum over all elements of the integral of I dV. It is
 * strictly convex and its gradient is the missing current, so its slope along a step only grows: a step is cut until
 * the slope has fallen to half, which cannot diverge.
 */
import { approach } from "./approach.ts";
import type { Engine } from "./engine.ts";
import { CLEAN, Gains, type Progress, polish } from "./polish.ts";

/** Fall of the error in the energy norm that is asked for in all. */
const TARGET = 1e-13;
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
/** Such solves near the solution before what is left is faint currents only. */
const FAINT = 3;
/** What is near: the error in the energy norm beside the root of the power. */
const NEAR = 1e-8;

/** Takes the step, or the part of it that lowers the co-content enough; returns the part of the slope that is left. */
function search(engine: Engine, work: number): { residual: number; bend: number } {
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
      return { residual, bend: Math.abs(bend) };
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
  let solves = solved;
  while (true) {
    solves++;
    engine.prepare();
    const result = engine.solve(tolerance, MOST_ITERATIONS);
    iterations += result.iterations;
    first = Math.max(first, result.start);
    const step = search(engine, result.work);
    residual = step.residual;
    const left = result.start * (result.reduction + step.bend);
    const done = left <= TARGET * first && residual <= CLEAN;
    if (done || solves >= maxSolves) return { done, residual, iterations, solves };
    const stuck = gains.stuck(left, residual);
    if (stuck >= 2 && residual <= CLEAN) return { done: true, residual, iterations, solves };
    if (stuck === PATIENCE) return polish(engine, { iterations, solves }, maxSolves);
    // Near the solution rounding rules the whole, and with it how steps are cut: what is left may be faint currents, or
    // an exponential that comes down by one scale voltage per step.
    if (stuck === FAINT && left <= NEAR * Math.sqrt(engine.power())) {
      const polished = polish(engine, { iterations, solves }, maxSolves);
      if (polished.done) return polished;
      ({ iterations, solves } = polished);
    }
    tolerance = Math.min(LOOSEST, Math.max(TIGHTEST, 0.1 * step.bend * step.bend));
  }
}

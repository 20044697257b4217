/**
 * Linear networks: solve, judge by currents that are right to their last digits, solve for what is missing. A second
 * solve brings currents that nearly vanish, such as leaks beside large currents, to their own relative accuracy.
 */
import type { Engine } from "./engine.ts";
import { CLEAN, Gains, type Progress, polish } from "./polish.ts";

/** Fall of the error in the energy norm that is asked for in all, and of the first solve. */
const TARGET = 3e-16;
const FIRST = 1e-8;
/** Tolerance when the error is small and some node is still not balanced. */
const TIGHTEST = 1e-13;
/** Kirchhoff error of start potentials that are the solution. */
const EXACT = 4e-16;
/** Arrays up to this many nodes are refined tightly at once. */
const SMALL = 1024;
const MOST_ITERATIONS = 20000;
/** Solves without getting closer before rounding rules. */
const PATIENCE = 3;

export function refine(engine: Engine, maxSolves: number): Progress {
  engine.evaluate();
  let residual = engine.judge();
  if (residual <= EXACT) return { done: true, residual, iterations: 0, solves: 0 };
  engine.prepare();
  let iterations = 0;
  let first = 0;
  const gains = new Gains();
  let tolerance = FIRST;
  for (let solves = 1; ; solves++) {
    const result = engine.solve(tolerance, MOST_ITERATIONS);
    iterations += result.iterations;
    engine.advance(1);
    engine.evaluate();
    residual = engine.judge();
    if (solves === 1) first = result.start;
    const left = result.start * result.reduction;
    const done = left <= TARGET * first && residual <= CLEAN;
    if (done || solves === maxSolves) return { done, residual, iterations, solves };
    if (gains.stuck(left, residual) === PATIENCE)
      return polish(engine, { iterations, solves }, maxSolves);
    // Only nodes with hardly any current are left: what rounding stirs up elsewhere must not reach them.
    const close = left <= TARGET * first || engine.size <= SMALL;
    tolerance = close ? TIGHTEST : Math.min(1e-2, Math.max(1e-8, (0.5 * TARGET * first) / left));
  }
}

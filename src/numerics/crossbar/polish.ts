/**
 * The end of an iteration where rounding rules. What is left are the faint currents of nodes beside large ones, or of
 * parts that hardly anything ties to the rest, which conjugate gradients don't see.
 */
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

/** Kirchhoff error of a node that a solution may have. */
export const CLEAN = 1e-12;
/** Kirchhoff error of a solution that no further step improves: what every solution keeps. */
const RESIDUAL = 1e-10;
/** Solves without getting closer before currents are as they are. */
const PATIENCE = 3;

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

/**
 * Whole steps, each as exact as it gets: currents that nearly vanish come to their own relative accuracy, or to what
 * rounding leaves of them.
 *
 * @param before what it took to come here
 */
export function polish(
  engine: Engine,
  before: Pick<Progress, "iterations" | "solves">,
  maxSolves: number,
): Progress {
  const gains = new Gains();
  let { iterations, solves } = before;
  while (solves < maxSolves) {
    iterations += engine.solveExactly();
    solves++;
    engine.advance(1);
    engine.evaluate();
    const residual = engine.judge();
    if (residual <= CLEAN) return { done: true, residual, iterations, solves };
    if (gains.stuck(Infinity, residual) >= PATIENCE) break;
  }
  const residual = engine.judgeRounded(CLEAN);
  return { done: residual <= RESIDUAL, residual, iterations, solves };
}

/** Solves the linearised network for a step of all node voltages. */
import { conjugateGradients, type GradientResult } from "./gradient.ts";
import type { Block } from "./kernels/instance.ts";
import type { Level } from "./level.ts";
import { rowsSolve, type Vectors } from "./sweeps.ts";

export interface StepResult extends GradientResult {
  /** Missing currents times the step [W]. */
  readonly work: number;
}

export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += a[k]! * b[k]!;
  return sum;
}

/**
 * Replaces the missing currents by the voltage steps that supply them: K [du; dw] = [Ru; Rw].
 * @param u in: missing currents of the row nodes [A]; out: du [V]
 * @param vectors in: r holds those of the column nodes; out: w holds dw [V]
 */
export function solveStep(
  level: Level,
  u: Block,
  vectors: Vectors,
  tolerance: number,
  maxIterations: number,
): StepResult {
  const { g, kernels } = level;
  const { r, s, w } = vectors;
  const bytes = 8 * g.view.length;
  rowsSolve(level, u, s);
  const ownWork = dot(u.view, s.view);
  kernels.addProduct(g.at, s.at, r.at, bytes);
  const result = conjugateGradients(level, vectors, tolerance, maxIterations);
  kernels.addProduct(g.at, w.at, u.at, bytes);
  rowsSolve(level, u, u);
  return { ...result, work: ownWork + result.work };
}

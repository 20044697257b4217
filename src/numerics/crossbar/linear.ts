/** Solves the linearised network for a step of all node voltages. */
import { conjugateGradients, type GradientResult, type Vectors } from "./gradient.ts";
import type { Level } from "./level.ts";
import type { Residual } from "./residual.ts";
import { rowsSolve } from "./sweeps.ts";

/**
 * Replaces the missing currents by the voltage steps that supply them: K [du; dw] = [Ru; Rw].
 * @param missing in: residual [A]; out: u holds du, and the vectors' w holds dw [V]
 */
export function solveStep(
  level: Level,
  missing: Residual,
  vectors: Vectors,
  tolerance: number,
  maxIterations: number,
): GradientResult {
  const { g } = level;
  const { r, w } = vectors;
  const du = missing.u;
  const rw = missing.w;
  const x = vectors.s;
  rowsSolve(level, du, x);
  const cut = level.top * level.n;
  r.fill(0, 0, cut);
  for (let k = cut; k < g.length; k++) r[k] = rw[k]! + g[k]! * x[k]!;
  const result = conjugateGradients(level, vectors, tolerance, maxIterations);
  for (let k = 0; k < g.length; k++) du[k]! += g[k]! * w[k]!;
  rowsSolve(level, du, du);
  return result;
}

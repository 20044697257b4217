/** Conjugate gradients on S w = r, the network seen from its column nodes. */
import { cycle } from "./cycle.ts";
import type { Level } from "./level.ts";
import { columnsForward, finishAndApply, updateAndStart, type Vectors } from "./sweeps.ts";

export interface GradientResult {
  readonly iterations: number;
  /** The error in the energy norm [sqrt(W)], before, as the preconditioner judges it. */
  readonly start: number;
  /** How far it has fallen. */
  readonly reduction: number;
  /** Right-hand side times solution [W]. */
  readonly work: number;
}

/** Steps without a new smallest residual after which rounding rules. */
const PATIENCE = 60;

/**
 * Solves S w = r to a fall of the preconditioned residual (r·M⁻¹r)^½ by `tolerance`, with one synchronisation per
 * step: q = S p and p·q are carried by recurrence. `r` is overwritten, `w` receives the solution.
 */
export function conjugateGradients(
  level: Level,
  vectors: Vectors,
  tolerance: number,
  maxIterations: number,
): GradientResult {
  const { r, s, p, q, w } = vectors;
  const sums = level.sums.view;
  p.view.fill(0);
  q.view.fill(0);
  w.view.fill(0);
  columnsForward(level, r);
  finishAndApply(level, r, cycle(level, r), s);
  const start = sums[0]!;
  if (!(start > 0)) return { iterations: 0, start: 0, reduction: 0, work: 0 };
  let rz = start;
  let beta = 0;
  let pq = sums[1]!;
  let best = start;
  let bestAt = 0;
  let work = 0;
  let k = 0;
  while (k < maxIterations) {
    if (!(pq > 0)) break;
    const alpha = rz / pq;
    updateAndStart(level, vectors, alpha, beta);
    work += alpha * rz;
    k++;
    finishAndApply(level, r, cycle(level, r), s);
    const next = sums[0]!;
    if (!(next > tolerance * tolerance * start)) {
      rz = Math.max(next, 0);
      break;
    }
    if (next < best) {
      best = next;
      bestAt = k;
    } else if (k - bestAt > PATIENCE) break;
    beta = next / rz;
    pq = sums[1]! - (beta * next) / alpha;
    rz = next;
  }
  const reduction = Math.sqrt(rz / start);
  return { iterations: k, start: Math.sqrt(start), reduction, work };
}

/** Conjugate gradients on S w = r, the network seen from its column nodes. */
import { cycle } from "./cycle.ts";
import { finishAndApply, updateAndStart } from "./fused.ts";
import type { Level } from "./level.ts";
import { columnsForward } from "./sweeps.ts";

/** Work vectors of the finest level. `r` holds the right-hand side and is overwritten, `w` receives the solution. */
export interface Vectors {
  readonly r: Float64Array;
  readonly s: Float64Array;
  readonly p: Float64Array;
  readonly q: Float64Array;
  readonly w: Float64Array;
}

export interface GradientResult {
  readonly iterations: number;
  /** How far the preconditioned residual has fallen. */
  readonly reduction: number;
}

/** Steps without a new smallest residual after which rounding rules. */
const PATIENCE = 60;

/**
 * Solves S w = r to a fall of the preconditioned residual (r·M⁻¹r)^½ by `tolerance`, with one synchronisation per
 * step: q = S p and p·q are carried by recurrence.
 */
export function conjugateGradients(
  level: Level,
  vectors: Vectors,
  tolerance: number,
  maxIterations: number,
): GradientResult {
  const { r, s, p, q, w } = vectors;
  p.fill(0);
  q.fill(0);
  w.fill(0);
  const sums = new Float64Array(2);
  columnsForward(level, r);
  finishAndApply(level, r, cycle(level, r), s, sums);
  const start = sums[0]!;
  if (!(start > 0)) return { iterations: 0, reduction: 0 };
  let rz = start;
  let beta = 0;
  let pq = sums[1]!;
  let best = start;
  let bestAt = 0;
  let k = 0;
  while (k < maxIterations) {
    if (!(pq > 0)) break;
    const alpha = rz / pq;
    updateAndStart(level, vectors, alpha, beta);
    k++;
    finishAndApply(level, r, cycle(level, r), s, sums);
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
  return { iterations: k, reduction: Math.sqrt(rz / start) };
}

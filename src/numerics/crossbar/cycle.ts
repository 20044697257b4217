/** The preconditioner: one column-line solve, or a symmetric V-cycle over coarser crossbars. */
import { finishAndRestrict, prolongAndStart } from "./fused.ts";
import type { Level } from "./level.ts";
import { columnsBack, columnsForward } from "./sweeps.ts";

/**
 * Brings z from the forward sums of r to those of h with z = Tc⁻¹ h, the preconditioned r; the caller finishes the
 * column solve. Without a coarser level h is r itself.
 * @returns h
 */
export function cycle(level: Level, r: Float64Array): Float64Array {
  if (level.coarse === undefined) return r;
  finishAndRestrict(level);
  const next = level.coarse.level;
  columnsForward(next, next.r);
  cycle(next, next.r);
  columnsBack(next);
  prolongAndStart(level, r, level.h);
  return level.h;
}

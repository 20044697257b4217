/** The preconditioner: one column-line solve, or a symmetric cycle over coarser crossbars. */
import type { Block } from "./kernels/instance.ts";
import type { Level } from "./level.ts";
import {
  columnsBack,
  columnsForward,
  finishAndApply,
  finishAndRestrict,
  prolongAndStart,
  updateAndStart,
} from "./sweeps.ts";

/**
 * Brings z from the forward sums of r to those of h with z = Tc⁻¹ h, the preconditioned r; the caller finishes the
 * column solve. Without a coarser level h is r itself.
 * @returns h
 */
export function cycle(level: Level, r: Block): Block {
  if (level.coarser === undefined) return r;
  finishAndRestrict(level);
  solveRoughly(level.coarser.level);
  prolongAndStart(level, r);
  return level.h;
}

/** z ← about S⁻¹ r: one cycle, or two where the nodes are tied and one does not do. */
function solveRoughly(level: Level): void {
  const { r, z, again, kernels } = level;
  columnsForward(level, r);
  const h = cycle(level, r);
  if (again === undefined) {
    columnsBack(level);
    return;
  }
  finishAndApply(level, r, h, level.h);
  again.w.view.fill(0);
  updateAndStart(level, { r, s: level.h, ...again }, 1, 0);
  cycle(level, r);
  columnsBack(level);
  kernels.add(again.w.at, z.at, 8 * z.view.length);
}

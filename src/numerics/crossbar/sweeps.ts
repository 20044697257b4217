/**
 * The passes over one level. `Tr` and `Tc` are the line systems of all rows and all columns (wires + junctions + ends),
 * G the diagonal of the junction conductances; S = Tc - G Tr⁻¹ G is the network seen from the column nodes.
 */
import type { Block } from "./kernels/instance.ts";
import type { Level } from "./level.ts";

/** z ← forward sums of the column solve of b. */
export function columnsForward(level: Level, b: Block): void {
  const { shape, z, columns, kernels } = level;
  kernels.columnsForward(z.at, b.at, columns.c.at, shape.m, 8 * shape.n);
}

function closeColumns(level: Level): void {
  const { shape, z, columns, kernels } = level;
  kernels.closeColumns(z.at, columns.last.at, shape.m, 8 * shape.n);
}

/** z ← Tc⁻¹ b from its forward sums. */
export function columnsBack(level: Level): void {
  const { shape, z, columns, kernels, wires } = level;
  closeColumns(level);
  kernels.columnsBack(z.at, columns.c.at, shape.m, 8 * shape.n, wires.column);
}

/** x = Tr⁻¹ b for all rows; x may be b. */
export function rowsSolve(level: Level, b: Block, x: Block): void {
  const { shape, rows, scratch, kernels, wires } = level;
  const { m, n } = shape;
  kernels.rowsSolve(b.at, x.at, rows.c.at, rows.last.at, scratch.at, m, 8 * n, wires.row);
}

/** Vectors of an iteration on a level; q = S p, s = S z. */
export interface Vectors {
  readonly r: Block;
  readonly s: Block;
  readonly p: Block;
  readonly q: Block;
  readonly w: Block;
}

/** p ← z + βp, q ← s + βq, w += αp, r -= αq, z ← forward sums of r. */
export function updateAndStart(level: Level, v: Vectors, alpha: number, beta: number): void {
  const { shape, z, columns, kernels } = level;
  kernels.updateAndStart(
    ...[z.at, v.s.at, v.p.at, v.q.at, v.w.at, v.r.at, columns.c.at, shape.m, 8 * shape.n],
    alpha,
    beta,
  );
}

/** z ← Tc⁻¹ h from its forward sums, s = S z; returns r·z and z·s in the level's sums. */
export function finishAndApply(level: Level, r: Block, h: Block, s: Block): void {
  const { shape, z, g, rows, columns, scratch, sums, kernels, wires } = level;
  closeColumns(level);
  kernels.finishAndApply(
    ...[z.at, g.at, rows.c.at, rows.last.at, columns.c.at, scratch.at, shape.m, 8 * shape.n],
    ...[r.at, h.at, s.at, sums.at],
    wires.row,
    wires.column,
  );
}

/** z ← Tc⁻¹ r from its forward sums; what is left, r - S z = G Tr⁻¹ G z, goes to the coarser level. */
export function finishAndRestrict(level: Level): void {
  const { shape, z, g, rows, columns, scratch, kernels, wires } = level;
  const { level: coarse, joins, columnOf } = level.coarser!;
  coarse.r.view.fill(0);
  closeColumns(level);
  kernels.finishAndRestrict(
    ...[z.at, g.at, rows.c.at, rows.last.at, columns.c.at, scratch.at, shape.m, 8 * shape.n],
    ...[joins, columnOf, coarse.r.at, 8 * coarse.shape.n],
    wires.row,
    wires.column,
  );
}

/** z += coarse correction, h = r + G Tr⁻¹ G z, z ← forward sums of h. */
export function prolongAndStart(level: Level, r: Block): void {
  const { shape, z, g, rows, columns, scratch, kernels, wires, h } = level;
  const { level: coarse, joins, columnOf } = level.coarser!;
  kernels.prolongAndStart(
    ...[z.at, g.at, rows.c.at, rows.last.at, columns.c.at, scratch.at, shape.m, 8 * shape.n],
    ...[joins, columnOf, coarse.z.at, 8 * coarse.shape.n, r.at, h.at],
    wires.row,
  );
}

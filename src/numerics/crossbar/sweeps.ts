/**
 * The passes over one level. `Tr` and `Tc` are the line systems of all rows and all columns (wires + junctions + ends),
 * G the diagonal of the junction conductances; S = Tc - G Tr⁻¹ G is the network seen from the column nodes.
 * Rows go four at a time: four independent recurrences hide each other's latency.
 */
import type { Level } from "./level.ts";

/** z = forward sums of the column solve of b: z_i = b_i + c_{i-1} z_{i-1}. */
export function columnsForward(level: Level, b: Float64Array): void {
  const { m, n, z } = level;
  const c = level.columns.c;
  for (let j = 0; j < n; j++) z[j] = b[j]!;
  for (let k = n, end = m * n; k < end; k++) z[k] = b[k]! + c[k - n]! * z[k - n]!;
}

/** Finishes the column solve: z = Tc⁻¹ b from its forward sums. */
export function columnsBack(level: Level): void {
  const { m, n, z, columnResistance: r } = level;
  const { c, last } = level.columns;
  const o = (m - 1) * n;
  for (let j = 0; j < n; j++) z[o + j]! *= last[j]!;
  for (let k = o - 1; k >= 0; k--) z[k] = (r * z[k]! + z[k + n]!) * c[k]!;
}

/** x = Tr⁻¹ b for all rows; x may be b. */
export function rowsSolve(level: Level, b: Float64Array, x: Float64Array): void {
  const { m, n, rowResistance: r } = level;
  const { c, last } = level.rows;
  for (let i = 0; i < m; i += 4) {
    const a0 = i * n;
    const a1 = a0 + n;
    const a2 = a1 + n;
    const a3 = a2 + n;
    let y0 = 0;
    let y1 = 0;
    let y2 = 0;
    let y3 = 0;
    for (let j = 0; j < n; j++) {
      y0 += b[a0 + j]!;
      y1 += b[a1 + j]!;
      y2 += b[a2 + j]!;
      y3 += b[a3 + j]!;
      x[a0 + j] = y0;
      x[a1 + j] = y1;
      x[a2 + j] = y2;
      x[a3 + j] = y3;
      y0 *= c[a0 + j]!;
      y1 *= c[a1 + j]!;
      y2 *= c[a2 + j]!;
      y3 *= c[a3 + j]!;
    }
    let x0 = x[a0 + n - 1]! * last[i]!;
    let x1 = x[a1 + n - 1]! * last[i + 1]!;
    let x2 = x[a2 + n - 1]! * last[i + 2]!;
    let x3 = x[a3 + n - 1]! * last[i + 3]!;
    x[a0 + n - 1] = x0;
    x[a1 + n - 1] = x1;
    x[a2 + n - 1] = x2;
    x[a3 + n - 1] = x3;
    for (let j = n - 2; j >= 0; j--) {
      x0 = (r * x[a0 + j]! + x0) * c[a0 + j]!;
      x1 = (r * x[a1 + j]! + x1) * c[a1 + j]!;
      x2 = (r * x[a2 + j]! + x2) * c[a2 + j]!;
      x3 = (r * x[a3 + j]! + x3) * c[a3 + j]!;
      x[a0 + j] = x0;
      x[a1 + j] = x1;
      x[a2 + j] = x2;
      x[a3 + j] = x3;
    }
  }
}

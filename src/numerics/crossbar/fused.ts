/**
 * The passes of one conjugate-gradient step, fused so that every array is read as seldom as possible: the column solve
 * runs back over the rows and hands each group of four, still in cache, to the row solve.
 */
import type { Level } from "./level.ts";

/**
 * Finishes z = Tc⁻¹ h from its forward sums and applies the network: s = h - G Tr⁻¹ G z = S z, written over h.
 * @param sums receives r·z and z·s
 */
export function finishAndApply(
  level: Level,
  r: Float64Array,
  h: Float64Array,
  s: Float64Array,
  sums: Float64Array,
): void {
  const { m, n, z, g, scratch: y, rowResistance: rr, columnResistance: rc } = level;
  const cr = level.rows.c;
  const cc = level.columns.c;
  const { last } = level.rows;
  scaleLastRow(level);
  let rz = 0;
  let zs = 0;
  for (let i = m - 4; i >= 0; i -= 4) {
    const a0 = i * n;
    const a1 = a0 + n;
    const a2 = a1 + n;
    const a3 = a2 + n;
    const end = i === m - 4;
    const below = end ? a3 : a3 + n;
    let y0 = 0;
    let y1 = 0;
    let y2 = 0;
    let y3 = 0;
    for (let j = 0, k = 0; j < n; j++, k += 4) {
      const under = z[below + j]!;
      const z3 = end ? under : (rc * z[a3 + j]! + under) * cc[a3 + j]!;
      const z2 = (rc * z[a2 + j]! + z3) * cc[a2 + j]!;
      const z1 = (rc * z[a1 + j]! + z2) * cc[a1 + j]!;
      const z0 = (rc * z[a0 + j]! + z1) * cc[a0 + j]!;
      z[a3 + j] = z3;
      z[a2 + j] = z2;
      z[a1 + j] = z1;
      z[a0 + j] = z0;
      rz += r[a0 + j]! * z0 + r[a1 + j]! * z1 + (r[a2 + j]! * z2 + r[a3 + j]! * z3);
      y0 += g[a0 + j]! * z0;
      y1 += g[a1 + j]! * z1;
      y2 += g[a2 + j]! * z2;
      y3 += g[a3 + j]! * z3;
      y[k] = y0;
      y[k + 1] = y1;
      y[k + 2] = y2;
      y[k + 3] = y3;
      y0 *= cr[a0 + j]!;
      y1 *= cr[a1 + j]!;
      y2 *= cr[a2 + j]!;
      y3 *= cr[a3 + j]!;
    }
    const e = 4 * n - 4;
    let x0 = y[e]! * last[i]!;
    let x1 = y[e + 1]! * last[i + 1]!;
    let x2 = y[e + 2]! * last[i + 2]!;
    let x3 = y[e + 3]! * last[i + 3]!;
    for (let j = n - 1, k = e; ; ) {
      const s0 = h[a0 + j]! - g[a0 + j]! * x0;
      const s1 = h[a1 + j]! - g[a1 + j]! * x1;
      const s2 = h[a2 + j]! - g[a2 + j]! * x2;
      const s3 = h[a3 + j]! - g[a3 + j]! * x3;
      s[a0 + j] = s0;
      s[a1 + j] = s1;
      s[a2 + j] = s2;
      s[a3 + j] = s3;
      zs += z[a0 + j]! * s0 + z[a1 + j]! * s1 + (z[a2 + j]! * s2 + z[a3 + j]! * s3);
      if (--j < 0) break;
      k -= 4;
      x0 = (rr * y[k]! + x0) * cr[a0 + j]!;
      x1 = (rr * y[k + 1]! + x1) * cr[a1 + j]!;
      x2 = (rr * y[k + 2]! + x2) * cr[a2 + j]!;
      x3 = (rr * y[k + 3]! + x3) * cr[a3 + j]!;
    }
  }
  sums[0] = rz;
  sums[1] = zs;
}

function scaleLastRow(level: Level): void {
  const { m, n, z } = level;
  const { last } = level.columns;
  const o = (m - 1) * n;
  for (let j = 0; j < n; j++) z[o + j]! *= last[j]!;
}

/**
 * Finishes z = Tc⁻¹ r from its forward sums and restricts what is left, r - S z = G Tr⁻¹ G z, to the coarse level.
 */
export function finishAndRestrict(level: Level): void {
  const { m, n, z, g, scratch: y, rowResistance: rr, columnResistance: rc } = level;
  const cr = level.rows.c;
  const cc = level.columns.c;
  const { last } = level.rows;
  const { level: coarse, rowOf, columnOf } = level.coarse!;
  const out = coarse.r;
  const nc = coarse.n;
  out.fill(0);
  scaleLastRow(level);
  for (let i = m - 4; i >= 0; i -= 4) {
    const a0 = i * n;
    const a1 = a0 + n;
    const a2 = a1 + n;
    const a3 = a2 + n;
    const end = i === m - 4;
    const below = end ? a3 : a3 + n;
    let y0 = 0;
    let y1 = 0;
    let y2 = 0;
    let y3 = 0;
    for (let j = 0, k = 0; j < n; j++, k += 4) {
      const under = z[below + j]!;
      const z3 = end ? under : (rc * z[a3 + j]! + under) * cc[a3 + j]!;
      const z2 = (rc * z[a2 + j]! + z3) * cc[a2 + j]!;
      const z1 = (rc * z[a1 + j]! + z2) * cc[a1 + j]!;
      const z0 = (rc * z[a0 + j]! + z1) * cc[a0 + j]!;
      z[a3 + j] = z3;
      z[a2 + j] = z2;
      z[a1 + j] = z1;
      z[a0 + j] = z0;
      y0 += g[a0 + j]! * z0;
      y1 += g[a1 + j]! * z1;
      y2 += g[a2 + j]! * z2;
      y3 += g[a3 + j]! * z3;
      y[k] = y0;
      y[k + 1] = y1;
      y[k + 2] = y2;
      y[k + 3] = y3;
      y0 *= cr[a0 + j]!;
      y1 *= cr[a1 + j]!;
      y2 *= cr[a2 + j]!;
      y3 *= cr[a3 + j]!;
    }
    const e = 4 * n - 4;
    let x0 = y[e]! * last[i]!;
    let x1 = y[e + 1]! * last[i + 1]!;
    let x2 = y[e + 2]! * last[i + 2]!;
    let x3 = y[e + 3]! * last[i + 3]!;
    const b0 = rowOf[i]! * nc;
    const b1 = rowOf[i + 1]! * nc;
    const b2 = rowOf[i + 2]! * nc;
    const b3 = rowOf[i + 3]! * nc;
    for (let j = n - 1, k = e; ; ) {
      const q = columnOf[j]!;
      out[b0 + q]! += g[a0 + j]! * x0;
      out[b1 + q]! += g[a1 + j]! * x1;
      out[b2 + q]! += g[a2 + j]! * x2;
      out[b3 + q]! += g[a3 + j]! * x3;
      if (--j < 0) break;
      k -= 4;
      x0 = (rr * y[k]! + x0) * cr[a0 + j]!;
      x1 = (rr * y[k + 1]! + x1) * cr[a1 + j]!;
      x2 = (rr * y[k + 2]! + x2) * cr[a2 + j]!;
      x3 = (rr * y[k + 3]! + x3) * cr[a3 + j]!;
    }
  }
}

/**
 * Adds the coarse correction to z, forms h = r + G Tr⁻¹ G z and starts the column solve of h (its forward sums go
 * over z).
 */
export function prolongAndStart(level: Level, r: Float64Array, h: Float64Array): void {
  const { m, n, z, g, scratch: y, rowResistance: rr } = level;
  const cr = level.rows.c;
  const cc = level.columns.c;
  const { last } = level.rows;
  const { level: coarse, rowOf, columnOf } = level.coarse!;
  const from = coarse.z;
  const nc = coarse.n;
  for (let i = 0; i < m; i += 4) {
    const a0 = i * n;
    const a1 = a0 + n;
    const a2 = a1 + n;
    const a3 = a2 + n;
    const b0 = rowOf[i]! * nc;
    const b1 = rowOf[i + 1]! * nc;
    const b2 = rowOf[i + 2]! * nc;
    const b3 = rowOf[i + 3]! * nc;
    let y0 = 0;
    let y1 = 0;
    let y2 = 0;
    let y3 = 0;
    for (let j = 0, k = 0; j < n; j++, k += 4) {
      const q = columnOf[j]!;
      y0 += g[a0 + j]! * (z[a0 + j]! + from[b0 + q]!);
      y1 += g[a1 + j]! * (z[a1 + j]! + from[b1 + q]!);
      y2 += g[a2 + j]! * (z[a2 + j]! + from[b2 + q]!);
      y3 += g[a3 + j]! * (z[a3 + j]! + from[b3 + q]!);
      y[k] = y0;
      y[k + 1] = y1;
      y[k + 2] = y2;
      y[k + 3] = y3;
      y0 *= cr[a0 + j]!;
      y1 *= cr[a1 + j]!;
      y2 *= cr[a2 + j]!;
      y3 *= cr[a3 + j]!;
    }
    const e = 4 * n - 4;
    let x0 = y[e]! * last[i]!;
    let x1 = y[e + 1]! * last[i + 1]!;
    let x2 = y[e + 2]! * last[i + 2]!;
    let x3 = y[e + 3]! * last[i + 3]!;
    const above = i === 0 ? 0 : a0 - n;
    const carry = i === 0 ? 0 : 1;
    for (let j = n - 1, k = e; ; ) {
      const h0 = r[a0 + j]! + g[a0 + j]! * x0;
      const h1 = r[a1 + j]! + g[a1 + j]! * x1;
      const h2 = r[a2 + j]! + g[a2 + j]! * x2;
      const h3 = r[a3 + j]! + g[a3 + j]! * x3;
      h[a0 + j] = h0;
      h[a1 + j] = h1;
      h[a2 + j] = h2;
      h[a3 + j] = h3;
      const z0 = h0 + carry * cc[above + j]! * z[above + j]!;
      const z1 = h1 + cc[a0 + j]! * z0;
      const z2 = h2 + cc[a1 + j]! * z1;
      z[a0 + j] = z0;
      z[a1 + j] = z1;
      z[a2 + j] = z2;
      z[a3 + j] = h3 + cc[a2 + j]! * z2;
      if (--j < 0) break;
      k -= 4;
      x0 = (rr * y[k]! + x0) * cr[a0 + j]!;
      x1 = (rr * y[k + 1]! + x1) * cr[a1 + j]!;
      x2 = (rr * y[k + 2]! + x2) * cr[a2 + j]!;
      x3 = (rr * y[k + 3]! + x3) * cr[a3 + j]!;
    }
  }
}

/**
 * The vector updates of a conjugate-gradient step, p ← z + βp, q ← s + βq (= S p), w += αp, r -= αq, and the start of
 * the column solve of the new r.
 */
export function updateAndStart(
  level: Level,
  vectors: { r: Float64Array; s: Float64Array; p: Float64Array; q: Float64Array; w: Float64Array },
  alpha: number,
  beta: number,
): void {
  const { m, n, z } = level;
  const { r, s, p, q, w } = vectors;
  const c = level.columns.c;
  const update = (from: number, to: number) => {
    for (let k = from; k < to; k++) {
      const pk = z[k]! + beta * p[k]!;
      const qk = s[k]! + beta * q[k]!;
      p[k] = pk;
      q[k] = qk;
      w[k]! += alpha * pk;
      const rk = r[k]! - alpha * qk;
      r[k] = rk;
      z[k] = k >= n ? rk + c[k - n]! * z[k - n]! : rk;
    }
  };
  update(0, m * n);
}

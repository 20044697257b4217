/**
 * Tridiagonal line systems by accumulated excess: a line of nodes joined by segments of resistance r, every node with a
 * conductance G to elsewhere, the ends with conductances g. Only positive numbers are added, so every factor is right to
 * the last digits however weak the conductances are; a floating line, r = 0 and an ideal end (g infinite) need no
 * special code. With s the conductance that is seen from a node backwards along the line, the node itself included,
 *
 *   c = 1 / (1 + r s),   s' = G' + c s,   forward y' = b' + c y,   back x = (r y + x') c,   x_last = y / s.
 */

/** `c` of every node, and 1/s at the last node of every line (0 for a line that is held at its far end). */
export interface LineFactors {
  readonly c: Float64Array;
  readonly last: Float64Array;
}

/** One step: what the next node sees through the segment, and the share c that reaches it. */
function pass(s: number, r: number): { c: number; through: number } {
  if (s === Infinity) return { c: 0, through: r > 0 ? 1 / r : Infinity };
  const c = 1 / (1 + r * s);
  return { c, through: c * s };
}

/**
 * Factors all rows of an array.
 * @param g junction conductances, m x n [S]
 * @param r segment resistance [ohm]
 * @param first conductances of the ends at column 0 [S], `far` at the last column
 */
export function factorRows(
  g: Float64Array,
  m: number,
  n: number,
  r: number,
  first: Float64Array,
  far: Float64Array,
  into: LineFactors,
): void {
  const { c, last } = into;
  for (let i = 0; i < m; i++) {
    const o = i * n;
    let s = g[o]! + first[i]!;
    for (let j = 0; j < n - 1; j++) {
      if (s === Infinity) {
        const step = pass(s, r);
        c[o + j] = step.c;
        s = g[o + j + 1]! + step.through;
      } else {
        const cj = 1 / (1 + r * s);
        c[o + j] = cj;
        s = g[o + j + 1]! + cj * s;
      }
    }
    s += far[i]!;
    c[o + n - 1] = 1;
    last[i] = s > 0 ? 1 / s : 0;
  }
}

/** Factors all columns; as `factorRows`, with `first` at row `top`, above which nothing is joined, and `far` at the end. */
export function factorColumns(
  g: Float64Array,
  m: number,
  n: number,
  top: number,
  r: number,
  first: Float64Array,
  far: Float64Array,
  into: LineFactors,
): void {
  const { c, last } = into;
  const s = Float64Array.from(first);
  c.fill(1, 0, top * n);
  for (let j = 0; j < n; j++) s[j]! += g[top * n + j]!;
  for (let i = top; i < m - 1; i++) {
    const o = i * n;
    for (let j = 0; j < n; j++) {
      const sj = s[j]!;
      if (sj === Infinity) {
        const step = pass(sj, r);
        c[o + j] = step.c;
        s[j] = g[o + n + j]! + step.through;
      } else {
        const cj = 1 / (1 + r * sj);
        c[o + j] = cj;
        s[j] = g[o + n + j]! + cj * sj;
      }
    }
  }
  const o = (m - 1) * n;
  for (let j = 0; j < n; j++) {
    const sj = s[j]! + far[j]!;
    c[o + j] = 1;
    last[j] = sj > 0 ? 1 / sj : 0;
  }
}

/** Rounding to whole numbers that does not take rounding noise for a difference. */

/**
 * Rounding noise must not add a stage, a row or a bank: `log(1000) / log(10)` is 2.9999999999999996
 * and `3 * 0.1 / 0.1` is 3.0000000000000004. What is this close to a whole number, relative to it,
 * is taken as that number.
 */
export const NOISE = 1e-12;

/** The nearest whole number; of halves the upper. */
function nearest(x: number): number {
  const down = Math.floor(x);
  return down + (x - down >= 0.5 ? 1 : 0);
}

/** The least whole number not below x, but for rounding noise. */
export function ceil(x: number): number {
  const near = nearest(x);
  return Math.abs(x - near) <= NOISE * Math.max(1, Math.abs(x)) ? near : Math.ceil(x);
}

/** The greatest whole number not above x, but for rounding noise. */
export function floor(x: number): number {
  const near = nearest(x);
  return Math.abs(x - near) <= NOISE * Math.max(1, Math.abs(x)) ? near : Math.floor(x);
}

/** The nearest whole number, halves away from zero. */
export function round(x: number): number {
  return x < 0 ? -nearest(-x) : nearest(x);
}

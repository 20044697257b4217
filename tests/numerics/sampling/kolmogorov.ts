/** The one-sample Kolmogorov-Smirnov test: does a sample follow a distribution? */
import { exp } from "../../../src/numerics/special/elementary.ts";

/** The largest distance between the steps of a rising sample and a distribution function. */
export function kolmogorovDistance(
  rising: ArrayLike<number>,
  cumulative: (x: number) => number,
): number {
  const n = rising.length;
  let largest = 0;
  for (let i = 0; i < n; i++) {
    const f = cumulative(rising[i]!);
    largest = Math.max(largest, f - i / n, (i + 1) / n - f);
  }
  return largest;
}

/**
 * P(sqrt(n) D > x) in the limit of many draws. Small x use the theta-function form, since the
 * alternating series loses its digits there.
 */
export function kolmogorovTail(x: number): number {
  if (x <= 0) return 1;
  if (x < 1) return 1 - thetaForm(x);
  let sum = 0;
  for (let k = 1; k < 100; k++) {
    const term = exp(-2 * k * k * x * x);
    sum += k % 2 === 1 ? term : -term;
    if (term < 1e-18 * Math.abs(sum)) break;
  }
  return 2 * sum;
}

/** sqrt(2 pi)/x times the sum of exp(-(2k-1)^2 pi^2 / (8 x^2)). */
function thetaForm(x: number): number {
  let sum = 0;
  for (let k = 1; k < 100; k++) {
    const term = exp(-((2 * k - 1) * (2 * k - 1) * Math.PI * Math.PI) / (8 * x * x));
    sum += term;
    if (term < 1e-18 * sum) break;
  }
  return (Math.sqrt(2 * Math.PI) / x) * sum;
}

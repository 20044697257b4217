/**
 * A voltage that fades into an exponential below zero, as a formula: s ln(1 + exp(x / s)), written so
 * that no x overflows.
 *
 * @param voltage formula of x [V]
 * @param scale formula of s [V]
 */
export function softened(voltage: string, scale: string): string {
  return `max(0, ${voltage}) + ${scale} * log1p(exp(-abs(${voltage}) / (${scale})))`;
}

/**
 * The energy barrier, in units of kT, that keeps the loss of any of some bits within a share over a
 * time, as a formula: with an attempt time t0 each bit is lost at the rate exp(-barrier) / t0.
 *
 * @param time formula of the time [s]
 * @param bits formula of how many independent bits
 * @param share formula of the probability that any of them is lost
 */
export function neededBarrier(time: string, bits: string, share: string): string {
  return `log(${time} / attempt_time * ${bits} / -log1p(-${share}))`;
}

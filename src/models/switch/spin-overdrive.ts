/** How far above its threshold a current has to be so that a pulse writes all but a share. */
import { procedure } from "../../formulas/sheet.ts";
import { solve } from "../../numerics/roots.ts";
import { exp, expm1, log, log1p } from "../../numerics/special/elementary.ts";

/** Logarithms of the current beyond the threshold between which it is looked for. */
const LEAST = -60;
const MOST = 300;

/**
 * The reduced current i at which a pulse of τ leaves a share of junctions unwritten. The angle from
 * the axis spreads as an unstable process of drift 2 (i - 1) and thermal noise from a thermal
 * start; a junction that has not come to a right angle counts as unwritten:
 * share = 1 - exp(-π²/4 Δ (i - 1) / (i exp(2 (i - 1) τ) - 1)).
 *
 * @param stability Δ, barrier over kT
 * @param pulse τ, width of the pulse in times of the damping
 * @param share unwritten junctions, between 0 and 1
 * @returns i, at least 1: where the threshold itself leaves no more than the share
 */
export function overdriveOf(stability: number, pulse: number, share: number): number {
  const wanted = log(-log1p(-share) / (((Math.PI * Math.PI) / 4) * stability));
  if (Number.isNaN(wanted + pulse)) return Number.NaN;
  // ln of (i - 1) / (i exp(2 (i - 1) τ) - 1), which falls with i, by the logarithm x of i - 1.
  const excess = (x: number): number => {
    const u = exp(x);
    const growth = 2 * u * pulse;
    // Divided by exp(growth), which overflows: 1 - exp(-growth) + u.
    return x - growth - log(u - expm1(-growth)) - wanted;
  };
  if (excess(LEAST) <= 0) return 1;
  let high = 0;
  while (excess(high) > 0) {
    if (high > MOST) return Number.POSITIVE_INFINITY;
    high += 4;
  }
  return 1 + exp(solve(excess, LEAST, high, { absolute: 1e-15 }));
}

export const spinOverdrive = procedure({
  name: "spin_overdrive",
  title: "Overdrive of a write by spin transfer",
  about:
    "The least current, over the threshold, with which a pulse leaves no more than the stated share " +
    "of junctions unwritten: 1 - exp(-π²/4 Δ (i - 1) / (i exp(2 (i - 1) τ) - 1)), solved for i. " +
    "Holds for pulses above the threshold; heating within the pulse is left out.",
  source: "spin-switching",
  inputs: {
    write_stability: { unit: "1", meaning: "energy barrier over kT at the temperature" },
    reduced_pulse: { unit: "1", meaning: "width of the pulse in times of the damping" },
    write_error_rate: { unit: "1", meaning: "share of pulses that fail to write" },
  },
  outputs: {
    write_overdrive: { unit: "1", meaning: "write current over the threshold current" },
  },
  run(inputs, outputs) {
    outputs[0] = overdriveOf(inputs[0]!, inputs[1]!, inputs[2]!);
  },
});

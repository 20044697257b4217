import type { Comparison } from "../../schema/claims.ts";

/** What a claim says of a number of saved transistors. */
export interface Wanted {
  readonly number: number;
  readonly comparison: Comparison;
  /** How far off `about` may be, relative. */
  readonly within: number;
}

/** Whether one number of saved transistors is as the claim says. */
export function isAsClaimed(saved: number, { number, comparison, within }: Wanted): boolean {
  switch (comparison) {
    case "at least":
      return saved >= number;
    case "at most":
      return saved <= number;
    case "about":
      return Math.abs(saved - number) <= within * Math.abs(number);
  }
}

/** Share of the draws in which the claim is true; a draw without a number is none of them. */
export function shareOf(samples: Float64Array, wanted: Wanted): number {
  let true_ = 0;
  for (const saved of samples) if (isAsClaimed(saved, wanted)) true_ += 1;
  return true_ / samples.length;
}

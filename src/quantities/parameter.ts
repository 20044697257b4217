/** What is known of an input figure. All numbers in SI. */

/** Where a figure comes from: how far to trust it. */
export const BASES = [
  "read",
  "memory",
  "derived",
  "counted",
  "standard",
  "user",
  "default",
  "invented",
] as const;
export type Basis = (typeof BASES)[number];

export type DistributionKind =
  | "exact"
  | "two-piece lognormal"
  | "two-piece normal"
  | "normal"
  | "lognormal"
  | "rectangular"
  | "triangular"
  | "two-point"
  | "measured";

/** An input figure with all that is known about it. */
export interface Parameter {
  readonly name: string;
  /** SI unit text. */
  readonly unit: string;
  readonly value: number;
  /**
   * The 2.5 % and 97.5 % points unless the distribution says otherwise; equal to `value` when
   * exact.
   */
  readonly low: number;
  readonly high: number;
  readonly distribution: DistributionKind;
  /** Standard deviation (of the logarithm, for lognormal) where the distribution is given by it. */
  readonly sigma?: number;
  /** The values of a `measured` distribution. */
  readonly samples?: readonly number[];
  /** Where the distribution is cut: nothing lies below `least` or above `most`. */
  readonly least?: number;
  readonly most?: number;
  readonly source: string;
  readonly basis: Basis;
  readonly note?: string;
  /** Parameters with the same key share their draws, so that a ratio of designs is paired. */
  readonly key: string;
}

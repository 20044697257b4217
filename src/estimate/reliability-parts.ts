import type { LevelPlan } from "../models/reliability/index.ts";
import type { SelectorKind } from "../models/selector/bias.ts";

/** By which model the bit errors of a read are computed. */
export type ReadModel =
  /** Two states against the reference of equal errors. */
  | { readonly kind: "two-level" }
  /** Levels against references of least error; of one bit too where there is drift or noise. */
  | { readonly kind: "levels"; readonly plan: LevelPlan }
  /** Two switches against each other. */
  | { readonly kind: "pair"; readonly drifts: boolean }
  /** Floating gates, with the spreads that the study states. */
  | { readonly kind: "floating-gate" }
  /** A shared charge against the offset of the amplifier. */
  | { readonly kind: "charge" };

/** What becomes of stored bits as time goes by. */
export interface AgingPart {
  /** How many times since the write are looked at; the last one is the end. */
  readonly times: number;
  readonly losses: "kept" | "lost" | "flipped" | "lost-flipped";
  /** References follow the levels. */
  readonly tracking: boolean;
  /** Every word is written anew at intervals. */
  readonly scrubbed: boolean;
  /** How long the data have to last is known. */
  readonly mission: boolean;
}

/** Which of the reliability's models a design has the figures for. */
export interface ReliabilityParts {
  readonly reads?: ReadModel;
  /** Writes are held to a tolerance. */
  readonly verified?: boolean;
  readonly aging?: AgingPart;
  /** Steps of the temperature profile; 0 for the one temperature of the study. */
  readonly retention?: number;
  readonly mission: boolean;
  readonly wear?: "as-stated" | "first-cell";
  /** Where the law of the switching rate comes from. */
  readonly rate?: "stated" | "decades" | "geometry";
  /** What stands between a switch and the voltage of the writes beside it. */
  readonly disturb?: SelectorKind;
  readonly faults: boolean;
  readonly defects: boolean;
  readonly scrub?: "stated" | "allowed";
}

/** A figure that is not estimated, and what it would take. */
export interface Gap {
  readonly figure: string;
  readonly needs: string;
}

/** What a design's reliability can be estimated from, and what is left out for want of a figure. */
export interface ReliabilityChoice {
  readonly parts: ReliabilityParts;
  readonly gaps: readonly Gap[];
}

/** Says what a figure needs where it can't be estimated. */
export type Need = (holds: boolean, figure: string, needs: string) => boolean;

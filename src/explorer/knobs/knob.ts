/** A slider: what it moves, where in the text, between which ends. */

import type { Path, WrittenRange } from "../text/edit.ts";

/** How places of a slider and values go together. All values in SI. */
export type Scale =
  | {
      readonly kind: "linear" | "logarithmic";
      readonly from: number;
      readonly to: number;
      /** How a value is written: `(value - offset) / factor unit`. */
      readonly unit: string;
      readonly factor: number;
      readonly offset: number;
      /** The unit as it is printed. */
      readonly printed: string;
    }
  | {
      /** Whole powers of two. */
      readonly kind: "powers";
      readonly from: number;
      readonly to: number;
      readonly form: "count" | "bits" | "capacity";
    };

export interface Knob {
  readonly id: string;
  /** In words: `set voltage`. */
  readonly label: string;
  /** What else is to be said: whose it is. */
  readonly detail: string;
  readonly group: "study" | "uncertainty" | "organisation";
  /** The design that it organises. */
  readonly design?: string;
  readonly scale: Scale;
  /** All places that one value is written to. */
  readonly paths: readonly Path[];
  /** Goes along where the value did not stand before. */
  readonly range?: WrittenRange;
  readonly read: { readonly design: string; readonly parameter: string };
}

/** What a page and its workers say to each other. */

import type { Piece } from "../engine/blocks.ts";
import type { ShownProblem } from "../engine/problems.ts";
import type { Picture, Reading, SessionSettings } from "../engine/session.ts";
import type { Knob } from "../knobs/knob.ts";

export interface Start {
  readonly kind: "start";
  readonly settings: SessionSettings;
  /** A study to run up on: the engine's code is fast once it has run some times. */
  readonly text?: string;
}

/** What is asked about a text. */
export type Question =
  | { readonly kind: "quick"; readonly text: string; readonly readings: readonly Reading[] }
  | { readonly kind: "figures"; readonly text: string }
  | { readonly kind: "report"; readonly text: string }
  | { readonly kind: "knobs"; readonly text: string }
  | { readonly kind: "files"; readonly text: string };

export interface Answers {
  readonly quick: { readonly pieces: readonly Piece[]; readonly values: readonly number[] };
  readonly figures: readonly Piece[];
  readonly report: Picture;
  readonly knobs: readonly Knob[];
  /** Path → content. */
  readonly files: ReadonlyMap<string, string>;
}

/** An answer, what is wrong with the text, or that the program itself failed. */
export type Answer<K extends keyof Answers> =
  | { readonly answer: Answers[K] }
  | { readonly problems: readonly ShownProblem[] }
  | { readonly fault: string };

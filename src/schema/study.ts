/**
 * A study, read: what one file says, typed and in SI. Names are not looked up yet and nothing is
 * defaulted but the seed, the number of samples and the coverage: the catalogue and the estimate do
 * that.
 */

import type { Place } from "../errors/problem.ts";
import type { Parameter } from "../quantities/parameter.ts";
import type { EntryUse, Section } from "./field.ts";
import type { Reliability } from "./reliability.ts";

type Figures = Readonly<Record<string, Parameter>>;

/** How switches make a cell. */
export type CellForm = "single" | "complementary" | "differential" | "two-switch-match" | "shadow";

/** The unselected rows and columns. */
export type BiasScheme = "floating" | "grounded" | "one-half" | "one-third";

/** Schemes of their own for reads and writes. */
export interface Bias {
  readonly read?: BiasScheme;
  readonly write?: BiasScheme;
}

export type ErrorCorrection = "none" | "single" | "single-double" | { readonly corrects: number };

/** A cell made of switches, or an all-CMOS one from the catalogue. */
export interface Cell {
  /** An all-CMOS cell; excludes the other keys. */
  readonly baseline?: EntryUse;
  readonly switch?: EntryUse;
  readonly selector?: EntryUse;
  /** Bits that one cell stores. */
  readonly bits?: number;
  readonly form?: CellForm;
}

export interface Tile {
  readonly rows?: number | "auto";
  readonly columns?: number | "auto";
  readonly decks?: number;
  /** Columns that share a sense amplifier. */
  readonly column_share?: number | "auto";
  /** Whether word and bit lines are divided into local and main ones. */
  readonly lines?: TileLines;
}

export type TileLines = "whole" | "columns" | "divided";

/** What a stand-alone part adds to its macro. */
export interface Die {
  /** `auto`: as many as word, address, control and supplies need. */
  readonly pads?: number | "auto";
}

export interface Sense {
  readonly offset?: Parameter;
  readonly sigmas?: Parameter;
  /** How the levels of a cell of several bits are told apart. */
  readonly comparison?: "successive" | "parallel";
}

export interface Write {
  /** Of all cells that are written at once. */
  readonly current_limit?: Parameter;
  readonly bits_at_once?: number | "auto";
  readonly verify_pulses?: Parameter;
}

/**
 * Wires by what they do: a level of the technology, or a mapping with `from: level` and overrides.
 */
export interface Wires {
  readonly rows?: EntryUse;
  readonly columns?: EntryUse;
  readonly routes?: EntryUse;
}

/** One design, with what `defaults` and the top of the file add to it. */
export interface Design {
  readonly title?: string;
  readonly cell?: Cell;
  /** In bits. */
  readonly capacity?: number;
  readonly word?: number;
  readonly banks?: number | "auto";
  readonly tile?: Tile;
  /** A whole die instead of a macro. */
  readonly die?: Die;
  readonly bias?: BiasScheme | Bias;
  readonly technology?: EntryUse;
  readonly temperature?: Parameter;
  readonly wires?: Wires;
  readonly error_correction?: ErrorCorrection;
  readonly spare_rows?: number;
  readonly spare_columns?: number;
  /** Share of the periphery that lies beneath the cells. */
  readonly periphery_beneath?: Parameter;
  readonly supply?: Parameter;
  readonly feature?: Parameter;
  readonly sense?: Sense;
  readonly write?: Write;
  readonly reliability?: Reliability;
  /** Any quantity that is a parameter, by its name. */
  readonly overrides?: Figures;
}

/** Entries that the study adds to the catalogue or lays over it. */
export interface UserCatalogue {
  /** Files with entries, beside the study. */
  readonly files?: readonly string[];
  readonly technologies?: Readonly<Record<string, EntryUse>>;
  readonly switches?: Readonly<Record<string, EntryUse>>;
  readonly selectors?: Readonly<Record<string, EntryUse>>;
  readonly baselines?: Readonly<Record<string, EntryUse>>;
}

/** The top of the file. */
export interface StudyFile {
  readonly title: string;
  readonly question?: string;
  readonly about?: string;
  readonly technology?: EntryUse;
  readonly temperature?: Parameter;
  /** The design that the others are compared with. */
  readonly baseline?: string;
  readonly defaults?: Design;
  readonly designs: Readonly<Record<string, Design>>;
  /** Share of the distribution that an interval holds. */
  readonly coverage?: Parameter;
  readonly seed?: number;
  readonly samples?: number;
  readonly catalogue?: UserCatalogue;
  /** These hold what the definition gives with which the file was read, else a `Section`. */
  readonly claims?: Section;
  readonly sweep?: Section;
  readonly organise?: Section;
  readonly uncertainty?: Section;
  readonly standby?: Section;
}

export interface Study extends Omit<StudyFile, "coverage" | "seed" | "samples" | "defaults"> {
  readonly file: string;
  /** In the order of the file; `defaults` and the top of the file are laid beneath each. */
  readonly designs: Readonly<Record<string, Design>>;
  readonly coverage: number;
  readonly seed: number;
  readonly samples: number;
  /**
   * Where a value stands. What a design doesn't say itself is looked for in `defaults` and at the
   * top of the file; what nobody says has the place of the mapping that would hold it.
   * @param path JSON pointer, such as `/designs/static/tile/rows`, or the `key` of a parameter of
   *   the study
   * @param of the key instead of the value, for what is missing or unknown
   */
  place(path: string, of?: "key" | "value"): Place;
}

/**
 * Definitions of keys: the one table from which files are read, the JSON Schema of editors and the
 * key reference of the docs are made.
 */

import type { Parameter } from "../quantities/parameter.ts";
import type { Node } from "./yaml/tree.ts";

/** A default with where it comes from; texts as in a file. */
export interface Default {
  readonly value: string;
  readonly low?: string;
  readonly high?: string;
  readonly source: string;
  readonly note?: string;
}

export interface About {
  readonly meaning: string;
  readonly required?: boolean;
  readonly default?: Default;
  /** As it would stand in a file. */
  readonly example?: string;
}

export interface TextField extends About {
  readonly kind: "text";
}
/** A name that the user gives or the catalogue has: letters, digits, `-` and `_`. */
export interface NameField extends About {
  readonly kind: "name";
}
export interface ChoiceField extends About {
  readonly kind: "choice";
  /** Word and what it means. */
  readonly choices: Readonly<Record<string, string>>;
}
export interface FlagField extends About {
  readonly kind: "flag";
}
export interface QuantityField extends About {
  readonly kind: "quantity";
  /** SI unit; absent where any dimension is right. */
  readonly unit?: string;
  /** Positive by nature: nothing at or below zero, and a lognormal spread. */
  readonly positive?: boolean;
  /** Bounds in SI that belong to the range. */
  readonly minimum?: number;
  readonly maximum?: number;
  /** The word `auto` lets the tool choose. */
  readonly auto?: boolean;
}
export interface WholeField extends About {
  readonly kind: "whole";
  readonly unit: "1" | "bit";
  readonly minimum: number;
  readonly maximum: number;
  readonly auto?: boolean;
}
export interface GroupField extends About {
  readonly kind: "group";
  readonly fields: Readonly<Record<string, AnyField>>;
}
/** A mapping whose keys are names that the user gives. */
export interface NamedField extends About {
  readonly kind: "named";
  readonly of: AnyField;
  readonly key: string;
}
export interface ListField extends About {
  readonly kind: "list";
  readonly of: AnyField;
}
/** Text of one kind, or a mapping of another. */
export interface EitherField extends About {
  readonly kind: "either";
  readonly plain: AnyField;
  readonly group: AnyField;
}
/** A catalogue entry: its name, or a mapping with `from:` and overrides. */
export interface EntryField extends About {
  readonly kind: "entry";
  /** What it is, such as `switch`. */
  readonly of: string;
  readonly table: EntryTable;
}
/** Figures of a fixed set of names, each optional. */
export interface FiguresField extends About {
  readonly kind: "figures";
  readonly fields: FigureTable;
}
/** A part of the file that another module reads; kept as a located tree. */
export interface SectionField extends About {
  readonly kind: "section";
}

export type AnyField =
  | TextField
  | NameField
  | ChoiceField
  | FlagField
  | QuantityField
  | WholeField
  | GroupField
  | NamedField
  | ListField
  | EitherField
  | EntryField
  | FiguresField
  | SectionField;

/** A definition whose value, once read, is a `T`. The type is for the compiler alone. */
export type Field<T> = AnyField & { readonly type?: (value: T) => T };

/** A use of a catalogue entry: from which entry it starts, and what is changed or given inline. */
export interface EntryUse {
  readonly from?: string;
  readonly title?: string;
  readonly about?: string;
  /** Its key `kind`, such as `transistor` of a selector. */
  readonly variant?: string;
  readonly values: Readonly<Record<string, Parameter>>;
  /** JSON pointer of the use. */
  readonly path: string;
}

/** What a figure of the catalogue is; the tables themselves stand in the catalogue. */
export interface Figure {
  readonly unit: string;
  readonly meaning: string;
  readonly symbol?: string;
  /** `positive` by nature unless said, a `share` from 0 to 1, `not negative`, or `signed`. */
  readonly shape?: "positive" | "share" | "not negative" | "signed";
  readonly default?: Default;
  /** The variants that have this figure; all when absent. */
  readonly variants?: readonly string[];
}
export type FigureTable = Readonly<Record<string, Figure>>;

/** What an entry of one kind may say. */
export interface EntryTable {
  readonly fields: FigureTable;
  /** The words that its key `kind` may have; no such key when absent. */
  readonly variants?: readonly string[];
  /** The names of the catalogue's entries; they are not checked when absent. */
  names?(): readonly string[];
}

/** A part of the file that nobody has read yet. */
export interface Section {
  readonly path: string;
  readonly node: Node;
  /** The same as plain values. */
  readonly value: unknown;
}

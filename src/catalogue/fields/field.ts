/** What a field of a catalogue entry is: the one place for its unit, meaning, default and range. */

import type { Basis } from "../../quantities/parameter.ts";
import type { Figure } from "../../schema/field.ts";

/** A value as text with its unit, as in a file. */
export interface DefaultValue {
  readonly value: string;
  readonly low: string;
  readonly high: string;
  readonly source: string;
  readonly basis: Basis;
  readonly note?: string;
}

/** A figure of a kind of entry. Without a default it may be absent, unless it is required. */
export interface Field extends Figure {
  readonly default?: DefaultValue;
  /** The unit in which people read it, where that is not the SI unit with a prefix. */
  readonly show?: string;
  /** Only the user or a file can know it. */
  readonly required?: true;
  /**
   * Another field of the same kind, or a quantity of the technology, whose value and draws are
   * taken.
   */
  readonly sameAs?: string;
  /** No default is taken where one of these is given. */
  readonly unless?: readonly string[];
}

export type FieldTable = Readonly<Record<string, Field>>;

/** A default that is typical of its class. */
export function typical(value: string, low: string, high: string, note?: string): DefaultValue {
  return {
    value,
    low,
    high,
    source: "typical-classes",
    basis: "default",
    note: note === undefined ? TYPICAL : `${TYPICAL}; ${note}`,
  };
}

/** A default that everybody in the trade knows to within its range. */
export function practice(value: string, low: string, high: string, note: string): DefaultValue {
  return { value, low, high, source: "common practice", basis: "memory", note };
}

/** A default that is a choice and has no spread. */
export function chosen(value: string, note: string): DefaultValue {
  return { value, low: value, high: value, source: "common practice", basis: "default", note };
}

const TYPICAL = "typical of its class, from memory";

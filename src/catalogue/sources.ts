/** Sources by key, and those that a set of parameters used. */

import { refuse } from "../errors/problem.ts";
import type { Basis, Parameter } from "../quantities/parameter.ts";
import { readPlain } from "./read.ts";

/** One published source. No names of people: title, venue, year and identifier find it. */
export interface Source {
  readonly key: string;
  readonly title: string;
  readonly venue: string;
  /** Absent where the source shows none. */
  readonly year?: number;
  readonly doi?: string;
  readonly isbn?: string;
  readonly note?: string;
}

/** A source with the reasons why it was used. */
export interface Reference extends Source {
  /** `published`, or what has no publication: `practice`, `own` derivation, the `user`'s word. */
  readonly type: "published" | "practice" | "own" | "user";
  readonly uses: readonly Use[];
}

export interface Use {
  /** The name of the value, such as `switch/oxide-bilayer/on_resistance`. */
  readonly value: string;
  readonly basis: Basis | "formula";
}

/** Sources that are no publications and may stand for a key. */
export const LITERAL_SOURCES = ["common practice", "this project"] as const;

/**
 * Reads the file of sources.
 * @throws TenfoldError `file-missing`, `unknown-format`, `missing-key`
 */
export function readSources(text: string | undefined): ReadonlyMap<string, Source> {
  if (text === undefined) refuse({ code: "file-missing", what: "sources.yaml isn't there" });
  const raw = readPlain(text, "sources.yaml");
  if (raw["format"] !== "tenfold.sources/1") {
    refuse({ code: "unknown-format", what: "sources.yaml: the format isn't tenfold.sources/1" });
  }
  const all = (raw["sources"] ?? {}) as Record<string, Record<string, unknown>>;
  return new Map(Object.entries(all).map(([key, one]) => [key, toSource(key, one)]));
}

function toSource(key: string, one: Record<string, unknown>): Source {
  const { title, venue, year, doi, isbn, note } = one;
  if (typeof title !== "string" || typeof venue !== "string") {
    refuse({ code: "missing-key", what: `sources.yaml: ${key} needs a title and a venue` });
  }
  return {
    key,
    title,
    venue,
    ...(typeof year === "number" ? { year } : {}),
    ...(typeof doi === "string" ? { doi } : {}),
    ...(typeof isbn === "string" ? { isbn } : {}),
    ...(typeof note === "string" ? { note } : {}),
  };
}

/** A formula with its source, such as one of a sheet. */
export interface SourcedFormula {
  readonly name: string;
  readonly source: string;
}

/**
 * The references of values and formulas, each once, in the order of their keys, with what each was
 * used for. A source that no file lists is the user's own word and is kept as its text.
 */
export function sourcesOf(
  parameters: Iterable<Parameter>,
  known: ReadonlyMap<string, Source>,
  formulas: Iterable<SourcedFormula> = [],
): readonly Reference[] {
  const uses = new Map<string, Map<string, Use>>();
  const add = (source: string, use: Use) => {
    const of = uses.get(source) ?? new Map<string, Use>();
    of.set(use.value, use);
    uses.set(source, of);
  };
  for (const { source, key, basis } of parameters) add(source, { value: key, basis });
  for (const { source, name } of formulas) add(source, { value: name, basis: "formula" });
  return [...uses.entries()]
    .sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0))
    .map(([key, of]) => reference(key, [...of.values()], known.get(key)));
}

function reference(key: string, uses: readonly Use[], source: Source | undefined): Reference {
  if (source !== undefined) return { ...source, type: "published", uses };
  const type = key === "common practice" ? "practice" : key === "this project" ? "own" : "user";
  return { key, title: key, venue: "none", type, uses };
}

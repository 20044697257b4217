/** The text of a catalogue file to an entry. */

import { refuse, TenfoldError } from "../errors/problem.ts";
import {
  type EntryFormat,
  formatOf,
  type EntryFile as ReadFile,
  readEntryFile,
} from "../schema/entry-file.ts";
import { locatedTree, plainValue } from "../schema/yaml/tree.ts";
import type { Entry } from "./entry.ts";
import { KIND, KINDS, type Kind } from "./kinds.ts";

/** Keys beside the common ones; they are kept as they stand. */
const EXTRA_KEYS = ["breakdown", "boundary", "hybrid_equivalent", "organisation", "year"];

/** What the reader knows of a file before it reads it. */
export interface EntryFile {
  /** As errors print it. */
  readonly file: string;
  /** What a file of the catalogue must be; a user's file says it itself. */
  readonly kind?: Kind;
  readonly name?: string;
  /** Who says a value that names no source; undefined where each must. */
  readonly source?: string;
}

/** What a file of a kind may hold, as the reader of files wants it. */
export function entryFormat(kind: Kind, sourced = true): EntryFormat {
  const { format, fields, variants } = KIND[kind];
  // Measured figures of chips have a `kind` that no table lists.
  const free = variants === undefined ? [...EXTRA_KEYS, "kind"] : EXTRA_KEYS;
  const table = { kind, format, fields, extra: free, sourced };
  return variants === undefined ? table : { ...table, variants };
}

/**
 * Reads one entry.
 * @throws TenfoldError with every mistake of the file at its place: `unknown-format`, `bad-name`,
 *   `missing-key`, `unknown-key`, `unknown-word`, and those of figures
 */
export function readEntry(text: string, of: EntryFile): Entry {
  const kind = of.kind ?? kindOf(text, of.file);
  const read = readEntryFile(text, of.file, entryFormat(kind, of.source === undefined));
  const { name, title, about, from, more } = read;
  const variant = read.variant ?? variantIn(more);
  checkHead(kind, read, variant, of.name);
  return {
    kind,
    name,
    title,
    about,
    ...(from === undefined ? {} : { from }),
    ...(variant === undefined ? {} : { variant }),
    values: of.source === undefined ? read.values : saidBy(of.source, read.values),
    more,
  };
}

function kindOf(text: string, file: string): Kind {
  const format = formatOf(text, file);
  const kind = KINDS.find((one) => KIND[one].format === format);
  if (kind !== undefined) return kind;
  return refuse({
    code: "unknown-format",
    what: `the \`format\` of ${file} isn't one of a catalogue file`,
    got: format ?? "nothing",
    expected: KINDS.map((one) => KIND[one].format).join(", "),
  });
}

function variantIn(more: ReadFile["more"]): string | undefined {
  return typeof more["kind"] === "string" ? more["kind"] : undefined;
}

/** The name is that of the file, and what has variants says which it is. */
function checkHead(
  kind: Kind,
  { name, from, place }: ReadFile,
  variant: string | undefined,
  wanted: string | undefined,
): void {
  if (wanted !== undefined && name !== wanted) {
    refuse({
      code: "bad-name",
      what: "the name isn't that of the file",
      place: place("/name"),
      got: name,
      expected: wanted,
    });
  }
  const { variants } = KIND[kind];
  if (variants === undefined || from !== undefined || variant !== undefined) return;
  refuse({
    code: "missing-key",
    what: `a ${kind} that is laid over none says its \`kind\``,
    place: place("/name"),
    expected: `one of ${variants.join(", ")}`,
  });
}

/** Figures without a source of their own are the word of the file. */
function saidBy(source: string, values: Entry["values"]): Entry["values"] {
  const said = Object.entries(values).map(([name, value]) => [
    name,
    value.source === "this file" ? { ...value, source } : value,
  ]);
  return Object.fromEntries(said);
}

/** A text to plain values, for files that hold no figures. */
export function readPlain(text: string, file: string): Record<string, unknown> {
  const { root, problems } = locatedTree(text, file);
  if (problems.length > 0) throw new TenfoldError(problems);
  return plainValue(root) as Record<string, unknown>;
}

/** The text of a catalogue file to an entry. */

import { refuse, TenfoldError } from "../errors/problem.ts";
import { readFigures } from "../schema/entry.ts";
import { type At, type Origin, Reading, reportUnknownKeys } from "../schema/report.ts";
import {
  child,
  type LocatedTree,
  locatedTree,
  type MappingNode,
  type Node,
  plainValue,
} from "../schema/yaml/tree.ts";
import type { Entry, Parameters } from "./entry.ts";
import { KIND, KINDS, type Kind } from "./kinds.ts";

/** Keys that every entry may have; the extra ones are kept as they stand. */
const ENTRY_KEYS = ["format", "name", "title", "about", "from", "kind", "values"];
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

/**
 * Reads one entry.
 * @throws TenfoldError with every mistake of the file at its place: `unknown-format`, `bad-name`,
 *   `missing-key`, `unknown-key`, `unknown-word`, and those of figures
 */
export function readEntry(text: string, of: EntryFile): Entry {
  const tree = locatedTree(text, of.file);
  const kind = kindOf(tree, of);
  const name = textOf(tree.root, "name") ?? of.name ?? "";
  const reading = new Reading(tree.source, tree.problems, originOf(kind, name, of));
  checkHead(tree, kind, of, reading);
  const values = readValues(child(tree.root, "values")?.value, kind, reading);
  reading.finish();
  const from = textOf(tree.root, "from");
  const variant = textOf(tree.root, "kind");
  return {
    kind,
    name,
    title: textOf(tree.root, "title")!,
    about: textOf(tree.root, "about")!.trim(),
    ...(from === undefined ? {} : { from }),
    ...(variant === undefined ? {} : { variant }),
    values,
    more: Object.fromEntries(
      tree.root.entries
        .filter(({ key }) => EXTRA_KEYS.includes(key))
        .map(({ key, value }) => [key, plainValue(value)]),
    ),
  };
}

function originOf(kind: Kind, name: string, { source }: EntryFile): Origin {
  const keyPrefix = `${kind}/${name}`;
  return source === undefined
    ? { basis: "memory", keyPrefix }
    : { source, basis: "user", keyPrefix };
}

/** The kind that the first line says; it must be the wanted one. */
function kindOf({ root, source }: LocatedTree, { kind }: EntryFile): Kind {
  const format = child(root, "format")?.value;
  const said = KINDS.find((one) => KIND[one].format === textOf(root, "format"));
  if (said !== undefined && (kind === undefined || kind === said)) return said;
  const { start, end } = format ?? root;
  const wanted = kind === undefined ? KINDS : [kind];
  return refuse({
    code: "unknown-format",
    what: "the `format` isn't one of a catalogue file",
    place: source.place(start, end),
    got: textOf(root, "format") ?? "nothing",
    expected: wanted.map((one) => `\`format: ${KIND[one].format}\``).join(" or "),
  });
}

function checkHead({ root }: LocatedTree, kind: Kind, { name }: EntryFile, reading: Reading): void {
  const at: At = { name: `a file of kind ${kind}`, path: "" };
  reportUnknownKeys(root, [...ENTRY_KEYS, ...EXTRA_KEYS], at, reading);
  for (const key of ["name", "title", "about"]) {
    if (textOf(root, key) !== undefined) continue;
    reading.report("missing-key", `there is no \`${key}\``, `/${key}`, root, {
      expected: `\`${key}:\` with text`,
    });
  }
  const said = textOf(root, "name");
  if (said !== undefined && name !== undefined && said !== name) {
    reading.report("bad-name", "the name isn't that of the file", "/name", root, {
      got: said,
      expected: name,
    });
  }
  const { variants } = KIND[kind];
  const variant = textOf(root, "kind");
  if (variants === undefined || (variant === undefined && child(root, "from"))) return;
  if (variant !== undefined && variants.includes(variant)) return;
  const node = child(root, "kind")?.value ?? root;
  reading.report("unknown-word", `a ${kind} needs a \`kind\` that is known`, "/kind", node, {
    expected: `one of ${variants.join(", ")}`,
  });
}

function readValues(node: Node | undefined, kind: Kind, reading: Reading): Parameters {
  if (node === undefined) return {};
  const at: At = { name: kind, path: "" };
  if (node.kind === "mapping") return readFigures(node.entries, KIND[kind].fields, at, reading);
  reading.report("wrong-kind", "`values` is no mapping", "/values", node);
  return {};
}

function textOf(root: MappingNode, key: string): string | undefined {
  const node = child(root, key)?.value;
  return node?.kind === "scalar" && node.value !== null ? node.text : undefined;
}

/** A text to plain values, for files that hold no figures. */
export function readPlain(text: string, file: string): Record<string, unknown> {
  const { root, problems } = locatedTree(text, file);
  if (problems.length > 0) throw new TenfoldError(problems);
  return plainValue(root) as Record<string, unknown>;
}

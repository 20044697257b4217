/** A catalogue file to its entry: `format`, `name`, `title`, `about`, `values`. */

import { nearestWord } from "../errors/nearest.ts";
import type { Place } from "../errors/problem.ts";
import type { Parameter } from "../quantities/parameter.ts";
import { choice, name, text } from "./define.ts";
import { readFigures } from "./entry.ts";
import type { EntryTable, Field } from "./field.ts";
import { placeIn } from "./locate.ts";
import { readField } from "./read.ts";
import { below, Reading, reportUnknownKeys, wrongKind } from "./report.ts";
import { child, locatedTree, plainValue } from "./yaml/tree.ts";

/** What one kind of file may hold. */
export interface EntryFormat extends EntryTable {
  /** Such as `switch`: the key under which draws are shared begins with it. */
  readonly kind: string;
  /** Such as `tenfold.switch/1`. */
  readonly format: string;
  /** Keys beside the common ones whose values are kept as they are. */
  readonly extra?: readonly string[];
  /** Any figures, or each with a `source` of its own; default true. */
  readonly sourced?: boolean;
}

export interface EntryFile {
  readonly name: string;
  readonly title: string;
  readonly about: string;
  readonly from?: string;
  readonly variant?: string;
  readonly values: Readonly<Record<string, Parameter>>;
  readonly more: Readonly<Record<string, unknown>>;
  /** Where a JSON pointer such as `/values/on_resistance` leads to. */
  place(path: string): Place;
}

const HEAD = {
  format: text("what the file holds, with the version of its form", { required: true }),
  name: name("the name of the entry and of the file", { required: true }),
  title: text("a line for tables", { required: true }),
  about: text("what the figures claim and what they don't", { required: true }),
  from: name("the entry of the same kind that this one is laid over"),
} as const;

/**
 * The format that a file claims, so that its reader can be chosen; undefined where there is none.
 */
export function formatOf(fileText: string, file: string): string | undefined {
  const node = child(locatedTree(fileText, file).root, "format")?.value;
  return node?.kind === "scalar" && node.value !== null ? node.text : undefined;
}

/**
 * Reads one entry. The draws of its figures are shared under `kind/name/quantity`.
 * @throws TenfoldError with all mistakes in the order of the file
 */
export function readEntryFile(fileText: string, file: string, format: EntryFormat): EntryFile {
  const tree = locatedTree(fileText, file);
  const said = child(tree.root, "name")?.value;
  const entryName = said?.kind === "scalar" ? said.text : "";
  const own = format.sourced === false ? { source: "this file" } : {};
  const origin = { ...own, basis: "user", keyPrefix: `${format.kind}/${entryName}` } as const;
  const reading = new Reading(tree.source, tree.problems, origin);
  const head = headFields(format);
  const extra = format.extra ?? [];
  reportUnknownKeys(
    tree.root,
    [...Object.keys(head), "values", ...extra],
    { name: "", path: "" },
    reading,
  );
  const words: Record<string, string> = {};
  for (const [key, field] of Object.entries(head)) {
    const entry = child(tree.root, key);
    if (entry === undefined) {
      if (field.required === true) missing(key, field, reading);
      continue;
    }
    const word = readField(entry.value, field, { name: key, path: below("", key) }, reading);
    if (word !== undefined) words[key] = word;
  }
  checkFormat(words["format"], format, tree.root, reading);
  const values = readValues(tree.root, format, reading);
  reading.finish();
  return {
    name: words["name"]!,
    title: words["title"]!,
    about: words["about"]!.trim(),
    ...(words["from"] === undefined ? {} : { from: words["from"] }),
    ...(words["kind"] === undefined ? {} : { variant: words["kind"] }),
    // The pointer begins with `/values`, the shared key does not need to say so.
    values: Object.fromEntries(
      Object.entries(values).map(([key, p]) => [
        key,
        { ...p, key: p.key.replace("/values/", "/") },
      ]),
    ),
    more: Object.fromEntries(
      tree.root.entries
        .filter((e) => extra.includes(e.key))
        .map((e) => [e.key, plainValue(e.value)]),
    ),
    place: (path) => placeIn(tree, path),
  };
}

function headFields(format: EntryFormat): Readonly<Record<string, Field<string>>> {
  if (format.variants === undefined) return HEAD;
  const choices = Object.fromEntries(format.variants.map((word) => [word, word]));
  return { ...HEAD, kind: choice("which of its kind it is", choices) };
}

function missing(key: string, field: Field<string>, reading: Reading): void {
  reading.report(
    "missing-key",
    `the file has no \`${key}\``,
    "",
    { start: 0, end: 1 },
    { expected: field.meaning },
  );
}

type Root = ReturnType<typeof locatedTree>["root"];

function checkFormat(
  said: string | undefined,
  format: EntryFormat,
  root: Root,
  reading: Reading,
): void {
  if (said === undefined || said === format.format) return;
  const nearest = nearestWord(said, [format.format]);
  const node = child(root, "format")!.value;
  reading.report(
    "unknown-format",
    `\`${said}\` isn't the format of a ${format.kind}`,
    "/format",
    node,
    {
      expected: format.format,
      ...(nearest === undefined ? {} : { nearest }),
    },
  );
}

function readValues(root: Root, format: EntryFormat, reading: Reading): Record<string, Parameter> {
  const node = child(root, "values")?.value;
  if (node === undefined || (node.kind === "mapping" && node.entries.length === 0)) return {};
  const at = { name: `a ${format.kind}`, path: "/values" };
  if (node.kind === "mapping") return readFigures(node.entries, format.fields, at, reading);
  wrongKind(node, "a mapping from quantities to values", { ...at, name: "values" }, reading);
  return {};
}

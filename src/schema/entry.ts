/** Reads a use of a catalogue entry: a name, or `from:` with overrides, or all of it inline. */

import { nearestWord } from "../errors/nearest.ts";
import type { Parameter } from "../quantities/parameter.ts";
import { figureField } from "./define.ts";
import type { EntryField, EntryUse, FigureTable } from "./field.ts";
import { readParameter } from "./parameter.ts";
import { type At, below, checkName, type Reading, reportUnknownKeys, wrongKind } from "./report.ts";
import { child, type Entry, type MappingNode, type Node } from "./yaml/tree.ts";

/** Keys of every use of an entry beside its figures and its `kind`. */
export const USE_KEYS = {
  from: "the catalogue entry to start from",
  title: "a line for tables",
  about: "what the figures claim and what they don't",
} as const;

export function readEntry(
  node: Node,
  field: EntryField,
  at: At,
  reading: Reading,
): EntryUse | undefined {
  if (node.kind === "mapping") return readMapping(node, field, at, reading);
  if (node.kind === "list" || node.value === null) {
    return wrongKind(node, `the name of a ${field.of}, or a mapping with \`from:\``, at, reading);
  }
  if (!checkName(node.text, node, at, reading)) return undefined;
  return { from: node.text, values: {}, path: at.path };
}

function readMapping(node: MappingNode, field: EntryField, at: At, reading: Reading): EntryUse {
  const { fields, variants } = field.table;
  const heads = [...Object.keys(USE_KEYS), ...(variants === undefined ? [] : ["kind"])];
  reportUnknownKeys(node, [...heads, ...Object.keys(fields)], { ...at, name: field.of }, reading);
  const head: Record<string, string> = {};
  for (const key of heads) {
    const value = child(node, key)?.value;
    if (value === undefined) continue;
    const word = readHead(value, key, field, { name: key, path: below(at.path, key) }, reading);
    if (word !== undefined) head[key === "kind" ? "variant" : key] = word;
  }
  const figures = node.entries.filter((entry) => Object.hasOwn(fields, entry.key));
  return { ...head, values: readFigures(figures, fields, at, reading), path: at.path };
}

function readHead(node: Node, key: string, field: EntryField, at: At, reading: Reading) {
  if (node.kind !== "scalar" || node.value === null) return wrongKind(node, "a word", at, reading);
  if (key === "from") return checkName(node.text, node, at, reading) ? node.text : undefined;
  const variants = field.table.variants ?? [];
  if (key !== "kind" || variants.includes(node.text)) return node.text;
  const nearest = nearestWord(node.text, variants);
  reading.report("unknown-word", `\`${node.text}\` isn't a kind of ${field.of}`, at.path, node, {
    expected: `one of ${variants.join(", ")}`,
    ...(nearest === undefined ? {} : { nearest }),
  });
  return undefined;
}

/** Figures by their table; keys that the table lacks are reported. */
export function readFigures(
  entries: readonly Entry[],
  fields: FigureTable,
  at: At,
  reading: Reading,
): Record<string, Parameter> {
  const values: Record<string, Parameter> = {};
  for (const { key, keySpan, value } of entries) {
    const path = below(at.path, key);
    if (!Object.hasOwn(fields, key)) {
      const nearest = nearestWord(key, Object.keys(fields));
      reading.report("unknown-key", `\`${key}\` isn't a quantity of ${at.name}`, path, keySpan, {
        expected: "one of the quantities that `tenfold show` lists",
        ...(nearest === undefined ? {} : { nearest }),
      });
      continue;
    }
    if (value.kind === "scalar" && value.broken) continue;
    const parameter = readParameter(value, key, figureField(fields[key]!), path, reading);
    if (parameter !== undefined && parameter !== "auto") values[key] = parameter;
  }
  return values;
}

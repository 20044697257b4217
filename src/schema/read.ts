/** Reads a located tree by its definitions: typed values, and every mistake at its place. */

import { nearestWord } from "../errors/nearest.ts";
import { TenfoldError } from "../errors/problem.ts";
import { readQuantity } from "../quantities/quantity.ts";
import { readEntry, readFigures } from "./entry.ts";
import type {
  AnyField,
  ChoiceField,
  Field,
  GroupField,
  ListField,
  NamedField,
  Section,
  WholeField,
} from "./field.ts";
import { readParameter } from "./parameter.ts";
import { type At, below, checkName, type Reading, reportUnknownKeys, wrongKind } from "./report.ts";
import { type Node, plainValue, type ScalarNode } from "./yaml/tree.ts";

/** The value of `field` at a node; undefined after its problems were reported. */
export function readField<T>(node: Node, field: Field<T>, at: At, reading: Reading): T | undefined {
  return readAny(node, field, at, reading) as T | undefined;
}

function readAny(node: Node, field: AnyField, at: At, reading: Reading): unknown {
  if (node.kind === "scalar" && node.broken) return undefined;
  switch (field.kind) {
    case "text":
      return readText(node, at, reading);
    case "name":
      return readName(node, at, reading);
    case "choice":
      return readChoice(node, field, at, reading);
    case "flag":
      return readFlag(node, at, reading);
    case "quantity":
      return readParameter(node, at.name, field, at.path, reading);
    case "whole":
      return readWhole(node, field, at, reading);
    case "group":
      return readGroup(node, field, at, reading);
    case "named":
      return readNamed(node, field, at, reading);
    case "list":
      return readList(node, field, at, reading);
    case "either":
      return readAny(node, node.kind === "mapping" ? field.group : field.plain, at, reading);
    case "entry":
      return readEntry(node, field, at, reading);
    case "figures":
      return node.kind === "mapping"
        ? readFigures(node.entries, field.fields, at, reading)
        : wrongKind(node, "a mapping from quantities to values", at, reading);
    case "section":
      return { path: at.path, node, value: plainValue(node) } satisfies Section;
  }
}

function readText(node: Node, at: At, reading: Reading): string | undefined {
  if (node.kind === "scalar" && node.value !== null) return node.text;
  return wrongKind(node, "text", at, reading);
}

function readName(node: Node, at: At, reading: Reading): string | undefined {
  if (node.kind !== "scalar" || node.value === null) return wrongKind(node, "a name", at, reading);
  return checkName(node.text, node, at, reading) ? node.text : undefined;
}

function readChoice(node: Node, field: ChoiceField, at: At, reading: Reading): string | undefined {
  const known = Object.keys(field.choices);
  if (node.kind !== "scalar" || node.value === null) {
    return wrongKind(node, `one of ${known.join(", ")}`, at, reading);
  }
  if (known.includes(node.text)) return node.text;
  const nearest = nearestWord(node.text, known);
  reading.report(
    "unknown-word",
    `\`${node.text}\` isn't a ${at.name} that is known`,
    at.path,
    node,
    {
      expected: `one of ${known.join(", ")}`,
      ...(nearest === undefined ? {} : { nearest }),
    },
  );
  return undefined;
}

function readFlag(node: Node, at: At, reading: Reading): boolean | undefined {
  if (node.kind === "scalar" && typeof node.value === "boolean") return node.value;
  return wrongKind(node, "true or false", at, reading);
}

function readWhole(
  node: Node,
  field: WholeField,
  at: At,
  reading: Reading,
): number | "auto" | undefined {
  const range = `a whole number from ${field.minimum} to ${field.maximum}`;
  const expected =
    field.unit === "bit" ? "a whole number of bits, such as `32 bit` or `1 Mib`" : range;
  if (node.kind !== "scalar" || node.value === null || typeof node.value === "boolean") {
    return wrongKind(node, expected, at, reading);
  }
  if (node.text === "auto" && field.auto === true) return "auto";
  const value = wholeValue(node, field, at, reading);
  if (value === undefined) return undefined;
  const code = !Number.isInteger(value) ? "not-whole" : "out-of-range";
  if (code === "out-of-range" && value >= field.minimum && value <= field.maximum) return value;
  reading.report(code, `${at.name} can't be \`${node.text}\``, at.path, node, { expected });
  return undefined;
}

function wholeValue(
  node: ScalarNode,
  field: WholeField,
  at: At,
  reading: Reading,
): number | undefined {
  try {
    return readQuantity(node.text, field.unit);
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    const { code, what, place: _, ...more } = error.problems[0]!;
    const example =
      field.example === undefined ? {} : { fix: `such as \`${at.name}: ${field.example}\`` };
    reading.report(code, `${at.name}: ${what}`, at.path, node, { ...example, ...more });
    return undefined;
  }
}

function readGroup(node: Node, field: GroupField, at: At, reading: Reading): object | undefined {
  if (node.kind !== "mapping") {
    const keys = Object.keys(field.fields).slice(0, 12).join(", ");
    return wrongKind(node, `a mapping with ${keys}`, at, reading);
  }
  reportUnknownKeys(node, Object.keys(field.fields), at, reading);
  const result: Record<string, unknown> = {};
  for (const { key, keySpan, value } of node.entries) {
    if (!Object.hasOwn(field.fields, key)) continue;
    const inside = { name: key, path: below(at.path, key), key: keySpan };
    const read = readAny(value, field.fields[key]!, inside, reading);
    if (read !== undefined) result[key] = read;
  }
  for (const [key, of] of Object.entries(field.fields)) {
    if (of.required !== true || node.entries.some((entry) => entry.key === key)) continue;
    reportMissing(key, of, node, at, reading);
  }
  return result;
}

function reportMissing(key: string, of: AnyField, node: Node, at: At, reading: Reading): void {
  const where = at.name === "" ? "the file" : at.name;
  reading.report("missing-key", `${where} has no \`${key}\``, at.path, at.key ?? node, {
    expected: of.meaning,
    ...(of.example === undefined ? {} : { fix: `add \`${key}: ${of.example}\`` }),
  });
}

function readNamed(node: Node, field: NamedField, at: At, reading: Reading): object | undefined {
  if (node.kind !== "mapping" || node.entries.length === 0) {
    return wrongKind(node, `a mapping from ${field.key} to ${field.of.meaning}`, at, reading);
  }
  const result: Record<string, unknown> = {};
  for (const { key, keySpan, value } of node.entries) {
    const inside = { name: key, path: below(at.path, key), key: keySpan };
    if (!checkName(key, keySpan, inside, reading)) continue;
    const read = readAny(value, field.of, inside, reading);
    if (read !== undefined) result[key] = read;
  }
  return result;
}

function readList(node: Node, field: ListField, at: At, reading: Reading): unknown[] | undefined {
  if (node.kind !== "list")
    return wrongKind(node, "a list, one item a line after `- `", at, reading);
  return node.items
    .map((item, i) =>
      readAny(item, field.of, { name: `${at.name} ${i + 1}`, path: below(at.path, i) }, reading),
    )
    .filter((value) => value !== undefined);
}

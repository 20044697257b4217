/**
 * JSON Schema (draft 2020-12) of a definition, for editors: completion, descriptions, and the
 * coarse mistakes.
 */

import { BASES } from "../quantities/parameter.ts";
import { figureField } from "./define.ts";
import { USE_KEYS } from "./entry.ts";
import type { AnyField, EntryTable, FigureTable, QuantityField } from "./field.ts";
import { DISTRIBUTIONS, VALUE_KEYS } from "./value-keys.ts";

export type JsonSchema = { readonly [key: string]: unknown };

const DIALECT = "https://json-schema.org/draft/2020-12/schema";
const NUMBER_TEXT = "^\\s*[-+\u2212]?(\\d+\\.?\\d*|\\.\\d+)([eE][-+]?\\d+)?";
const NAME_TEXT = "^[\\p{L}\\p{N}][\\p{L}\\p{N}_.-]*$";

/**
 * The schema of a file that the definition reads. The reader refuses more: units, physics, names.
 */
export function jsonSchema(field: AnyField, title: string): JsonSchema {
  const definitions: Record<string, JsonSchema> = {};
  const schema = schemaOf(field, definitions);
  return { $schema: DIALECT, title, ...schema, $defs: { spread: spreadSchema(), ...definitions } };
}

function schemaOf(field: AnyField, definitions: Record<string, JsonSchema>): JsonSchema {
  return { ...shapeOf(field, definitions), ...described(field) };
}

function described(field: AnyField): JsonSchema {
  const parts = [field.meaning];
  if (field.kind === "quantity" && field.unit !== undefined && field.unit !== "1") {
    parts.push(`in ${field.unit} or a multiple`);
  }
  const standard = field.default;
  if (standard !== undefined) parts.push(`default ${standard.value} (${standard.source})`);
  const example = field.example ?? standard?.value;
  return {
    description: parts.join("; "),
    ...(example === undefined ? {} : { examples: [example] }),
  };
}

function shapeOf(field: AnyField, definitions: Record<string, JsonSchema>): JsonSchema {
  switch (field.kind) {
    case "text":
      return { type: ["string", "number", "boolean"] };
    case "name":
      return { type: ["string", "number"], pattern: NAME_TEXT };
    case "choice":
      return { oneOf: choices(field.choices) };
    case "flag":
      return { type: "boolean" };
    case "quantity":
      return quantitySchema(field);
    case "whole":
      return wholeSchema(field.unit, field.minimum, field.maximum, field.auto === true);
    case "group":
      return objectSchema(
        Object.entries(field.fields).map(([key, of]) => [key, schemaOf(of, definitions)]),
        Object.keys(field.fields).filter((key) => field.fields[key]!.required === true),
      );
    case "named":
      return {
        type: "object",
        minProperties: 1,
        propertyNames: { pattern: NAME_TEXT },
        additionalProperties: schemaOf(field.of, definitions),
      };
    case "list":
      return { type: "array", items: schemaOf(field.of, definitions) };
    case "either":
      return { anyOf: [schemaOf(field.plain, definitions), schemaOf(field.group, definitions)] };
    case "entry":
      return entrySchema(field.of, field.table, definitions);
    case "figures":
      return objectSchema(figureSchemas(field.fields), []);
    case "section":
      return {};
  }
}

function choices(words: Readonly<Record<string, string>>): JsonSchema[] {
  return Object.entries(words).map(([word, meaning]) => ({ const: word, description: meaning }));
}

function objectSchema(properties: [string, JsonSchema][], required: string[]): JsonSchema {
  return {
    type: "object",
    additionalProperties: false,
    properties: Object.fromEntries(properties),
    ...(required.length === 0 ? {} : { required }),
  };
}

function quantitySchema(field: QuantityField): JsonSchema {
  const text = { type: "string", pattern: NUMBER_TEXT };
  const plain = field.unit === undefined || field.unit === "1" ? [{ type: "number" }] : [];
  const auto = field.auto === true ? [{ const: "auto" }] : [];
  return { anyOf: [text, ...plain, ...auto, { $ref: "#/$defs/spread" }] };
}

function wholeSchema(unit: string, minimum: number, maximum: number, auto: boolean): JsonSchema {
  const number =
    unit === "bit"
      ? { type: "string", pattern: NUMBER_TEXT }
      : { type: "integer", minimum, maximum };
  return auto ? { anyOf: [number, { const: "auto" }] } : number;
}

/** Entries stand in several places: their schema once, under `$defs`. */
function entrySchema(
  of: string,
  table: EntryTable,
  definitions: Record<string, JsonSchema>,
): JsonSchema {
  const id = of.replaceAll(" ", "-");
  if (!Object.hasOwn(definitions, id)) {
    const heads = Object.entries(USE_KEYS).map(([key, description]): [string, JsonSchema] => [
      key,
      { type: ["string", "number"], description },
    ]);
    const kind: [string, JsonSchema][] =
      table.variants === undefined
        ? []
        : [["kind", { enum: table.variants, description: `kind of ${of}` }]];
    const body = objectSchema([...heads, ...kind, ...figureSchemas(table.fields)], []);
    definitions[id] = { anyOf: [{ type: ["string", "number"], pattern: NAME_TEXT }, body] };
  }
  return { $ref: `#/$defs/${id}` };
}

function figureSchemas(fields: FigureTable): [string, JsonSchema][] {
  return Object.entries(fields).map(([key, figure]) => [key, schemaOf(figureField(figure), {})]);
}

/** A figure in long form. */
function spreadSchema(): JsonSchema {
  const figure = { type: ["string", "number"] };
  const shapes: Record<keyof typeof VALUE_KEYS, JsonSchema> = {
    value: figure,
    low: figure,
    high: figure,
    sigma: figure,
    distribution: { oneOf: choices(DISTRIBUTIONS) },
    samples: { type: "array", items: figure, minItems: 1 },
    least: figure,
    most: figure,
    source: { type: ["string", "number"] },
    basis: { enum: BASES },
    note: { type: ["string", "number"] },
  };
  const properties = Object.entries(shapes).map(([key, shape]): [string, JsonSchema] => [
    key,
    { ...shape, description: VALUE_KEYS[key as keyof typeof VALUE_KEYS] },
  ]);
  return objectSchema(properties, []);
}

/** The key reference of the docs, as rows: from the same definitions that read the files. */

import { figureField } from "./define.ts";
import { USE_KEYS } from "./entry.ts";
import type { AnyField, EntryTable } from "./field.ts";

export interface KeyRow {
  /** Such as `designs.<name>.tile.rows`. */
  readonly key: string;
  /** What is written there, such as `whole number, or auto`. */
  readonly kind: string;
  /** SI unit, where the key has one. */
  readonly unit?: string;
  readonly range?: string;
  readonly required: boolean;
  readonly meaning: string;
  readonly default?: string;
  readonly source?: string;
  readonly example?: string;
}

/**
 * A row for each key under `field`, in the order of the definition; figures of entries stand once,
 * below theirs.
 */
export function keyReference(field: AnyField): KeyRow[] {
  const rows: KeyRow[] = [];
  collect(field, "", rows, new Set());
  return rows;
}

function collect(field: AnyField, key: string, rows: KeyRow[], seen: Set<EntryTable>): void {
  if (key !== "") rows.push(rowOf(field, key));
  const under = (name: string): string => (key === "" ? name : `${key}.${name}`);
  switch (field.kind) {
    case "group":
      for (const [name, of] of Object.entries(field.fields)) collect(of, under(name), rows, seen);
      return;
    case "named":
      collect(field.of, under("<name>"), rows, seen);
      return;
    case "list":
      collect(field.of, `${key}[]`, rows, seen);
      return;
    case "either":
      if (field.group.kind === "group") {
        for (const [name, of] of Object.entries(field.group.fields))
          collect(of, under(name), rows, seen);
      }
      return;
    case "entry":
      if (seen.has(field.table)) return;
      seen.add(field.table);
      for (const [name, meaning] of Object.entries(USE_KEYS)) {
        rows.push({ key: under(name), kind: "text", required: false, meaning });
      }
      for (const [name, figure] of Object.entries(field.table.fields)) {
        rows.push(rowOf(figureField(figure), under(name)));
      }
      return;
    case "figures":
      rows.push({
        key: under("<quantity>"),
        kind: "figure",
        required: false,
        meaning: "any of them",
      });
      return;
    default:
      return;
  }
}

function rowOf(field: AnyField, key: string): KeyRow {
  const range = rangeOf(field);
  const unit = "unit" in field && field.unit !== "1" ? field.unit : undefined;
  const example = field.example ?? field.default?.value;
  return {
    key,
    kind: kindText(field),
    ...(unit === undefined ? {} : { unit }),
    ...(range === undefined ? {} : { range }),
    required: field.required === true,
    meaning: field.meaning,
    ...(field.default === undefined
      ? {}
      : { default: field.default.value, source: field.default.source }),
    ...(example === undefined ? {} : { example }),
  };
}

function kindText(field: AnyField): string {
  const auto = "auto" in field && field.auto === true ? ", or auto" : "";
  switch (field.kind) {
    case "choice":
      return Object.keys(field.choices).join(" | ");
    case "flag":
      return "true | false";
    case "quantity":
      return `figure${auto}`;
    case "whole":
      return (field.unit === "bit" ? "whole number of bits" : "whole number") + auto;
    case "group":
    case "named":
    case "figures":
      return "mapping";
    case "either":
      return `${kindText(field.plain)}, or a mapping`;
    case "entry":
      return `${field.of}: name, or a mapping`;
    case "section":
      return "section";
    default:
      return field.kind;
  }
}

function rangeOf(field: AnyField): string | undefined {
  if (field.kind !== "quantity" && field.kind !== "whole") return undefined;
  if (field.kind === "quantity" && field.positive === true && field.maximum === undefined)
    return "> 0";
  const low =
    field.kind === "quantity" && field.positive === true ? "> 0" : limit("≥", field.minimum);
  const parts = [low, limit("≤", field.maximum)].filter((part) => part !== undefined);
  return parts.length === 0 ? undefined : parts.join(", ");
}

function limit(sign: string, x: number | undefined): string | undefined {
  return x === undefined ? undefined : `${sign} ${x}`;
}

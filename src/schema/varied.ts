/** What a sweep and a search vary: names with lists or ranges of values. */

import { choice, either, group, list, named, text, whole } from "./define.ts";
import type { Field } from "./field.ts";

/** Values from one end to the other, both included. */
export interface RangeStatement {
  readonly from: string;
  readonly to: string;
  readonly points?: number;
  readonly step?: string;
  readonly spacing?: "linear" | "logarithmic";
}

/** Values as texts, or a range of them. */
export type ValuesStatement = readonly string[] | RangeStatement;

const range = group<RangeStatement>("values from one end to the other", {
  from: text("the first value", { required: true, example: "1 kohm" }),
  to: text("the last value", { required: true, example: "100 kohm" }),
  points: whole("how many values", { minimum: 2, maximum: 1e7, example: "21" }),
  step: text("from one value to the next, in place of `points`", { example: "8" }),
  spacing: choice("how the values are spaced", {
    linear: "equal differences",
    logarithmic: "equal ratios",
  }),
});

const values: Field<ValuesStatement> = either(
  "values: a list, or a range",
  list("values", text("a value", { example: "64" })),
  range,
) as Field<ValuesStatement>;

/** Names with their values; every combination of them is meant. */
export const variedField: Field<Readonly<Record<string, ValuesStatement>>> = named(
  "parameters by name, or places of the study such as `designs.static.tile.rows`",
  "a name",
  values,
);

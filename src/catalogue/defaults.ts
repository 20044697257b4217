/** Defaults of the field tables as parameters. */

import type { Parameter } from "../quantities/parameter.ts";
import { readQuantity } from "../quantities/quantity.ts";
import { completed } from "../schema/spread.ts";
import type { DefaultValue, Field } from "./fields/field.ts";

/** A default in SI, with the spread that a file with the same low and high would have. */
export function defaultParameter(
  name: string,
  field: Field,
  given: DefaultValue,
  key: string,
): Parameter {
  const { source, basis, note } = given;
  const [value, low, high] = [given.value, given.low, given.high].map((text) =>
    readQuantity(text, field.unit),
  ) as [number, number, number];
  const parts = { value, low, high, sigma: undefined, samples: undefined, distribution: undefined };
  return {
    name,
    unit: field.unit,
    ...completed(parts, (field.shape ?? "positive") === "positive"),
    source,
    basis,
    ...(note === undefined ? {} : { note }),
    key,
  };
}

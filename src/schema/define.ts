/** Short forms that write definitions. */

import type { Parameter } from "../quantities/parameter.ts";
import type {
  ChoiceField,
  EitherField,
  EntryTable,
  EntryUse,
  Field,
  Figure,
  FigureTable,
  FlagField,
  GroupField,
  ListField,
  NamedField,
  NameField,
  QuantityField,
  Section,
  SectionField,
  TextField,
  WholeField,
} from "./field.ts";

type More<F> = Omit<F, "kind" | "meaning">;

export function text(meaning: string, more: More<TextField> = {}): Field<string> {
  return { kind: "text", meaning, ...more };
}
export function name(meaning: string, more: More<NameField> = {}): Field<string> {
  return { kind: "name", meaning, ...more };
}
export function flag(meaning: string, more: More<FlagField> = {}): Field<boolean> {
  return { kind: "flag", meaning, ...more };
}
export function choice<C extends string>(
  meaning: string,
  choices: Readonly<Record<C, string>>,
  more: Omit<More<ChoiceField>, "choices"> = {},
): ChoiceField & Field<C> {
  return { kind: "choice", meaning, choices, ...more };
}
/** `unit` in SI; see `QuantityField`. */
export function quantity(
  unit: string,
  meaning: string,
  more: Omit<More<QuantityField>, "unit" | "auto"> = {},
): QuantityField & Field<Parameter> {
  return { kind: "quantity", unit, meaning, ...more };
}
/** A figure that is positive by nature. */
export function positive(
  unit: string,
  meaning: string,
  more: Omit<More<QuantityField>, "unit" | "auto"> = {},
): QuantityField & Field<Parameter> {
  return { kind: "quantity", unit, meaning, positive: true, ...more };
}
/** A share, from 0 to 1; `5 %` is read too. */
export function share(
  meaning: string,
  more: More<QuantityField> = {},
): QuantityField & Field<Parameter> {
  return { kind: "quantity", unit: "1", minimum: 0, maximum: 1, meaning, ...more };
}
export function whole(meaning: string, more: Partial<More<WholeField>> = {}): Field<number> {
  return { kind: "whole", unit: "1", minimum: 1, maximum: 2 ** 40, meaning, ...more };
}
/** A whole number, or `auto`. */
export function wholeOrAuto(
  meaning: string,
  more: Partial<More<WholeField>> = {},
): Field<number | "auto"> {
  return { kind: "whole", unit: "1", minimum: 1, maximum: 2 ** 40, meaning, ...more, auto: true };
}
/** A mapping with a definition for each key of `T`: the compiler finds one that is missing. */
export function group<T>(
  meaning: string,
  fields: { readonly [K in keyof T]-?: Field<Exclude<T[K], undefined>> },
  more: Omit<More<GroupField>, "fields"> = {},
): GroupField & Field<T> {
  return { kind: "group", meaning, fields: fields as unknown as GroupField["fields"], ...more };
}
export function named<T>(
  meaning: string,
  key: string,
  of: Field<T>,
  more: Omit<More<NamedField>, "of" | "key"> = {},
): Field<Readonly<Record<string, T>>> {
  return { kind: "named", meaning, key, of, ...more } as Field<Readonly<Record<string, T>>>;
}
export function list<T>(meaning: string, of: Field<T>, more: Omit<More<ListField>, "of"> = {}) {
  return { kind: "list", meaning, of, ...more } as Field<readonly T[]>;
}
export function either<P, G>(
  meaning: string,
  plain: Field<P>,
  grouped: Field<G>,
  more: Omit<More<EitherField>, "plain" | "group"> = {},
): Field<P | G> {
  return { kind: "either", meaning, plain, group: grouped, ...more } as Field<P | G>;
}
export function entry(of: string, meaning: string, table: EntryTable): Field<EntryUse> {
  return { kind: "entry", of, meaning, table };
}
export function figures(
  meaning: string,
  fields: FigureTable,
): Field<Readonly<Record<string, Parameter>>> {
  return { kind: "figures", meaning, fields } as Field<Readonly<Record<string, Parameter>>>;
}
const BOUNDS: Partial<
  Record<NonNullable<Figure["shape"]>, Pick<QuantityField, "minimum" | "maximum">>
> = {
  share: { minimum: 0, maximum: 1 },
  "not negative": { minimum: 0 },
};
/** The definition by which a figure of a table is read. */
export function figureField(figure: Figure): QuantityField {
  const { unit, meaning, shape = "positive", default: standard } = figure;
  const bounds = BOUNDS[shape] ?? {};
  const sign = shape === "positive" ? { positive: true } : {};
  const given = standard === undefined ? {} : { default: standard };
  return { kind: "quantity", unit, meaning, ...bounds, ...sign, ...given };
}
export function section(meaning: string, more: More<SectionField> = {}): Field<Section> {
  return { kind: "section", meaning, ...more };
}

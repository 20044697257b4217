/** Writing model sheets: short entries, and inputs that are read off the formulas. */
import { fail } from "../errors/problem.ts";
import { constantOf } from "../formulas/constants.ts";
import {
  type FormulaDefinition,
  type InputDefinition,
  type Sheet,
  sheet,
} from "../formulas/sheet.ts";
import { FUNCTIONS } from "../formulas/tree.ts";
import type { Basis } from "../quantities/parameter.ts";
import { KNOWN } from "./known.ts";

/**
 * A parameter that every design has unless its study says otherwise. SI units; low = high for a
 * choice of design.
 */
export interface ParameterDefault {
  readonly name: string;
  readonly unit: string;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly source: string;
  readonly basis: Basis;
  readonly meaning: string;
}

/** One row of a table of defaults. */
export type DefaultRow = readonly [
  name: string,
  unit: string,
  value: number,
  low: number,
  high: number,
  source: string,
  basis: Basis,
  meaning: string,
];

/** Makes parameters of a table's rows. */
export function defaultsOf(rows: readonly DefaultRow[]): readonly ParameterDefault[] {
  return rows.map(([name, unit, value, low, high, source, basis, meaning]) => ({
    name,
    unit,
    value,
    low,
    high,
    source,
    basis,
    meaning,
  }));
}

/** One formula: unit, text, meaning, source key, and where it helps a symbol and a note. */
export function formula(
  unit: string,
  text: string,
  meaning: string,
  source = "this project",
  more: { readonly symbol?: string; readonly note?: string } = {},
): FormulaDefinition {
  return { unit, formula: text, meaning, source, ...more };
}

/** All names in a formula that are neither functions nor constants. */
export function symbolsOf(text: string): string[] {
  const names = text.replace(/\b\d[\d.]*e[+-]?\d+/gi, "0").match(/[A-Za-z_]\w*/g) ?? [];
  const functions: readonly string[] = FUNCTIONS;
  return [...new Set(names)].filter(
    (name) => !functions.includes(name) && constantOf(name) === undefined,
  );
}

/**
 * The unit and meaning of a quantity: what a sheet says itself, else a parameter with a default,
 * else the common list.
 */
export function inputOf(
  name: string,
  own: Readonly<Record<string, InputDefinition>> = {},
  parameters: readonly ParameterDefault[] = [],
): InputDefinition {
  const parameter = parameters.find((entry) => entry.name === name);
  const found = own[name] ?? KNOWN[name] ?? parameter;
  if (found !== undefined) {
    const { unit, meaning, symbol } = found as InputDefinition;
    return symbol === undefined ? { unit, meaning } : { unit, meaning, symbol };
  }
  return fail({ code: "unknown-quantity", what: `no model sheet may read ${name}` });
}

/** Inputs of a procedure by their names. */
export function inputsOf(
  names: readonly string[],
  own: Readonly<Record<string, InputDefinition>> = {},
  parameters: readonly ParameterDefault[] = [],
): Readonly<Record<string, InputDefinition>> {
  return Object.fromEntries(names.map((name) => [name, inputOf(name, own, parameters)]));
}

/**
 * Declares a sheet. Its inputs are all names that its formulas read and do not define: those that
 * `inputs` describes, the quantities of `known.ts`, and the `parameters` that have a default
 * beside the sheet.
 */
export function model(definition: {
  readonly name: string;
  readonly title: string;
  readonly about: string;
  readonly parameters?: readonly ParameterDefault[];
  readonly inputs?: Readonly<Record<string, InputDefinition>>;
  readonly formulas: Readonly<Record<string, FormulaDefinition>>;
}): Sheet {
  const { name, title, about, formulas, parameters } = definition;
  const read = Object.values(formulas).flatMap((entry) => symbolsOf(entry.formula));
  const names = [...new Set(read)].filter((symbol) => formulas[symbol] === undefined).sort();
  return sheet({
    name,
    title,
    about,
    inputs: inputsOf(names, definition.inputs, parameters),
    formulas,
  });
}

/** What a default can be at all [SI]: nothing is below zero, and no share of a whole above one. */
export function boundsOf({ name, unit, high }: ParameterDefault): {
  readonly least: number;
  readonly most?: number;
} {
  // Shares of an optimum or of a rule of thumb have ranges that pass one.
  const ofWhole = unit === "1" && name.endsWith("_share") && high <= 1;
  return { least: 0, ...(ofWhole && { most: 1 }) };
}

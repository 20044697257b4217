/** Writing periphery sheets: short formula entries, and inputs that are read off the formulas. */
import { fail } from "../../errors/problem.ts";
import {
  type FormulaDefinition,
  type InputDefinition,
  type Sheet,
  sheet,
} from "../../formulas/sheet.ts";
import { FUNCTIONS } from "../../formulas/tree.ts";
import { defaults } from "./defaults.ts";
import { GLOBALS } from "./globals.ts";

export type Formulas = Record<string, FormulaDefinition>;

/** One formula. Sources are keys of the list of sources. */
export function given(
  formula: string,
  unit: string,
  meaning: string,
  source = "this project",
  note?: string,
): FormulaDefinition {
  return note === undefined
    ? { formula, unit, meaning, source }
    : { formula, unit, meaning, source, note };
}

/** All names in a formula that are not functions. */
export function symbolsOf(formula: string): string[] {
  const names = formula.match(/[A-Za-z_]\w*/g) ?? [];
  const functions: readonly string[] = FUNCTIONS;
  return [...new Set(names.filter((name) => !functions.includes(name)))];
}

function inputOf(name: string, own: Readonly<Record<string, InputDefinition>>): InputDefinition {
  const local = own[name];
  if (local !== undefined) return local;
  const parameter = defaults.find((entry) => entry.name === name);
  if (parameter !== undefined) return { unit: parameter.unit, meaning: parameter.meaning };
  const entry = GLOBALS[name];
  if (entry !== undefined) return { unit: entry[0], meaning: entry[1] };
  return fail({ code: "unknown-quantity", what: `no periphery sheet may read ${name}` });
}

/**
 * Declares a sheet of the periphery. Its inputs are all names that its formulas read and do not
 * define: a quantity of
 * `GLOBALS`, a parameter of `defaults`, or one of `inputs`, which are to be bound.
 */
export function part(definition: {
  name: string;
  title: string;
  about: string;
  inputs?: Readonly<Record<string, InputDefinition>>;
  formulas: Formulas;
}): Sheet {
  const { name, title, about, formulas } = definition;
  const read = Object.values(formulas).flatMap((entry) => symbolsOf(entry.formula));
  const names = [...new Set(read)].filter((symbol) => formulas[symbol] === undefined).sort();
  const inputs = Object.fromEntries(
    names.map((symbol) => [symbol, inputOf(symbol, definition.inputs ?? {})]),
  );
  return sheet({ name, title, about, inputs, formulas });
}

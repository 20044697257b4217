/** Writing periphery sheets: short formula entries, and inputs that are read off the formulas. */
import type { FormulaDefinition, InputDefinition, Sheet } from "../../formulas/sheet.ts";
import { formula, model } from "../define.ts";
import { defaults } from "./defaults.ts";
import { GLOBALS } from "./globals.ts";

export type Formulas = Record<string, FormulaDefinition>;

/** One formula, its text first. Sources are keys of the list of sources. */
export function given(
  text: string,
  unit: string,
  meaning: string,
  source = "this project",
  note?: string,
): FormulaDefinition {
  return formula(unit, text, meaning, source, note === undefined ? {} : { note });
}

/**
 * Declares a sheet of the periphery. Its inputs are all names that its formulas read and do not
 * define: a quantity of the common list or of `GLOBALS`, a parameter of `defaults`, or one of
 * `inputs`, which are to be bound.
 */
export function part(definition: {
  readonly name: string;
  readonly title: string;
  readonly about: string;
  readonly inputs?: Readonly<Record<string, InputDefinition>>;
  readonly formulas: Formulas;
}): Sheet {
  const inputs = { ...GLOBALS, ...definition.inputs };
  return model({ ...definition, inputs, parameters: defaults });
}

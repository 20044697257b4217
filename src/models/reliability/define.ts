/** Short forms for writing the sheets and procedures of this folder. */
import { fail } from "../../errors/problem.ts";
import { constantOf } from "../../formulas/constants.ts";
import {
  type FormulaDefinition,
  type InputDefinition,
  type Procedure,
  procedure,
  type Sheet,
  sheet,
} from "../../formulas/sheet.ts";
import { FUNCTIONS } from "../../formulas/tree.ts";
import { QUANTITIES } from "./quantities.ts";

/** One formula: unit, text, meaning, source key and, where it helps, symbol and note. */
export function formula(
  unit: string,
  text: string,
  meaning: string,
  source: string,
  more: { readonly symbol?: string; readonly note?: string } = {},
): FormulaDefinition {
  return { unit, formula: text, meaning, source, ...more };
}

/** A sheet whose inputs are all names that its formulas read and do not define. */
export function reliabilitySheet(
  name: string,
  title: string,
  about: string,
  formulas: Readonly<Record<string, FormulaDefinition>>,
): Sheet {
  const read = Object.values(formulas).flatMap((f) => f.formula.match(/[A-Za-z_]\w*/g) ?? []);
  const functions: readonly string[] = FUNCTIONS;
  const names = [...new Set(read)].filter(
    (word) => !functions.includes(word) && constantOf(word) === undefined && !formulas[word],
  );
  return sheet({ name, title, about, inputs: definitionsOf(names.sort()), formulas });
}

/** A procedure of named inputs; `compute` takes them in that order and returns the outputs. */
export function reliabilityProcedure(
  name: string,
  text: { readonly title: string; readonly about: string; readonly source: string },
  inputs: readonly string[],
  outputs: Readonly<Record<string, InputDefinition>>,
  compute: (...inputs: number[]) => readonly number[],
): Procedure {
  return procedure({
    name,
    ...text,
    inputs: definitionsOf(inputs),
    outputs,
    run(values, results) {
      results.set(compute(...values));
    },
  });
}

function definitionsOf(names: readonly string[]): Readonly<Record<string, InputDefinition>> {
  return Object.fromEntries(names.map((name) => [name, definitionOf(name)]));
}

function definitionOf(name: string): InputDefinition {
  const found = QUANTITIES[name];
  return found ?? fail({ code: "unknown-quantity", what: `no reliability sheet may read ${name}` });
}

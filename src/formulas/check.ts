/** What can be wrong with a sheet or a procedure, found without running it. */

import { type Problem, TenfoldError } from "../errors/problem.ts";
import { dimensionText, sameDimension } from "../quantities/dimension.ts";
import { dimensionOf, parseUnit } from "../quantities/unit.ts";
import { assemble } from "./assemble.ts";
import { constantOf } from "./constants.ts";
import { dimensionOfTree } from "./dimensions.ts";
import { nameProblems } from "./expand.ts";
import { parseFormula } from "./parse.ts";
import type { InputDefinition, Procedure, Sheet } from "./sheet.ts";
import type { Tree } from "./tree.ts";
import { symbolsOf } from "./walk.ts";

/**
 * All mistakes of a sheet or procedure; none if it is right.
 *
 * Checked: every formula parses, reads only declared names and has the dimension of its unit; every
 * input is read; no formula needs itself; units are coherent SI; unit, meaning, source, title and
 * about are filled in; names are usable and stand once. Each problem names the model and the
 * formula.
 */
export function checkSheet(model: Sheet | Procedure): Problem[] {
  const who = `${model.kind} ${model.name}`;
  const outputs = model.kind === "sheet" ? model.formulas : model.outputs;
  const problems: Problem[] = [];
  for (const field of ["name", "title", "about"] as const) {
    if (model[field].trim() === "") problems.push(blank(who, field));
  }
  if (model.kind === "procedure") problems.push(...sourceProblems(model.source, who));
  for (const [name, definition] of [...Object.entries(model.inputs), ...Object.entries(outputs)]) {
    problems.push(...definitionProblems(name, definition, `${who}, ${name}`));
  }
  for (const name of Object.keys(outputs)) {
    if (Object.hasOwn(model.inputs, name)) problems.push(twice(who, name));
  }
  const readable = !problems.some(({ code }) => code === "bad-unit" || code === "unknown-unit");
  if (model.kind === "sheet") problems.push(...formulaProblems(model, who, readable));
  return problems.length > 0 ? problems : orderProblems(model);
}

/** Cycles: only to be seen once all else is right. */
function orderProblems(model: Sheet | Procedure): Problem[] {
  const given = Object.entries(model.inputs).map(([name, { unit }]) => ({ name, unit }));
  try {
    assemble([{ of: model }], given, parseFormula);
    return [];
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    return [...error.problems];
  }
}

/** Dimensions are left out where a unit cannot be read: its own problem says enough. */
function formulaProblems(model: Sheet, who: string, readable: boolean): Problem[] {
  const problems: Problem[] = [];
  const read = new Set<string>();
  const units = new Map<string, string>();
  for (const [name, { unit }] of Object.entries(model.formulas)) units.set(name, unit);
  for (const [name, { unit }] of Object.entries(model.inputs)) units.set(name, unit);
  for (const [name, definition] of Object.entries(model.formulas)) {
    const where = `${who}, formula ${name}`;
    problems.push(...sourceProblems(definition.source, where));
    try {
      const tree = parseFormula(definition.formula, where);
      for (const symbol of symbolsOf(tree)) read.add(symbol);
      if (readable) problems.push(...treeProblems(tree, definition, units, where));
    } catch (error) {
      if (!(error instanceof TenfoldError)) throw error;
      problems.push(...error.problems.map((one) => ({ ...one, what: `${where}: ${one.what}` })));
    }
  }
  for (const name of Object.keys(model.inputs)) {
    if (read.has(name)) continue;
    problems.push({ code: "sheet-unused", what: `${who}: no formula reads the input ${name}` });
  }
  return problems;
}

function treeProblems(
  tree: Tree,
  definition: { readonly unit: string; readonly formula: string },
  units: ReadonlyMap<string, string>,
  where: string,
): Problem[] {
  const unknown = symbolsOf(tree).filter((name) => !units.has(name) && !constantOf(name));
  if (unknown.length > 0) {
    const what = `${where}: ${unknown.join(", ")} stands in no input and no formula of the sheet`;
    return [{ code: "unknown-symbol", what, got: unknown.join(", ") }];
  }
  const stated = dimensionOf(definition.unit);
  const found = dimensionOfTree(tree, units);
  if (sameDimension(stated, found) || (tree.kind === "number" && tree.value === 0)) return [];
  return [
    {
      code: "dimension-mismatch",
      what: `${where}: ${definition.formula} is not in ${definition.unit || "a unit"}`,
      got: dimensionText(found),
      expected: `${dimensionText(stated)} (${definition.unit})`,
    },
  ];
}

function definitionProblems(name: string, { unit, meaning }: InputDefinition, who: string) {
  const problems = nameProblems(name, who);
  if (meaning.trim() === "") problems.push(blank(who, "meaning"));
  if (unit.trim() === "") return [...problems, blank(who, "unit")];
  try {
    const { factor, offset } = parseUnit(unit);
    if (factor !== 1 || offset !== undefined) problems.push(notCoherent(who, unit));
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    problems.push(...error.problems.map((one) => ({ ...one, what: `${who}: ${one.what}` })));
  }
  return problems;
}

function sourceProblems(source: string, who: string): Problem[] {
  return source.trim() === "" ? [blank(who, "source")] : [];
}

function notCoherent(who: string, unit: string): Problem {
  const what = `${who}: the unit has a prefix or an offset`;
  return { code: "sheet-unit", what, got: unit, expected: "SI without prefix, such as ohm/m" };
}

function blank(who: string, field: string): Problem {
  return { code: "sheet-blank", what: `${who}: the ${field} is blank` };
}

function twice(who: string, name: string): Problem {
  return { code: "quantity-twice", what: `${who}: ${name} is an input and a formula`, got: name };
}

import { expect, test } from "vitest";
import { KIND } from "../../src/catalogue/index.ts";
import { TenfoldError } from "../../src/errors/problem.ts";
import { everyRecipe, everyReliability } from "../../src/estimate/every.ts";
import type { MacroRecipe } from "../../src/estimate/macro.ts";
import { macroProgram } from "../../src/estimate/macro.ts";
import { DEFAULTS } from "../../src/estimate/parameters.ts";
import { timeName } from "../../src/estimate/reliability-times.ts";
import { checkSheet, dimensionOfTree, parseFormula } from "../../src/formulas/index.ts";
import type { Program } from "../../src/formulas/program.ts";
import type { Instance } from "../../src/formulas/sheet.ts";
import { profileNames } from "../../src/models/reliability/index.ts";
import { sameDimension } from "../../src/quantities/dimension.ts";
import { dimensionOf } from "../../src/quantities/unit.ts";
import type { GroupField } from "../../src/schema/field.ts";
import { reliabilityField } from "../../src/schema/reliability.ts";

const RELIABILITY = reliabilityField as GroupField;

/** Every figure that a design can have, by its global name: defaults, entries, its organisation. */
const FIGURES = new Map<string, string>([
  ...[...DEFAULTS.values()].map(({ name, unit }) => [name, unit] as const),
  ...unitsOf("technology"),
  ...unitsOf("baseline"),
  ...unitsOf("switch"),
  ...unitsOf("selector", "selector_"),
  ...["capacity", "word", "banks", "rows", "columns", "decks", "column_share", "bits_per_cell"].map(
    (name) => [name, "1"] as const,
  ),
  ...["cells_per_bit", "spare_rows", "spare_columns", "check_bits", "corrected_bits"].map(
    (name) => [name, "1"] as const,
  ),
  ...["amplifier_share", "bits_at_once"].map((name) => [name, "1"] as const),
  ["nominal_supply", "V"],
  ...[1, 2, 3, 4].map((time) => [timeName(time), "s"] as const),
  ["unheld_pulses", "1"],
  ...Object.entries(RELIABILITY.fields).flatMap(([name, field]) =>
    field.kind === "quantity" ? [[name, field.unit!] as const] : [],
  ),
  ...[1, 2, 3].flatMap((step) => {
    const { temperature, share } = profileNames(step);
    return [[temperature, "K"] as const, [share, "1"] as const];
  }),
]);

function unitsOf(kind: keyof typeof KIND, prefix = ""): [string, string][] {
  return Object.entries(KIND[kind].fields).map(([name, { unit }]) => [prefix + name, unit]);
}

/** What the recipe's models and formulas compute is not given to it. */
function programOf(recipe: MacroRecipe): Program {
  const computed = new Set<string>(recipe.extra.map(({ name }) => name));
  for (const { of, prefix = "" } of recipe.instances) {
    const defined = of.kind === "sheet" ? of.formulas : of.outputs;
    for (const name of Object.keys(defined)) computed.add(`${prefix}${name}`);
  }
  const given = [...FIGURES]
    .filter(([name]) => !computed.has(name))
    .map(([name, unit]) => ({ name, unit }));
  return macroProgram(recipe, given, parseFormula);
}

/** Formulas without a sheet whose dimension is not that of their unit. */
function wrongDimensions(program: Program, recipe: MacroRecipe): string[] {
  const unitOf = (name: string) => program.quantities.get(name)?.unit;
  return recipe.extra.flatMap(({ name, unit }) => {
    const tree = program.quantities.get(name)!.tree!;
    // A zero is zero of anything.
    if (tree.kind === "number" && tree.value === 0) return [];
    try {
      if (sameDimension(dimensionOfTree(tree, unitOf), dimensionOf(unit))) return [];
      return [`${name} is not in ${unit}`];
    } catch (error) {
      if (!(error instanceof TenfoldError)) throw error;
      return [`${name}: ${error.message}`];
    }
  });
}

test("every structure of a macro makes a program, and its sums have the dimension that they state", () => {
  const models = new Set<Instance["of"]>();
  const wrong = new Set<string>();
  let recipes = 0;
  let turn = 0;
  for (const one of everyRecipe()) {
    // Corrections, spares and supplies differ in the same parts for all cells: each cell has its turn with some.
    if (turn++ % (one.structure.crosspoint === undefined ? 3 : 37) > 0) continue;
    const { recipe } = one;
    recipes++;
    for (const { of } of recipe.instances) models.add(of);
    try {
      for (const what of wrongDimensions(programOf(recipe), recipe)) wrong.add(what);
    } catch (error) {
      if (!(error instanceof TenfoldError)) throw error;
      for (const { what } of error.problems) wrong.add(what);
    }
  }
  for (const { recipe } of everyReliability())
    for (const what of wrongDimensions(programOf(recipe), recipe)) wrong.add(what);
  expect([...wrong]).toEqual([]);
  expect(recipes).toBeGreaterThan(300);
  const sheets = [...models].flatMap((model) => checkSheet(model).map(({ what }) => what));
  expect(sheets).toEqual([]);
});

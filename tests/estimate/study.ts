import type { Catalogue } from "../../src/catalogue/index.ts";
import { Catalogue as CatalogueOf } from "../../src/catalogue/index.ts";
import { resolveDesign } from "../../src/estimate/design.ts";
import { MacroModel } from "../../src/estimate/model.ts";
import { parseFormula } from "../../src/formulas/parse.ts";
import { folderLoader } from "../../src/io/catalogue.ts";
import { studyTables } from "../../src/io/tables.ts";
import { readStudy } from "../../src/schema/read-study.ts";
import type { Study } from "../../src/schema/study.ts";

/** The catalogue that the package ships. */
export const CATALOGUE: Catalogue = new CatalogueOf(folderLoader(), []);

const TABLES = studyTables();

/** Keys of a design as a study's file has them. JSON is YAML. */
export type Keys = Readonly<Record<string, unknown>>;

/** A study of these designs, with what all of them share. */
export function studyOf(designs: Readonly<Record<string, Keys>>, top: Keys = {}): Study {
  const text = JSON.stringify({ title: "test", ...top, designs }, undefined, 1);
  return readStudy(text, "study.yaml", { tables: TABLES });
}

/** The model of one design; without ratios its crossbar is solved where the closed forms do not hold. */
export function modelOf(
  keys: Keys,
  top: Keys = {},
  options: ConstructorParameters<typeof MacroModel>[2] = {},
): MacroModel {
  const study = studyOf({ one: { capacity: "64 Kib", word: "32 bit", ...keys } }, top);
  return new MacroModel(resolveDesign(study, "one", CATALOGUE), parseFormula, options);
}

/** Every quantity of one design at its nominal parameters, in SI. */
export function quantitiesOf(keys: Keys, top: Keys = {}): (name: string) => number {
  const values = modelOf(keys, top).nominal();
  return (name) => {
    const value = values.get(name);
    if (value === undefined) throw new Error(`no quantity ${name}`);
    return value;
  };
}

export const OXIDE_TRANSISTOR: Keys = {
  switch: "oxide-bilayer",
  selector: { kind: "transistor" },
};

import { LEVEL_TABLE } from "../catalogue/fields/wires.ts";
import { KIND, type Kind } from "../catalogue/index.ts";
import { estimateDefaults } from "../estimate/defaults.ts";
import { defaults as peripheryDefaults } from "../models/periphery/index.ts";
import { modelDefaults } from "../models/registry.ts";
import type { EntryTable, FigureTable } from "../schema/field.ts";
import type { StudyTables } from "../schema/tables.ts";
import { folderLoader } from "./catalogue.ts";

/** The figures that a study may state: those of the catalogue's kinds, and every parameter of a model. */
export function studyTables(): StudyTables {
  const models = [...modelDefaults, ...peripheryDefaults, ...estimateDefaults];
  const overrides: FigureTable = {
    ...KIND.technology.fields,
    ...Object.fromEntries(
      models.map(({ name, unit, meaning }) => [name, { unit, meaning, shape: "signed" }]),
    ),
  };
  return {
    technology: tableOf("technology"),
    switch: tableOf("switch"),
    selector: tableOf("selector"),
    baseline: tableOf("baseline"),
    wire: { fields: LEVEL_TABLE },
    overrides,
  };
}

function tableOf(kind: Kind): EntryTable {
  const { fields, variants } = KIND[kind];
  const names = () => folderLoader().names(kind);
  return variants === undefined ? { fields, names } : { fields, variants, names };
}

import type { StudyTables } from "../schema/tables.ts";
import { definitionTables } from "../studies/definition.ts";
import { folderLoader } from "./catalogue.ts";

/** The figures that a study may state, with the names of the catalogue that the package ships. */
export function studyTables(): StudyTables {
  return definitionTables((kind) => folderLoader().names(kind));
}

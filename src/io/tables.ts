import type { StudyTables } from "../schema/tables.ts";
import { definitionTables } from "../studies/definition.ts";
import { folderLoader } from "./catalogue.ts";

let known: StudyTables | undefined;

/**
 * The figures that a study may state, with the names of the catalogue that the package ships. Made
 * once: a sweep reads its study anew for each family of points.
 */
export function studyTables(): StudyTables {
  if (known !== undefined) return known;
  const { names } = folderLoader();
  known = definitionTables(names);
  return known;
}

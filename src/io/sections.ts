import type { StudySections } from "../schema/tables.ts";
import { definitionSections } from "../studies/definition.ts";
import { studyTables } from "./tables.ts";

/** The definitions of the sections of a study that have a reader of their own. */
export function studySections(): StudySections {
  return definitionSections(studyTables());
}

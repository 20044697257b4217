import type { StudySections } from "../schema/tables.ts";
import { definitionSections } from "../studies/definition.ts";
import { studyTables } from "./tables.ts";

let known: StudySections | undefined;

/** The definitions of the sections of a study that have a reader of their own, made once. */
export function studySections(): StudySections {
  known ??= definitionSections(studyTables());
  return known;
}

import { studyField } from "../schema/definition.ts";
import { type JsonSchema, jsonSchema } from "../schema/json-schema.ts";
import { studySections } from "./sections.ts";
import { studyTables } from "./tables.ts";

/** The JSON Schema of a study, from the same definitions that read it. */
export function studySchema(): JsonSchema {
  return jsonSchema(studyField(studyTables(), studySections()), "A tenfold study");
}

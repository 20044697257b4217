import { FUNCTIONS } from "../estimate/functions/index.ts";
import { BOUNDARY_MEANINGS } from "../estimate/ledger.ts";
import { functionDefaults } from "../models/functions/index.ts";
import { claimsField } from "../schema/claims.ts";
import { STUDY_SECTIONS } from "../schema/sections.ts";
import type { StudySections } from "../schema/tables.ts";
import { studyTables } from "./tables.ts";

/** The definitions of the sections of a study that have a reader of their own. */
export function studySections(): StudySections {
  return {
    ...STUDY_SECTIONS,
    claims: claimsField({
      functions: Object.fromEntries(FUNCTIONS.map(({ name, title }) => [name, title])),
      boundaries: BOUNDARY_MEANINGS,
      sizes: Object.fromEntries(
        functionDefaults.map(({ name, unit, meaning }) => [name, { unit, meaning }]),
      ),
      technology: studyTables().technology,
    }),
  };
}

/** The definitions of a study's sections, one line each. */

import type { StudySections } from "./tables.ts";
import { uncertaintyField } from "./uncertainty.ts";

export const STUDY_SECTIONS: StudySections = {
  uncertainty: uncertaintyField,
};

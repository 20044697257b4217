/** The definitions of a study's sections, one line each. */

import { organiseField } from "./organise.ts";
import { standbyField } from "./standby.ts";
import { sweepField } from "./sweep.ts";
import type { StudySections } from "./tables.ts";
import { uncertaintyField } from "./uncertainty.ts";

export const STUDY_SECTIONS: StudySections = {
  organise: organiseField,
  standby: standbyField,
  sweep: sweepField,
  uncertainty: uncertaintyField,
};

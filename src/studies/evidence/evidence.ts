import type { ModelErrors } from "../../catalogue/index.ts";
import type { Compared, ComparedChip } from "./compare.ts";
import type { FitSpread } from "./fit.ts";
import type { Change } from "./history.ts";
import { COMPARED_QUANTITIES, type EvidencePlan } from "./plan.ts";
import {
  type Coverage,
  heldByOthers,
  modelErrors,
  type Summary,
  summaries,
  type Verdict,
  verdicts,
} from "./summary.ts";

/** All chips beside their studies, with what follows from them. */
export interface Evidence {
  readonly chips: readonly ComparedChip[];
  readonly leftOut: EvidencePlan["leftOut"];
  readonly summaries: readonly Summary[];
  readonly verdicts: readonly Verdict[];
  readonly coverage: readonly Coverage[];
  readonly errors: ModelErrors;
  /** Constants that were taken from chips, with each chip left out; only of the shipped chips. */
  readonly fits: readonly FitSpread[];
  /** What earlier versions predicted of the same figures; only of the shipped chips. */
  readonly changes: readonly Change[];
  /** What does not hold of the paragraphs in the plan. */
  readonly unexplained: readonly string[];
}

/** More than this off needs a reason. */
export const OFF = 2;
export const isOff = (ratio: number): boolean => !(ratio <= OFF && ratio >= 1 / OFF);

/** Joins the compared chips; `kind` was chosen before. */
export function evidenceOf(
  chips: readonly ComparedChip[],
  leftOut: EvidencePlan["leftOut"],
  more: Partial<Pick<Evidence, "fits" | "changes">> = {},
): Evidence {
  const rows = chips.flatMap(({ figures }) => figures);
  return {
    chips,
    leftOut,
    summaries: summaries(rows),
    verdicts: verdicts(rows),
    coverage: heldByOthers(rows),
    errors: modelErrors(rows),
    fits: more.fits ?? [],
    changes: more.changes ?? [],
    unexplained: rows.flatMap(unexplained),
  };
}

/** A figure that is far off needs a reason, and a reason stands where the figure is far off alone. */
function unexplained({ chip, quantity, ratio, why }: Compared): string[] {
  const what = `${chip}: its ${COMPARED_QUANTITIES[quantity].label}`;
  if (isOff(ratio) && why === undefined)
    return [`${what} is off by more than ${OFF} and nothing says why`];
  if (!isOff(ratio) && why !== undefined) {
    return [`${what} is within a factor of ${OFF}, yet the plan says why it is off`];
  }
  return [];
}

import type { ComparedChip } from "./compare.ts";
import type { EvidencePlan } from "./plan.ts";
import { type Summary, summaries, type Verdict, verdicts } from "./summary.ts";

/** All chips beside their studies, with what follows from them. */
export interface Evidence {
  readonly chips: readonly ComparedChip[];
  readonly leftOut: EvidencePlan["leftOut"];
  readonly summaries: readonly Summary[];
  readonly verdicts: readonly Verdict[];
}

/** Joins the compared chips; `kind` was chosen before. */
export function evidenceOf(chips: readonly ComparedChip[], plan: EvidencePlan): Evidence {
  const rows = chips.flatMap(({ figures }) => figures);
  return {
    chips,
    leftOut: plan.leftOut,
    summaries: summaries(rows),
    verdicts: verdicts(rows),
  };
}

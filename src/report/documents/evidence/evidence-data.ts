import type { Evidence } from "../../../studies/evidence/evidence.ts";

/** `tenfold.evidence-result/1`: ratios of every chip, summaries and verdicts, in SI. */
export function evidenceData(evidence: Evidence, version: string): unknown {
  return {
    format: "tenfold.evidence-result/1",
    version,
    chips: evidence.chips.map(({ plan, figures, unpredicted }) => ({
      name: plan.name,
      kind: plan.kind,
      defaulted: plan.defaulted,
      ...(unpredicted && { unpredicted: unpredicted.reason }),
      figures: figures.map(({ chip: _chip, kind: _kind, recalled, ...rest }) => ({
        ...rest,
        basis: recalled ? "memory" : "read",
      })),
    })),
    summaries: evidence.summaries,
    // Without `holds`: too few chips to test the bound.
    verdicts: evidence.verdicts.map(({ holds, ...rest }) => ({
      ...rest,
      ...(holds !== undefined && { holds }),
    })),
    held_by_others: evidence.coverage,
    model_error: evidence.errors,
    fits: evidence.fits,
    changes: evidence.changes,
    unexplained: evidence.unexplained,
    left_out: evidence.leftOut,
  };
}

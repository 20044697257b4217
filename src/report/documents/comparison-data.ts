import { compareDesigns } from "../../studies/compare.ts";
import type { StudyEstimate } from "../../studies/estimate.ts";
import type { Provenance } from "../../studies/estimate-data.ts";

/** `tenfold.comparison/1`: each quantity over the designs, with ratios to the baseline, in SI. */
export function comparisonData(estimate: StudyEstimate, provenance: Provenance): object {
  const { study, designs, baseline } = estimate;
  return {
    format: "tenfold.comparison/1",
    study: {
      title: study.title,
      ...provenance,
      seed: study.seed,
      samples: study.samples,
      coverage: study.coverage,
    },
    ...(baseline === undefined ? {} : { baseline: baseline.name }),
    quantities: compareDesigns(estimate).map(({ name, unit, figures }) => ({
      name,
      unit,
      designs: Object.fromEntries(
        figures.flatMap((figure, i) =>
          figure === undefined ? [] : [[designs[i]!.name, figure] as const],
        ),
      ),
    })),
    notes: designs.flatMap(({ name, remarks }) =>
      remarks.map((remark) => ({ design: name, ...remark })),
    ),
  };
}

import { type ComparedFigure, compareDesigns } from "../../studies/compare.ts";
import { errorSources } from "../../studies/error-sources.ts";
import type { StudyEstimate } from "../../studies/estimate.ts";
import type { Provenance } from "../../studies/estimate-data.ts";
import type { Interval } from "../../studies/model-error.ts";

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
          figure === undefined ? [] : [[designs[i]!.name, figureData(figure)] as const],
        ),
      ),
    })),
    model_error: errorSources(estimate),
    notes: designs.flatMap(({ name, remarks }) =>
      remarks.map((remark) => ({ design: name, ...remark })),
    ),
  };
}

function figureData({ model, ratio, ...figure }: ComparedFigure): object {
  return { ...figure, ...modelEnds(model), ...(ratio && { ratio: ratioData(ratio) }) };
}

function ratioData({ model, ...ratio }: NonNullable<ComparedFigure["ratio"]>): object {
  return { ...ratio, ...modelEnds(model) };
}

function modelEnds(model: Interval | undefined): object {
  return model === undefined ? {} : { model_low: model.low, model_high: model.high };
}

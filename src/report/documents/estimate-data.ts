import { COMPARED, REPORTED } from "../../estimate/quantities.ts";
import { compareDesigns, savedFigures } from "../../studies/compare.ts";
import type { EstimatedDesign, StudyEstimate } from "../../studies/estimate.ts";
import type { EstimatedFigure } from "../../studies/figures.ts";

/** What names the input and the program of a result. */
export interface Origin {
  readonly sha256: string;
  readonly version: string;
}

/** `tenfold.estimate/1`: all figures in SI. The names are stable; changing one is a breaking change. */
export function estimateData(estimate: StudyEstimate, origin: Origin): object {
  const { study, designs } = estimate;
  return {
    format: "tenfold.estimate/1",
    study: studyData(estimate, origin),
    designs: designs.map((design) => ({
      name: design.name,
      quantities: quantityData(estimate, design),
      breakdown: Object.fromEntries(design.broken.length > 0 ? [] : design.breakdown),
      notes: design.remarks,
    })),
    coverage: study.coverage,
  };
}

/** `tenfold.comparison/1`: the same with the ratios to the baseline, by quantity and design. */
export function comparisonData(estimate: StudyEstimate, origin: Origin): object {
  const { study, designs, baseline } = estimate;
  return {
    format: "tenfold.comparison/1",
    study: studyData(estimate, origin),
    coverage: study.coverage,
    ...(baseline === undefined ? {} : { baseline: baseline.name }),
    quantities: compareDesigns(estimate).map(({ name, unit, figures }) => ({
      name,
      unit,
      designs: Object.fromEntries(
        figures.flatMap((figure, i) =>
          figure === undefined ? [] : [[designs[i]!.name, { ...figure }]],
        ),
      ),
    })),
    notes: designs.flatMap(({ name, remarks }) =>
      remarks.map((remark) => ({ design: name, ...remark })),
    ),
  };
}

function studyData({ study }: StudyEstimate, { sha256, version }: Origin): object {
  return { title: study.title, sha256, version, seed: study.seed };
}

function quantityData(estimate: StudyEstimate, design: EstimatedDesign): object {
  const { coverage } = estimate.study;
  const saved = savedFigures(estimate, design);
  const entries = [...REPORTED, ...COMPARED].flatMap(({ name, unit }) => {
    const figure = design.figures.get(name) ?? saved.get(name);
    return figure === undefined ? [] : [[name, figureData(figure, unit, coverage)] as const];
  });
  return Object.fromEntries(entries);
}

function figureData({ value, low, median, high }: EstimatedFigure, unit: string, coverage: number) {
  return { value, unit, low, high, coverage, median };
}

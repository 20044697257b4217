import { COMPARED, RELIABILITY, REPORTED, REPORTED_WHERE } from "../estimate/quantities.ts";
import { figureWithModel, savedFigures } from "./compare.ts";
import { errorSources } from "./error-sources.ts";
import type { EstimatedDesign, StudyEstimate } from "./estimate.ts";
import { fixData } from "./fixes/data.ts";

const UNITS = new Map(
  [...REPORTED, ...REPORTED_WHERE, ...RELIABILITY, ...COMPARED].map(({ name, unit }) => [
    name,
    unit,
  ]),
);

/** Where a result comes from: enough to make it again. */
export interface Provenance {
  /** Of the study's text. */
  readonly sha256: string;
  /** Of tenfold. */
  readonly version: string;
}

/** `tenfold.estimate/1`: figures in SI, breakdowns, remarks. */
export function estimateData(estimate: StudyEstimate, provenance: Provenance): unknown {
  const { study } = estimate;
  return {
    format: "tenfold.estimate/1",
    study: {
      title: study.title,
      ...provenance,
      seed: study.seed,
      samples: study.samples,
      coverage: study.coverage,
    },
    ...(study.baseline !== undefined && { baseline: study.baseline }),
    designs: estimate.designs.map((design) => designData(estimate, design)),
    model_error: errorSources(estimate),
    ...(estimate.fixes && { fixes: estimate.fixes.map(fixData) }),
  };
}

function designData(estimate: StudyEstimate, design: EstimatedDesign): unknown {
  const { coverage } = estimate.study;
  const figures = new Map([...design.figures, ...savedFigures(estimate, design)]);
  const works = design.broken.length === 0;
  return {
    name: design.name,
    works,
    quantities: Object.fromEntries(
      [...figures].map(([name, { value, low, median, high }]) => {
        const model = figureWithModel(estimate, design, name)?.model;
        return [
          name,
          {
            value,
            unit: UNITS.get(name)!,
            low,
            high,
            coverage,
            median,
            ...(model && { model_low: model.low, model_high: model.high }),
          },
        ];
      }),
    ),
    ...(design.aging.length > 0 && {
      aging: design.aging.map(({ time, bits, words }) => ({
        time,
        bit_error_rate: bits,
        word_failure: words,
      })),
    }),
    breakdown: works ? Object.fromEntries(design.breakdown) : {},
    notes: [
      ...design.remarks,
      ...design.design.organised.chosen.map((text) => ({ level: "note", text })),
    ],
  };
}

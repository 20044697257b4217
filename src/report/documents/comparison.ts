import { type ComparedQuantity, compareDesigns } from "../../studies/compare.ts";
import type { StudyEstimate } from "../../studies/estimate.ts";
import type { Comparison, Document } from "../document/document.ts";
import { paragraph } from "../document/make.ts";
import { breakdown, remarkBlocks, studyLine } from "./study.ts";

/** Breakdowns that a comparison shows; `estimate` shows all. */
const SHOWN = ["macro_area", "read_energy", "transistors"];

/** The designs side by side, where their totals go, and what is to be said of them. */
export function comparisonDocument(estimate: StudyEstimate): Document {
  const { study, designs } = estimate;
  return {
    title: study.title,
    subtitle: studyLine(study),
    blocks: [
      ...(study.question === undefined ? [] : [paragraph(study.question)]),
      comparisonTable(estimate),
      ...SHOWN.flatMap((total) => breakdown(estimate, total)),
      ...remarkBlocks(designs),
    ],
  };
}

/** The table itself. Figures without spread show no interval. */
export function comparisonTable(estimate: StudyEstimate): Comparison {
  const { designs, baseline } = estimate;
  return {
    kind: "comparison",
    name: "comparison",
    designs: designs.map(({ title }) => title),
    ...(baseline === undefined ? {} : { baseline: baseline.title }),
    rows: compareDesigns(estimate).filter(saysSomething),
  };
}

/** A row of blanks or zeros, such as the switches of all-CMOS cells, is left out. */
function saysSomething({ figures }: ComparedQuantity): boolean {
  return figures.some((figure) => figure !== undefined && figure.value !== 0);
}

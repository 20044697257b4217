import { REPORTED } from "../../estimate/quantities.ts";
import { savedFigures } from "../../studies/compare.ts";
import type { EstimatedDesign, StudyEstimate } from "../../studies/estimate.ts";
import type { Block, Cell, Document } from "../document/document.ts";
import { heading, note, quantity, text } from "../document/make.ts";
import { CAUTION, hasParts, studyLine, TOTALS, unitOf } from "./study.ts";

/** Every figure of every design, one design after the other, each with what makes up its totals. */
export function estimateDocument(estimate: StudyEstimate): Document {
  const { study, designs } = estimate;
  return {
    title: study.title,
    subtitle: studyLine(study),
    blocks: [...designs.flatMap((design) => designBlocks(estimate, design)), note("note", CAUTION)],
  };
}

function designBlocks(estimate: StudyEstimate, design: EstimatedDesign): Block[] {
  const { title, remarks, figures } = design;
  const saved = savedFigures(estimate, design);
  const rows: Cell[][] = [];
  for (const { name, label, unit } of [...REPORTED, ...SAVED]) {
    const figure = figures.get(name) ?? saved.get(name);
    if (figure === undefined) continue;
    rows.push([text(label), quantity(unit, figure), quantity(unit, figure.median)]);
  }
  const blocks: Block[] = [heading(title)];
  if (rows.length > 0) blocks.push(figureTable(design.name, rows));
  blocks.push(...partBars(design));
  return [...blocks, ...remarks.map((remark) => note(remark.level, remark.text))];
}

const SAVED = [
  { name: "transistors_saved", label: "transistors saved", unit: "1" },
  { name: "transistors_saved_per_switch", label: "saved per switch", unit: "1" },
];

function figureTable(design: string, rows: Cell[][]): Block {
  return {
    kind: "table",
    name: `figures_${design.replace(/[^A-Za-z0-9]+/g, "_")}`,
    columns: [
      { name: "quantity", title: "quantity" },
      { name: "value", title: "value and interval", align: "left" },
      { name: "median", title: "median", align: "left" },
    ],
    rows,
  };
}

/** One bar for each total. */
function partBars(design: EstimatedDesign): Block[] {
  const totals = Object.keys(TOTALS).filter((total) => hasParts(design, total));
  if (totals.length === 0) return [];
  return [
    {
      kind: "bars",
      name: `parts_${design.name.replace(/[^A-Za-z0-9]+/g, "_")}`,
      unit: "1",
      bars: totals.map((total) => ({
        label: TOTALS[total]!.label,
        unit: unitOf(design, total),
        parts: design.breakdown.get(total)!,
      })),
    },
  ];
}

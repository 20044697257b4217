import type { Reference } from "../../../catalogue/index.ts";
import { derive } from "../../../formulas/derive.ts";
import type { EstimatedDesign, StudyEstimate } from "../../../studies/estimate.ts";
import type { Provenance } from "../../../studies/estimate-data.ts";
import type { Block, Document } from "../../document/document.ts";
import { heading, paragraph, text } from "../../document/make.ts";
import { CAUTIONS } from "../cautions.ts";
import { breakdownBars, comparisonTable, reliabilityBlocks, remarkNotes } from "../comparison.ts";
import { subtitleOf } from "../header.ts";
import { modelErrorBlocks } from "../model-error.ts";
import { sourcesDocument } from "../sources.ts";
import { answeringDesign, answerText } from "./answer.ts";
import { ratioPicture, stackPicture } from "./pictures.ts";
import { assumedTable, givenTable } from "./values.ts";

/** What a report is made from. */
export interface ReportMatter {
  readonly estimate: StudyEstimate;
  readonly provenance: Provenance;
  readonly references: readonly Reference[];
  /** The command line that makes the report again. */
  readonly command: string;
  /** What the study asks for beside its estimate; see `furtherBlocks`. */
  readonly further?: readonly Block[];
}

export const TOTALS: readonly (readonly [name: string, unit: string, caption: string])[] = [
  ["macro_area", "m^2", "Where the area goes"],
  ["read_energy", "J", "Where the energy of a read goes"],
  ["write_energy", "J", "Where the energy of a write goes"],
  ["standby_power", "W", "Where the standby power goes"],
  ["transistors", "1", "Where the transistors are"],
];

/** A whole study for a reviewer who has five minutes, and for one who has an hour. */
export function reportDocument(matter: ReportMatter): Document {
  const { estimate, references } = matter;
  const { study } = estimate;
  const bars = TOTALS.map(([name, unit, caption]) => breakdownBars(estimate, name, unit, caption));
  return {
    title: study.title,
    subtitle: subtitleOf(estimate),
    blocks: [
      ...(study.question === undefined
        ? []
        : [heading("The question"), paragraph(study.question.trim())]),
      heading("The answer"),
      paragraph(answerText(estimate)),
      ...remarkNotes(estimate.designs).filter(({ level }) => level === "warning"),
      heading("The designs side by side"),
      comparisonTable(estimate),
      ...modelErrorBlocks(estimate),
      ...ratioPicture(estimate),
      ...reliabilityBlocks(estimate),
      heading("Where it goes"),
      ...bars.flatMap(stackPicture),
      ...(matter.further ?? []),
      heading("Cautions"),
      ...remarkNotes(estimate.designs).filter(({ level }) => level !== "warning"),
      ...remarkNotes(estimate.designs.map(chosenFor)),
      ...CAUTIONS,
      ...tracedBlocks(estimate),
      heading("Assumptions that nobody gave"),
      paragraph("Defaults of the models and of the catalogue; a study replaces each by its name."),
      assumedTable(estimate),
      heading("All other values"),
      givenTable(estimate),
      heading("Sources"),
      ...sourcesDocument(study.title, references).blocks,
      heading("All parts"),
      ...bars,
      ...rerunBlocks(matter),
    ],
  };
}

/** What was chosen for a design that says nothing of it. */
function chosenFor({ title, design }: EstimatedDesign) {
  const remarks = design.organised.chosen.map((said) => ({ level: "note" as const, text: said }));
  return { title, remarks };
}

/** The formula of each figure of one design, as it was computed. */
function tracedBlocks(estimate: StudyEstimate): Block[] {
  const design = answeringDesign(estimate) ?? estimate.baseline;
  if (design === undefined || design.broken.length > 0) return [];
  const { title, name, model, nominal, figures } = design;
  return [
    heading(`How the figures of ${title} come about`),
    paragraph(
      `The last step of each; tenfold explain FILE QUANTITY --design ${name} --depth 9 goes ` +
        `down to every parameter and its source.`,
    ),
    ...[...figures.keys()].flatMap((quantity): Block[] => {
      const { formula, symbol, unit, value } = derive(model.program, nominal, quantity, 0);
      if (formula === undefined) return [];
      return [
        {
          kind: "formula",
          text: `${quantity} = ${formula.text}`,
          latex: `${symbol} = ${formula.latex}`,
          numbers: formula.numbers,
          result: { kind: "quantity", unit, value },
        },
      ];
    }),
  ];
}

function rerunBlocks({ estimate: { study }, provenance, command }: ReportMatter): Block[] {
  const pair = (key: string, value: string) => ({ key, value: text(value) });
  return [
    heading("How to run it again"),
    {
      kind: "pairs",
      pairs: [
        pair("command", command),
        pair("version of tenfold", provenance.version),
        pair("SHA-256 of the study", provenance.sha256),
        pair("seed", String(study.seed)),
        pair("draws", String(study.samples)),
        pair("coverage", `${Math.round(100 * study.coverage)} %`),
      ],
    },
    paragraph("The same study, version and seed give the same bytes on any machine."),
  ];
}

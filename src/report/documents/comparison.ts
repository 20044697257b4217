import { compareDesigns } from "../../studies/compare.ts";
import type { EstimatedDesign, StudyEstimate } from "../../studies/estimate.ts";
import type { Bars, Block, Comparison, Document, Note } from "../document/document.ts";
import { heading, note } from "../document/make.ts";
import { CAUTIONS } from "./cautions.ts";
import { subtitleOf } from "./header.ts";

/** Totals that a comparison breaks down, with the words above their bars. */
const BROKEN_DOWN: readonly (readonly [name: string, unit: string, caption: string])[] = [
  ["macro_area", "m^2", "Where the area goes"],
  ["read_energy", "J", "Where the read energy goes"],
  ["write_energy", "J", "Where the write energy goes"],
  ["transistors", "1", "Where the transistors are"],
];

/** Designs side by side: figures, intervals, ratios, where the totals go, cautions. */
export function comparisonDocument(estimate: StudyEstimate): Document {
  return {
    title: estimate.study.title,
    subtitle: subtitleOf(estimate),
    blocks: [
      comparisonTable(estimate),
      ...BROKEN_DOWN.map(([name, unit, caption]) => breakdownBars(estimate, name, unit, caption)),
      ...remarkNotes(estimate.designs),
      ...CAUTIONS,
    ],
  };
}

/** The table of a study: quantities are rows, designs are columns. */
export function comparisonTable(estimate: StudyEstimate): Comparison {
  const { designs, baseline } = estimate;
  return {
    kind: "comparison",
    name: "comparison",
    designs: designs.map(({ title }) => title),
    ...(baseline && { baseline: baseline.title }),
    rows: compareDesigns(estimate),
  };
}

/** The parts of one total, a bar for each design that works. */
export function breakdownBars(
  estimate: StudyEstimate,
  name: string,
  unit: string,
  caption: string,
): Bars {
  return {
    kind: "bars",
    name: `${name}_by_part`,
    caption,
    unit,
    bars: estimate.designs
      .filter(({ broken }) => broken.length === 0)
      .map(({ title, breakdown }) => ({ label: title, parts: breakdown.get(name)! })),
  };
}

/** What was found about each design, the worst first. */
export function remarkNotes(designs: readonly EstimatedDesign[]): Note[] {
  const order = { warning: 0, caution: 1, note: 2 };
  return designs
    .flatMap(({ title, remarks }) =>
      remarks.map(({ level, text }) => note(level, `${title} ${joined(text)}`)),
    )
    .sort((a, b) => order[a.level] - order[b.level]);
}

/** A remark either goes on after the design's name, or stands behind a colon. */
function joined(text: string): string {
  return text.startsWith("does not") ? text : `: ${text}`.replace(/^: /, "· ");
}

/** One design after the other: figures and breakdowns as tables. */
export function estimateDocument(estimate: StudyEstimate): Document {
  const blocks: Block[] = [comparisonTable(estimate)];
  for (const design of estimate.designs.filter(({ broken }) => broken.length === 0)) {
    blocks.push(heading(design.title));
    blocks.push(...partTables(design));
    blocks.push(...design.design.organised.chosen.map((text) => note("note", text)));
  }
  return {
    title: estimate.study.title,
    subtitle: subtitleOf(estimate),
    blocks: [...blocks, ...remarkNotes(estimate.designs), ...CAUTIONS],
  };
}

/** The parts of a design: one table, a column for each total. */
function partTables({ breakdown, name }: EstimatedDesign): Block[] {
  const totals: readonly (readonly [string, string, string])[] = [
    ["macro_area", "m^2", "area"],
    ["transistors", "1", "transistors"],
    ["read_energy", "J", "read energy"],
    ["write_energy", "J", "write energy"],
    ["standby_power", "W", "standby power"],
  ];
  const parts = [
    ...new Set(totals.flatMap(([total]) => breakdown.get(total)!.map(({ part }) => part))),
  ];
  return [
    {
      kind: "table",
      name: `${name}_parts`,
      columns: [
        { name: "part", title: "part" },
        ...totals.map(([total, , title]) => ({ name: total, title, align: "right" as const })),
      ],
      rows: parts.map((part) => [
        { kind: "text" as const, text: part },
        ...totals.map(([total, unit]) => {
          const found = breakdown.get(total)!.find((one) => one.part === part);
          return found === undefined
            ? ({ kind: "none" } as const)
            : ({ kind: "quantity", unit, value: found.value } as const);
        }),
      ]),
    },
  ];
}

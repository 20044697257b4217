import { RELIABILITY } from "../../estimate/quantities.ts";
import { engineeringPrefix } from "../../quantities/display.ts";
import { compareDesigns } from "../../studies/compare.ts";
import type { EstimatedDesign, StudyEstimate } from "../../studies/estimate.ts";
import type { Bars, Block, Cell, Comparison, Document, Note, Table } from "../document/document.ts";
import { heading, none, note, quantity, text } from "../document/make.ts";
import { agingTable } from "./aging.ts";
import { CAUTIONS } from "./cautions.ts";
import { fixBlocks } from "./fixes.ts";
import { subtitleOf } from "./header.ts";
import { modelErrorBlocks } from "./model-error.ts";

/** Totals that a comparison breaks down, with the words above their bars. */
const BROKEN_DOWN: readonly (readonly [name: string, unit: string, caption: string])[] = [
  ["macro_area", "m^2", "Where the area goes"],
  ["read_energy", "J", "Where the read energy goes"],
  ["write_energy", "J", "Where the write energy goes"],
  ["transistors", "1", "Where the transistors are"],
];

/** A part of the figures that is shown alone. */
export type Section = "reliability";

/** Figures of one section, with what was found about the designs. */
function sectionDocument(estimate: StudyEstimate, section: Section): Document {
  return {
    title: estimate.study.title,
    subtitle: subtitleOf(estimate),
    blocks: [
      comparisonTable(estimate, section),
      ...reliabilityBlocks(estimate),
      ...remarkNotes(estimate.designs),
      ...CAUTIONS,
    ],
  };
}

/** Errors by time, and what it takes to meet goals, where a study says enough. */
export function reliabilityBlocks(estimate: StudyEstimate): Block[] {
  return [...agingTable(estimate), ...fixBlocks(estimate)];
}

/** Designs side by side: figures, intervals, ratios, where the totals go, cautions. */
export function comparisonDocument(estimate: StudyEstimate, section?: Section): Document {
  if (section !== undefined) return sectionDocument(estimate, section);
  return {
    title: estimate.study.title,
    subtitle: subtitleOf(estimate),
    blocks: [
      comparisonTable(estimate),
      ...reliabilityBlocks(estimate),
      ...BROKEN_DOWN.map(([name, unit, caption]) => breakdownBars(estimate, name, unit, caption)),
      ...modelErrorBlocks(estimate),
      ...remarkNotes(estimate.designs),
      ...CAUTIONS,
    ],
  };
}

/** The table of a study: quantities are rows, designs are columns. */
export function comparisonTable(estimate: StudyEstimate, section?: Section): Comparison {
  const { designs, baseline } = estimate;
  const rows = compareDesigns(estimate);
  const named = new Set(RELIABILITY.map(({ name }) => name));
  return {
    kind: "comparison",
    name: "comparison",
    designs: designs.map(({ title }) => title),
    ...(baseline && { baseline: baseline.title }),
    rows: section === undefined ? rows : rows.filter(({ name }) => named.has(name)),
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

/** What was found about the designs, the worst first. What several have in common is said once. */
export function remarkNotes(
  designs: readonly Pick<EstimatedDesign, "title" | "remarks">[],
): Note[] {
  const order = { warning: 0, caution: 1, note: 2 };
  const found = designs.flatMap(({ title, remarks }) =>
    remarks.map((remark) => ({ title, ...remark })),
  );
  const groups = new Map<string, typeof found>();
  for (const one of found) {
    // These go on after the name of the one design that they are about.
    const key = one.text.startsWith("does not") ? `${one.title} ${one.text}` : one.text;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()]
    .map((group) => {
      const { level, text } = group[0]!;
      const names = group.map(({ title }) => title);
      const all = names.length === designs.length && names.length > 1;
      const who = all ? "all designs" : names.join(", ");
      return note(level, text.startsWith("does not") ? `${who} ${text}` : `${who} · ${text}`);
    })
    .sort((a, b) => order[a.level] - order[b.level]);
}

/** One design after the other: figures and breakdowns as tables. */
export function estimateDocument(estimate: StudyEstimate, section?: Section): Document {
  if (section !== undefined) return sectionDocument(estimate, section);
  const blocks: Block[] = [comparisonTable(estimate), ...reliabilityBlocks(estimate)];
  for (const design of estimate.designs.filter(({ broken }) => broken.length === 0)) {
    blocks.push(heading(design.title));
    blocks.push(partTable(design));
    blocks.push(...design.design.organised.chosen.map((text) => note("note", text)));
  }
  return {
    title: estimate.study.title,
    subtitle: subtitleOf(estimate),
    blocks: [
      ...blocks,
      ...modelErrorBlocks(estimate),
      ...remarkNotes(estimate.designs),
      ...CAUTIONS,
    ],
  };
}

const PART_TOTALS: readonly (readonly [name: string, unit: string, title: string])[] = [
  ["macro_area", "m^2", "area"],
  ["transistors", "1", "transistors"],
  ["read_energy", "J", "read energy"],
  ["write_energy", "J", "write energy"],
  ["standby_power", "W", "standby power"],
];

/** The parts of a design: one table, a column for each total, in one unit from top to bottom. */
function partTable({ breakdown, name }: EstimatedDesign): Table {
  const columns = PART_TOTALS.map(([total, unit, title]) => {
    const values = new Map(breakdown.get(total)!.map(({ part, value }) => [part, value]));
    const show = unit === "1" ? {} : { show: engineeringPrefix([...values.values()], unit).text };
    return { total, unit, title, values, show };
  });
  const parts = new Set(
    columns.flatMap(({ values }) => [...values].flatMap(([part, x]) => (x === 0 ? [] : part))),
  );
  return {
    kind: "table",
    name: `${name}_parts`,
    columns: [
      { name: "part", title: "part" },
      ...columns.map(({ total, title }) => ({ name: total, title, align: "right" as const })),
    ],
    rows: [...parts].map((part) => [
      text(part),
      ...columns.map(({ unit, values, show }): Cell => {
        const value = values.get(part);
        return value === undefined || value === 0 ? none : { ...quantity(unit, value), ...show };
      }),
    ]),
  };
}

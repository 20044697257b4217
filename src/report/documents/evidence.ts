import type { Compared } from "../../studies/evidence/compare.ts";
import type { Evidence } from "../../studies/evidence/evidence.ts";
import { COMPARED_QUANTITIES } from "../../studies/evidence/plan.ts";
import {
  MEDIAN_FROM,
  MEDIAN_TO,
  type Summary,
  type Verdict,
} from "../../studies/evidence/summary.ts";
import type { Block, Cell, Document, Table } from "../document/document.ts";
import { heading, none, note, paragraph, quantity, ratio, share, text } from "../document/make.ts";
import { CAUTIONS } from "./cautions.ts";

const UNITS: Readonly<Record<string, string>> = {
  cell_area: "m^2",
  macro_area: "m^2",
  array_efficiency: "1",
  read_latency: "s",
  write_latency: "s",
  read_energy_per_bit: "J",
  standby_power: "W",
};
const right = (name: string, title: string) => ({ name, title, align: "right" as const });
const left = (name: string, title: string) => ({ name, title });

/** Predictions beside published silicon: bounds, summaries, every ratio, why it is off, what was defaulted. */
export function evidenceDocument(evidence: Evidence): Document {
  const rows = evidence.chips.flatMap(({ figures }) => figures);
  const chips = evidence.chips.filter(({ figures }) => figures.length > 0).length;
  return {
    title: "Evidence: predictions against published silicon",
    subtitle: `${chips} chips · ${rows.length} figures · ratio = predicted / published`,
    blocks: [
      ratioTable(rows),
      heading("By quantity and kind"),
      summaryTable(evidence.summaries),
      paragraph(
        "Values recalled from memory weigh half. The factor is where a further chip's ratio " +
          "to the median stays in 95 % of cases, widened for small samples.",
      ),
      heading("Against the stated bounds"),
      ...evidence.verdicts.map(verdictNote),
      ...offBlocks(rows),
      ...unpredictedBlocks(evidence),
      heading("What the papers do not state"),
      { kind: "list", items: evidence.chips.map(({ plan }) => `${plan.name}: ${plan.defaulted}`) },
      ...leftOutBlocks(evidence.leftOut),
      ...CAUTIONS,
    ],
  };
}

function ratioTable(rows: readonly Compared[]): Table {
  return {
    kind: "table",
    name: "ratios",
    columns: [
      left("chip", "chip"),
      left("kind", "kind"),
      left("quantity", "quantity"),
      right("predicted", "predicted"),
      right("published", "published"),
      right("ratio", "ratio"),
      left("basis", "basis"),
    ],
    rows: rows.map((row): Cell[] => [
      text(row.chip),
      text(row.kind),
      text(COMPARED_QUANTITIES[row.quantity]),
      figure(row, row.predicted),
      figure(row, row.measured),
      ratio(row.ratio),
      text(row.recalled ? "memory" : "read"),
    ]),
  };
}

function figure(row: Compared, value: number): Cell {
  return row.quantity === "array_efficiency" ? share(value) : quantity(UNITS[row.quantity]!, value);
}

function summaryTable(summaries: readonly Summary[]): Table {
  return {
    kind: "table",
    name: "summaries",
    columns: [
      left("quantity", "quantity"),
      left("kind", "kind"),
      right("count", "chips"),
      right("recalled", "of them from memory"),
      right("median", "median ratio"),
      right("factor", "factor, 95 %"),
      right("worst", "worst ratio"),
    ],
    rows: summaries.map((one): Cell[] => [
      text(COMPARED_QUANTITIES[one.quantity]),
      text(one.kind),
      quantity("1", one.count),
      quantity("1", one.recalled),
      ratio(one.median),
      one.factor === undefined ? none : ratio(one.factor),
      ratio(one.worst),
    ]),
  };
}

function verdictNote({
  quantity: name,
  count,
  median,
  share: part,
  within,
  holds,
}: Verdict): Block {
  const said =
    `${COMPARED_QUANTITIES[name]}: median ${median.toFixed(2)} of ${count} chips (bound ${MEDIAN_FROM} to ` +
    `${MEDIAN_TO}), ${Math.round(100 * part)} % within a factor of ${within} (bound 80 %)`;
  if (holds === undefined) return note("note", `${said}: too few chips to test`);
  return holds ? note("note", `${said}: holds`) : note("warning", `${said}: does not hold`);
}

/** One paragraph for each figure that is off by more than two. */
function offBlocks(rows: readonly Compared[]): Block[] {
  const off = rows.filter(({ ratio: r }) => !(r <= 2 && r >= 0.5));
  if (off.length === 0) return [];
  return [
    heading("Off by more than two, and why"),
    paragraph(
      "Causes are read off the derivations and the papers; none was isolated by an experiment.",
    ),
    ...off.map((row) =>
      paragraph(
        `${row.chip}, ${COMPARED_QUANTITIES[row.quantity]}, × ${row.ratio.toPrecision(2)}` +
          `${row.remark === undefined ? "" : ` (published: ${row.remark})`}: ${row.why ?? "not explained yet."}`,
      ),
    ),
  ];
}

function unpredictedBlocks({ chips }: Evidence): Block[] {
  const none = chips.flatMap(({ unpredicted }) => (unpredicted === undefined ? [] : [unpredicted]));
  if (none.length === 0) return [];
  const items = none.map(({ chip, reason }) => `${chip}: ${reason}`);
  return [heading("Designs that do not work with the defaults"), { kind: "list", items }];
}

function leftOutBlocks(leftOut: Evidence["leftOut"]): Block[] {
  const items = Object.entries(leftOut).map(([chip, reason]) => `${chip}: ${reason}`);
  return items.length === 0 ? [] : [heading("Left out"), { kind: "list", items }];
}

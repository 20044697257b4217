import { formatRatio } from "../../../quantities/format.ts";
import type { Compared } from "../../../studies/evidence/compare.ts";
import { type Evidence, isOff, OFF } from "../../../studies/evidence/evidence.ts";
import { COMPARED_QUANTITIES } from "../../../studies/evidence/plan.ts";
import {
  MEDIAN_FROM,
  MEDIAN_TO,
  SHARE_WITHIN,
  type Summary,
  type Verdict,
} from "../../../studies/evidence/summary.ts";
import type { Block, Cell, Document, Table } from "../../document/document.ts";
import {
  heading,
  none,
  note,
  paragraph,
  quantity,
  ratio,
  share,
  text,
} from "../../document/make.ts";
import { CAUTIONS } from "../cautions.ts";
import { changeBlocks } from "./change.ts";
import { fitBlocks } from "./fit.ts";
import { figureLabel, left, right } from "./words.ts";

/**
 * Predictions beside published silicon: every ratio, summaries, bounds, why it is off, what was
 * defaulted.
 *
 * @param svg the chart, for formats that hold pictures
 */
export function evidenceDocument(evidence: Evidence, svg?: string): Document {
  const rows = evidence.chips.flatMap(({ figures }) => figures);
  const chips = evidence.chips.filter(({ figures }) => figures.length > 0).length;
  return {
    title: "Evidence: predictions against published silicon",
    subtitle: `${chips} chips · ${rows.length} figures · ratio = predicted / published`,
    blocks: [
      ...(svg === undefined ? [] : [chartOf(svg, rows)]),
      ratioTable(rows),
      paragraph(
        "An area is that of the region named: a die, a macro, or arrays with the circuits along " +
          "their edges. Cells in it are stored bits times cell area over that area; a share of " +
          "another meaning, such as that of the array region in a die, is not compared.",
      ),
      heading("Against the stated bounds"),
      ...evidence.verdicts.map(verdictNote),
      heading("By quantity and kind"),
      summaryTable(evidence.summaries),
      paragraph(
        "Ratios predicted / published; those of figures recalled from memory weigh half. The " +
          "factor is where a further chip's ratio to the median stays in 95 % of cases, by " +
          "Student's distribution; fewer than three chips, or ratios decades apart, give none. " +
          "Read latencies of parts above 64 Mibit hold controller and pump times and are left " +
          "out here.",
      ),
      ...coverageBlocks(evidence),
      ...evidence.changes.flatMap(changeBlocks),
      ...offBlocks(rows),
      ...evidence.unexplained.map((text) => note("warning", text)),
      ...unpredictedBlocks(evidence),
      ...fitBlocks(evidence.fits),
      heading("What the papers do not state"),
      { kind: "list", items: evidence.chips.map(({ plan }) => `${plan.name}: ${plan.defaulted}`) },
      ...leftOutBlocks(evidence.leftOut),
      ...CAUTIONS,
    ],
  };
}

function chartOf(svg: string, rows: readonly Compared[]): Block {
  const off = rows.filter(({ ratio: r }) => isOff(r));
  return {
    kind: "picture",
    name: "evidence",
    caption: `Predicted against published, with a band of a factor of ${OFF}.`,
    alternative: `${rows.length - off.length} of ${rows.length} figures are within a factor of ${OFF}.`,
    svg,
  };
}

function ratioTable(rows: readonly Compared[]): Table {
  return {
    kind: "table",
    name: "ratios",
    columns: [
      left("chip", "chip"),
      { ...left("kind", "kind"), roomy: true },
      left("quantity", "figure"),
      right("predicted", "predicted"),
      right("published", "published"),
      right("ratio", "ratio"),
      left("basis", "basis"),
    ],
    rows: rows.map((row): Cell[] => [
      text(row.chip),
      text(row.kind),
      text(figureLabel(row)),
      figure(row, row.predicted),
      figure(row, row.measured),
      ratio(row.ratio),
      text(row.recalled ? "memory" : "read"),
    ]),
  };
}

function figure({ quantity: name }: Compared, value: number): Cell {
  return name === "array_efficiency"
    ? share(value)
    : quantity(COMPARED_QUANTITIES[name].unit, value);
}

function summaryTable(summaries: readonly Summary[]): Table {
  return {
    kind: "table",
    name: "summaries",
    columns: [
      left("quantity", "quantity"),
      left("kind", "kind"),
      right("chips", "chips"),
      right("recalled", "memory"),
      right("median", "median"),
      right("factor", "factor"),
      right("worst", "worst"),
    ],
    rows: summaries.map((one): Cell[] => [
      text(COMPARED_QUANTITIES[one.quantity].label),
      text(one.kind),
      quantity("1", one.chips),
      quantity("1", one.recalled),
      ratio(one.median),
      one.factor === undefined ? none : ratio(one.factor),
      ratio(one.worst),
    ]),
  };
}

function verdictNote({
  quantity: name,
  chips,
  median,
  share: part,
  within,
  holds,
}: Verdict): Block {
  const said =
    `${COMPARED_QUANTITIES[name].label}: median ${median.toFixed(2)} of ${chips} chips (bound ` +
    `${MEDIAN_FROM} to ${MEDIAN_TO}), ${Math.round(100 * part)} % within a factor of ${within} ` +
    `(bound ${100 * SHARE_WITHIN} %)`;
  if (holds === undefined) return note("note", `${said}: too few chips to test`);
  return holds ? note("note", `${said}: holds`) : note("warning", `${said}: does not hold`);
}

/** Whether the model intervals hold what they say: each figure against those that the others give. */
function coverageBlocks({ coverage }: Evidence): Block[] {
  if (coverage.length === 0) return [];
  const parts = coverage.map(
    ({ quantity: name, figures, held }) =>
      `${COMPARED_QUANTITIES[name].label} ${held} of ${figures}`,
  );
  return [
    paragraph(
      `Each figure against the 95 % model interval that all other chips give, how many lie in it: ${parts.join(", ")}.`,
    ),
  ];
}

/** One paragraph for each figure that is far off. */
function offBlocks(rows: readonly Compared[]): Block[] {
  const off = rows.filter(({ ratio: r }) => isOff(r));
  if (off.length === 0) return [];
  return [
    heading(`Off by more than ${OFF === 2 ? "two" : OFF}, and why`),
    paragraph(
      "Causes are read off the derivations and the papers; none was isolated by an experiment.",
    ),
    ...off.map((row) =>
      paragraph(
        `${row.chip}, ${figureLabel(row)}, ${formatRatio(row.ratio)}` +
          `${row.remark === undefined ? "" : ` (published: ${row.remark})`}: ${row.why ?? "not explained yet"}.`,
      ),
    ),
  ];
}

function unpredictedBlocks({ chips }: Evidence): Block[] {
  const items = chips.flatMap(({ unpredicted }) =>
    unpredicted === undefined ? [] : [`${unpredicted.chip}: ${unpredicted.reason}`],
  );
  if (items.length === 0) return [];
  return [heading("Designs that do not work with the defaults"), { kind: "list", items }];
}

function leftOutBlocks(leftOut: Evidence["leftOut"]): Block[] {
  const items = Object.entries(leftOut).map(([chip, reason]) => `${chip}: ${reason}`);
  return items.length === 0 ? [] : [heading("Left out"), { kind: "list", items }];
}

import { formatQuantity } from "../../quantities/format.ts";
import type { StudyEstimate } from "../../studies/estimate.ts";
import { COSTS, ERROR_GROUPS } from "../../studies/fixes/figures.ts";
import type { DesignFixes, FixRow, StatedGoal } from "../../studies/fixes/fixes.ts";
import type { FixGroup } from "../../studies/fixes/options.ts";
import type { Block, Cell, Column, Table } from "../document/document.ts";
import { heading, none, note, paragraph, quantity, text } from "../document/make.ts";

/** Costs that a table has room for; all stand in JSON. */
const SHOWN = ["macro_area", "transistors", "read_latency", "write_energy"];
const costsShown = COSTS.flatMap((cost, k) => (SHOWN.includes(cost.name) ? [{ ...cost, k }] : []));

/** Tables of a design, each with the fixes that change the same goals. */
const TABLES: readonly (readonly [name: string, groups: readonly FixGroup[]])[] = [
  ["errors", ERROR_GROUPS],
  ["yield", ["spares"]],
  ["life", ["spreading"]],
];

/** What each fix costs and buys, design by design; nothing where no design states a goal. */
export function fixBlocks({ fixes = [] }: StudyEstimate): Block[] {
  if (fixes.length === 0) return [];
  return [
    heading("What it takes to meet the goals"),
    paragraph(
      "Each fix by itself: what it adds to the design as it stands (energy is that of a write), " +
        "what it buys, and in which share of the draws the goal is met. A design with a fix is " +
        "computed as every design, by the same sums and draws. `code, 1 (2)` corrects one error " +
        "and sees two; `spares, 2+1` are rows and columns of a tile; `verify, 2 σ` repeats pulses " +
        "that land further off than so many deviations from cycle to cycle.",
    ),
    ...fixes.flatMap((one) => [
      ...TABLES.flatMap(([name, groups]) => fixTable(one, name, groups)),
      verdict(one),
    ]),
  ];
}

function fixTable(one: DesignFixes, name: string, groups: readonly FixGroup[]): Table[] {
  const { title, base, rows } = one;
  const of = ({ changedBy }: StatedGoal): boolean => changedBy.some((g) => groups.includes(g));
  const goals = one.goals.flatMap((goal, g) => (of(goal) ? [{ ...goal, g }] : []));
  if (goals.length === 0) return [];
  const right = { align: "right" as const };
  const columns: Column[] = [
    { name: "fix", title: "fix" },
    ...costsShown.map((cost) => ({ name: cost.name, title: cost.label, ...right })),
    ...goals.map(({ key, label }) => ({ name: key, title: label, ...right })),
    { name: "met", title: "met", ...right },
  ];
  const own = rows.filter((row) => row.groups.some((group) => groups.includes(group)));
  const cells = (row: FixRow): Cell[] => [
    text(row.label),
    ...costsShown.map(({ k }) => costCell(one, row, k)),
    ...goals.map(({ unit, g }) => {
      const gain = row.gains[g];
      return gain === undefined ? none : quantity(unit, gain.figure.value);
    }),
    text(metText(goals.map(({ g }) => row.gains[g]))),
  ];
  return [
    {
      kind: "table",
      name: `${one.name}_${name}_fixes`,
      caption: `${title}: ${goals.map(goalText).join(", ")}`,
      columns,
      rows: [base, ...own].map(cells),
    },
  ];
}

function goalText({ label, sense, wanted, unit }: StatedGoal): string {
  // What is asked for is exact: no digits that nobody wrote.
  const value = formatQuantity({ value: wanted }, unit)
    .replace(/(\.\d*?)0+(?= |$)/, "$1")
    .replace(/\.(?= |$)/, "");
  return `${label} ${sense} ${value}`;
}

/** The cost itself as it stands, else what is added to it. */
function costCell({ base }: DesignFixes, row: FixRow, k: number): Cell {
  if (row === base) return quantity(COSTS[k]!.unit, base.costs[k]!.value);
  return text(changeText(row.ratios[k]!.value));
}

/** `+1.3 %`; nothing where the change is below what anybody would pay for. */
export function changeText(ratio: number): string {
  const percent = 100 * (ratio - 1);
  const size = Math.abs(percent);
  if (size < 5e-4) return "0 %";
  const digits = size >= 10 ? size.toFixed(0) : Number(size.toPrecision(2)).toString();
  return `${percent < 0 ? "−" : "+"}${digits} %`;
}

/** `+18 % (+14 % to +25 %)`: with the interval of the paired ratio. */
function rangeText({ value, low, high }: FixRow["ratios"][number]): string {
  const plain = changeText(value);
  const [from, to] = [changeText(low), changeText(high)];
  return from === to ? plain : `${plain} (${from} to ${to})`;
}

/** In which share of the draws all of these goals are met, where that is known. */
function metText(gains: FixRow["gains"]): string {
  const known = gains.filter((gain) => gain !== undefined);
  if (known.length === 0) return "–";
  const percent = Math.round(100 * Math.min(...known.map(({ share }) => share)));
  return `${percent} %`;
}

function verdict({ title, goals, base, least, unmet }: DesignFixes): Block {
  if (least === undefined) {
    return note(
      "warning",
      `${title} · none of these fixes, nor several together, meet the goal of ` +
        `${unmet.join(" and ")}. What may help: a wider window, fewer bits for each cell, ` +
        "or less to ask for.",
    );
  }
  const figures = goals.map(({ label, unit }, g) => {
    return `${label} ${formatQuantity({ value: least.gains[g]!.figure.value }, unit)}`;
  });
  const met = Math.min(...least.gains.map((gain) => gain!.share));
  const said = `${figures.join(", ")}; met in ${Math.round(100 * met)} % of the draws`;
  if (least.label === base.label) {
    return note("note", `${title} · meets its goals as it stands: ${said}`);
  }
  const changes = costsShown.map(({ k, label }) => `${label} ${rangeText(least.ratios[k]!)}`);
  return note(
    "note",
    `${title} · the least that meets its goals: ${least.label}, for ${changes.join(", ")}. ` +
      `Then ${said}`,
  );
}

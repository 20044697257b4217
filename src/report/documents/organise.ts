import { formatQuantity } from "../../quantities/format.ts";
import type { Organisation, Organised, TotalDifference } from "../../studies/organise/study.ts";
import type { Block, Cell, Column, Document } from "../document/document.ts";
import { heading, note, quantity, text } from "../document/make.ts";
import { CAUTIONS } from "./cautions.ts";

/** Reported quantities that stand beside the aims, where they are no aims themselves. */
const BESIDE = ["macro_area", "read_latency", "read_energy_per_bit", "array_efficiency"];
const MOST_PARTS = 8;
/** Share of a difference from which what is left of it is told. */
const TOLD = 0.005;

/** The best organisations, or the trade-off front, and why the winner wins. */
export function organiseDocument(result: Organised): Document {
  const { plan, found, evaluations, bounds, differences, winner, runnerUp } = result;
  const aims = plan.aims.map(({ sense, text: of }) => `${sense} ${of}`).join(", ");
  const conditions = plan.conditions.map(({ text: of }) => of).join(", ");
  const blocks: Block[] = [
    heading(plan.aims.length > 1 ? "Trade-off front" : "Best organisations"),
  ];
  if (found.length === 0) blocks.push(...nothingFound(result));
  else blocks.push(foundTable(result), ...intervalNote(result));
  blocks.push(
    note(
      "note",
      `${plan.total} organisations: ${evaluations} computed, ` +
        (bounds === 0
          ? "none left out."
          : `${bounds} bounds rule out the others. The result is exact.`),
    ),
  );
  if (runnerUp !== undefined) {
    blocks.push(heading("Why the winner wins"));
    blocks.push(note("note", `${label(result, winner)} against ${label(result, runnerUp)}`));
    blocks.push(...differences.map(differenceTable));
  }
  return {
    title: plan.study.title,
    subtitle: [plan.design, aims, ...(conditions === "" ? [] : [`with ${conditions}`])].join(" · "),
    blocks: [...blocks, ...CAUTIONS],
  };
}

const MOST_REASONS = 5;

/** What kept the computed points from being organisations. */
function nothingFound({ obstacles }: Organised): Block[] {
  const reasons = obstacles.slice(0, MOST_REASONS);
  const table: Block = {
    kind: "table",
    name: "obstacles",
    caption: "What stands in the way of those that were computed",
    columns: [{ name: "reason", title: "reason or unmet condition" }, right("points", "points")],
    rows: reasons.map(({ text: of, points }) => [text(of), quantity("1", points)]),
  };
  return [
    note("warning", "No organisation meets the conditions."),
    ...(reasons.length === 0 ? [] : [table]),
  ];
}

function intervalNote({ plan, intervals }: Organised): Block[] {
  const ends = plan.aims.flatMap(({ text: of, unit }, k) => {
    const one = intervals[k];
    if (one === undefined) return [];
    const [low, high] = [one.low, one.high].map((value) => formatQuantity({ value }, unit));
    return [`${of.replaceAll("_", " ")} ${low} to ${high}`];
  });
  if (ends.length === 0) return [];
  const share = `${Math.round(100 * plan.study.coverage)} %`;
  return [note("note", `${share} interval of the winner from its parameters: ${ends.join(", ")}.`)];
}

const right = (name: string, title: string): Column => ({ name, title, align: "right" });

function shortName(name: string): string {
  return name.split(".").at(-1)!.replaceAll("_", " ");
}

function foundTable({ plan, found, reported, winner }: Organised): Block {
  const { variables, aims } = plan;
  const aimed = new Set(aims.map(({ text: of }) => of));
  const beside = reported.filter(({ name }) => BESIDE.includes(name) && !aimed.has(name));
  const cells = (one: Organisation, i: number): Cell[] => [
    text(i === winner ? "winner" : ""),
    ...one.values.map((value, k) =>
      typeof value === "string" ? text(value) : quantity(variables[k]!.unit, value),
    ),
    ...one.aims.map((value, k) => quantity(aims[k]!.unit, value)),
    ...beside.map(({ name, unit }) => quantity(unit, one.figures.get(name)!)),
  ];
  return {
    kind: "table",
    name: aims.length > 1 ? "front" : "best",
    columns: [
      { name: "winner", title: "" },
      ...variables.map(({ name }) => right(name, shortName(name))),
      ...aims.map(({ text: of }) => right(of, of.replaceAll("_", " "))),
      ...beside.map(({ name, label: of }) => right(name, of)),
    ],
    rows: found.map(cells),
  };
}

function label({ plan, found }: Organised, index: number): string {
  return plan.variables
    .map(({ name }, k) => `${shortName(name)} ${found[index]!.values[k]}`)
    .join(", ");
}

function differenceTable({ quantity: name, unit, winner, other, parts }: TotalDifference): Block {
  const row = (part: string, a: number, b: number): Cell[] => [
    text(part),
    quantity(unit, a),
    quantity(unit, b),
    quantity(unit, a - b),
  ];
  const shown = parts.slice(0, MOST_PARTS);
  const left = (of: "winner" | "other", whole: number): number =>
    shown.reduce((rest, one) => rest - one[of], whole);
  const [ours, theirs] = [left("winner", winner), left("other", other)];
  // Parts in which the two are the same are not listed; what differs beyond those that are is told.
  const rest = Math.abs(ours - theirs) > TOLD * Math.abs(winner - other);
  return {
    kind: "table",
    name: `why_${name}`,
    caption: name.replaceAll("_", " "),
    columns: [
      { name: "part", title: "part" },
      right("winner", "winner"),
      right("other", "runner-up"),
      right("difference", "difference"),
    ],
    rows: [
      row("in all", winner, other),
      ...shown.map((one) => row(one.part, one.winner, one.other)),
      ...(rest ? [row("all else", ours, theirs)] : []),
    ],
  };
}

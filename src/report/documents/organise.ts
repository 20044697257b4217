import type { Organisation, Organised, TotalDifference } from "../../studies/organise/study.ts";
import type { Block, Cell, Column, Document } from "../document/document.ts";
import { heading, note, quantity, text } from "../document/make.ts";
import { CAUTIONS } from "./cautions.ts";

/** Reported quantities that stand beside the aims, where they are no aims themselves. */
const BESIDE = ["macro_area", "read_latency", "read_energy_per_bit", "array_efficiency"];
const MOST_PARTS = 8;

/** The best organisations, or the trade-off front, and why the winner wins. */
export function organiseDocument(result: Organised): Document {
  const { plan, found, evaluations, bounds, differences, winner, runnerUp } = result;
  const aims = plan.aims.map(({ sense, text: of }) => `${sense} ${of}`).join(", ");
  const conditions = plan.conditions.map(({ text: of }) => of).join(", ");
  const blocks: Block[] = [
    heading(plan.aims.length > 1 ? "Trade-off front" : "Best organisations"),
  ];
  if (found.length === 0) blocks.push(note("warning", "No organisation meets the conditions."));
  else blocks.push(foundTable(result));
  blocks.push(
    note(
      "note",
      `${plan.total} organisations: ${evaluations} computed, ` +
        `${bounds} bounds rule out the others. The result is exact.`,
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

const right = (name: string, title: string): Column => ({ name, title, align: "right" });

function shortName(name: string): string {
  return name.split(".").at(-1)!.replaceAll("_", " ");
}

function foundTable({ plan, found, reported, winner }: Organised): Block {
  const { variables, aims } = plan;
  const aimed = new Set(aims.map(({ text: of }) => of));
  const beside = reported.filter(({ name }) => BESIDE.includes(name) && !aimed.has(name));
  const cells = (one: Organisation, i: number): Cell[] => [
    text(i === winner ? "→" : ""),
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
      ...parts.slice(0, MOST_PARTS).map((one) => row(one.part, one.winner, one.other)),
    ],
  };
}

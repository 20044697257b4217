import { isAsClaimed } from "../../studies/claim/holding.ts";
import type { Survey } from "../../studies/claim/survey.ts";
import type { Block } from "../document/document.ts";
import { heading, paragraph, quantity, text } from "../document/make.ts";
import { binary, drawsText } from "./claim-words.ts";

const MOST_COLUMNS = 6;

/** The sentence over all functions: one table for a slide, one with every interval. */
export function surveyBlocks(survey: Survey): Block[] {
  const { claim, question, boundary, capacities, rows } = survey;
  const { number, comparison = "at least" } = claim;
  const shown = everyNth(capacities, MOST_COLUMNS);
  const true_ = rows.filter(({ points }) =>
    isAsClaimed(points.at(-1)!.saved.value, question.wanted),
  );
  const last = binary(capacities.at(-1)!);
  return [
    heading(claim.sentence ?? `One switch replaces ${comparison} ${number.value} transistors`),
    {
      kind: "table",
      name: survey.name.replaceAll("-", "_"),
      caption: `Transistors saved per switch against capacity, counted at the boundary ${boundary}`,
      columns: [
        { name: "function", title: "function" },
        ...shown.map((capacity) => ({
          name: `at_${capacity}`,
          title: binary(capacity),
          align: "right" as const,
        })),
        { name: "true_in", title: "true in", align: "right" },
      ],
      rows: rows.map(({ definition, points }) => [
        text(definition.name),
        ...shown.map((capacity) => {
          const { saved } = points[capacities.indexOf(capacity)]!;
          return text(oneDecimal(saved.value));
        }),
        text(drawsText(points.at(-1)!.share)),
      ]),
    },
    paragraph(
      `At ${last} the nominal number is ${comparison} ${number.value} in ${true_.length} of ` +
        `${rows.length} functions${true_.length === 0 ? "" : `: ${names(true_)}`}. The last column is ` +
        `the share of draws in which the claim is true at ${last}.`,
    ),
    intervals(survey),
  ];
}

/** A number with one decimal; nothing is less than nothing. */
function oneDecimal(value: number): string {
  const digits = Math.abs(value).toFixed(1);
  return value < 0 && digits !== "0.0" ? `−${digits}` : digits;
}

const names = (rows: Survey["rows"]) => rows.map(({ definition }) => definition.name).join(", ");

/** All points with their intervals. */
function intervals({ name, capacities, rows }: Survey): Block {
  const ends = [capacities[0]!, capacities.at(-1)!];
  return {
    kind: "table",
    name: `${name.replaceAll("-", "_")}_intervals`,
    caption: "The same with intervals, at the least and the greatest capacity",
    columns: [
      { name: "function", title: "function" },
      ...ends.map((capacity) => ({
        name: `at_${capacity}`,
        title: binary(capacity),
        align: "left" as const,
      })),
    ],
    rows: rows.map(({ definition, points }) => [
      text(definition.title),
      quantity("1", points[0]!.saved),
      quantity("1", points.at(-1)!.saved),
    ]),
  };
}

function everyNth(all: readonly number[], most: number): number[] {
  const step = Math.max(1, Math.ceil((all.length - 1) / (most - 1)));
  return all.filter((_, i) => i % step === 0);
}

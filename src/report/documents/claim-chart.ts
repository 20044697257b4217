import type { Survey } from "../../studies/claim/survey.ts";
import type { LineChart } from "../charts/chart.ts";
import { binary } from "./claim-words.ts";

/** Lines end at this number of saved transistors below zero: what falls lower lies on the edge. */
const LOWEST = -5;

/**
 * Transistors saved per switch against capacity, one line per function, the claimed number
 * marked.
 */
export function surveyChart({ claim, question, boundary, capacities, rows }: Survey): LineChart {
  const { number, comparison } = question.wanted;
  const values = rows.flatMap(({ points }) => points.map(({ saved }) => saved.value));
  const highest = Math.max(number, ...values);
  return {
    title: claim.sentence ?? `One switch replaces ${comparison} ${number} transistors`,
    description:
      `Transistors saved per switch at the boundary ${boundary} against capacity, one line for each ` +
      `of ${rows.length} functions. Numbers below ${LOWEST} lie on the lower edge.`,
    x: {
      label: "capacity in elements of the function",
      ticks: capacities,
      tickText: binary,
    },
    y: {
      label: `transistors saved per switch, boundary ${boundary}`,
      from: LOWEST,
      to: Math.ceil(highest / 5) * 5,
    },
    series: rows.map(({ definition, points }) => ({
      name: definition.name,
      points: points.map(({ saved }, i) => ({
        x: capacities[i]!,
        y: saved.value,
        low: saved.low,
        high: saved.high,
      })),
    })),
    marks: [{ y: number, text: `${comparison} ${number}` }],
  };
}

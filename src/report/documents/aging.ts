import type { StudyEstimate } from "../../studies/estimate.ts";
import type { Comparison, ComparisonRow } from "../document/document.ts";

const UNITS: readonly (readonly [text: string, seconds: number])[] = [
  ["year", 31_557_600],
  ["day", 86_400],
  ["h", 3600],
  ["min", 60],
];

/** `30 day`, `5 year`: a time in the largest unit that leaves it above one. */
export function timeText(seconds: number): string {
  const [unit, size] = UNITS.find(([, one]) => seconds >= one * (1 - 1e-9)) ?? ["s", 1];
  return `${Number((seconds / size).toPrecision(3))} ${unit}`;
}

/** Errors as time goes by: times are rows, designs are columns. None where no design ages. */
export function agingTable({ designs }: StudyEstimate): Comparison[] {
  const times = [...new Set(designs.flatMap(({ aging }) => aging.map(({ time }) => time)))];
  if (times.length === 0) return [];
  const row = (time: number, what: "bits" | "words", label: string): ComparisonRow => ({
    name: `${what}_after_${timeText(time).replace(" ", "_").replace(".", "_")}`,
    label: `${label}, ${timeText(time)}`,
    unit: "1",
    figures: designs.map(({ aging }) => aging.find((one) => one.time === time)?.[what]),
  });
  const rising = times.sort((a, b) => a - b);
  return [
    {
      kind: "comparison",
      name: "aging",
      caption: "Errors by the time since the write",
      designs: designs.map(({ title }) => title),
      rows: [
        ...rising.map((time) => row(time, "bits", "bit errors")),
        ...rising.map((time) => row(time, "words", "word failure")),
      ],
    },
  ];
}

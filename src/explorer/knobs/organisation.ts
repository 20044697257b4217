import type { StudyEstimate } from "../../studies/estimate.ts";
import { figureText } from "../text/edit.ts";
import { displayOf } from "./display.ts";
import type { Knob } from "./knob.ts";

/** Ends of the temperature where the study gives no range: those of parts for industry (common practice). */
const COLDEST = 233.15;
const HOTTEST = 398.15;

/** What all designs share. */
export function studyKnobs(text: string, { study, designs }: StudyEstimate): readonly Knob[] {
  const first = designs[0];
  if (first === undefined) return [];
  const stated = (key: string): boolean => figureText(text, ["defaults", key]) !== undefined;
  const shared = (
    parameter: "capacity" | "word",
    form: "capacity" | "bits",
    from: number,
    to: number,
  ): Knob => ({
    id: `defaults/${parameter}`,
    label: parameter,
    detail: "all designs",
    group: "study",
    scale: { kind: "powers", from, to, form },
    paths: [["defaults", parameter]],
    read: { design: first.name, parameter },
  });
  const temperature = study.temperature;
  const [from, to] =
    temperature !== undefined && temperature.high > temperature.low
      ? [temperature.low, temperature.high]
      : [COLDEST, HOTTEST];
  const own = designs.some(({ name }) => ownTemperature(text, name));
  return [
    ...(stated("capacity") ? [shared("capacity", "capacity", 10, 30)] : []),
    ...(stated("word") ? [shared("word", "bits", 3, 8)] : []),
    ...(own || stated("temperature")
      ? []
      : [
          {
            id: "temperature",
            label: "temperature",
            detail: "all designs",
            group: "study" as const,
            scale: {
              kind: "linear" as const,
              from,
              to,
              ...displayOf("K", undefined, from),
            },
            paths: [["temperature"]],
            read: { design: first.name, parameter: "temperature" },
          },
        ]),
  ];
}

function ownTemperature(text: string, design: string): boolean {
  return figureText(text, ["designs", design, "temperature"]) !== undefined;
}

const LINES = { from: 4, to: 12 };
const SHARE = { from: 0, to: 6 };

/** How each design is organised. */
export function organisationKnobs({ designs }: StudyEstimate): readonly Knob[] {
  return designs.flatMap(({ name, title }) =>
    (
      [
        ["rows", "rows of a tile", LINES],
        ["columns", "columns of a tile", LINES],
        ["column_share", "columns per sense amplifier", SHARE],
      ] as const
    ).map(([key, label, ends]) => ({
      id: `designs/${name}/tile/${key}`,
      label,
      detail: title,
      group: "organisation" as const,
      design: name,
      scale: { kind: "powers" as const, form: "count" as const, ...ends },
      paths: [["designs", name, "tile", key]],
      read: { design: name, parameter: key },
    })),
  );
}

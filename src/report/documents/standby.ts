import type { Provenance } from "../../studies/estimate-data.ts";
import type { StudyStandby } from "../../studies/standby/study.ts";
import type { Document } from "../document/document.ts";
import { note } from "../document/make.ts";
import { CAUTIONS } from "./cautions.ts";

/** Power at rest, break-even and days of battery, a column for each design. */
export function standbyDocument({ study, quantities, designs }: StudyStandby): Document {
  return {
    title: study.title,
    subtitle: `at rest · ${Math.round(100 * study.coverage)} % intervals from parameters`,
    blocks: [
      {
        kind: "comparison",
        name: "standby",
        designs: designs.map(({ title }) => title),
        rows: quantities.map((quantity) => ({
          ...quantity,
          figures: designs.map(({ figures }) => figures.get(quantity.name)),
        })),
      },
      ...designs.map(({ title, rest, broken }) =>
        broken === undefined
          ? note("note", `${title}: ${rest}`)
          : note("warning", `${title} does not work: ${broken}.`),
      ),
      ...CAUTIONS,
    ],
  };
}

/** `tenfold.standby/1`, in SI. */
export function standbyData(result: StudyStandby, provenance: Provenance): object {
  const { study, quantities, designs } = result;
  const units = new Map(quantities.map(({ name, unit }) => [name, unit]));
  return {
    format: "tenfold.standby/1",
    study: { title: study.title, ...provenance, seed: study.seed, coverage: study.coverage },
    designs: designs.map(({ name, rest, broken, figures }) => ({
      name,
      works: broken === undefined,
      rest,
      quantities: Object.fromEntries(
        [...figures].map(([quantity, figure]) => [
          quantity,
          { ...figure, unit: units.get(quantity) },
        ]),
      ),
    })),
  };
}

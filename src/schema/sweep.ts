/** The section `sweep:` of a study. */

import { group, list, name, named, text, whole } from "./define.ts";
import type { Field } from "./field.ts";
import { type ValuesStatement, variedField } from "./varied.ts";

export interface SweepSection {
  readonly designs?: readonly string[];
  readonly vary?: Readonly<Record<string, ValuesStatement>>;
  readonly points?: readonly Readonly<Record<string, string>>[];
  readonly where?: readonly string[];
  readonly quantities?: readonly string[];
  readonly samples?: number;
}

export const sweepField: Field<SweepSection> = group<SweepSection>("parameters that are varied", {
  designs: list("the designs; all unless said", name("a design"), { example: "[static]" }),
  vary: variedField,
  points: list(
    "points one by one, each with the same names; combined with what `vary` says",
    named("a point", "a name", text("a value", { example: "64" })),
  ),
  where: list(
    "conditions that a row must meet to be written",
    text("a comparison of varied names and quantities", { example: "rows >= columns" }),
  ),
  quantities: list("the quantities; those of a comparison unless said", name("a quantity"), {
    example: "[macro_area, read_latency]",
  }),
  samples: whole(
    "draws of the parameters at each point, which give the ends of a coverage interval; none unless said",
    { minimum: 16, maximum: 65536, example: "256" },
  ),
});

/** The section `organise:` of a study. */

import { group, list, name, text, whole } from "./define.ts";
import type { Field } from "./field.ts";
import { type ValuesStatement, variedField } from "./varied.ts";

export interface OrganiseSection {
  readonly design?: string;
  readonly vary: Readonly<Record<string, ValuesStatement>>;
  readonly where?: readonly string[];
  readonly minimise?: readonly string[];
  readonly maximise?: readonly string[];
  readonly best?: number;
}

const aims = (meaning: string, example: string) =>
  list(meaning, text("an expression of quantities"), { example });

export const organiseField: Field<OrganiseSection> = group<OrganiseSection>(
  "what is sought among organisations",
  {
    design: name("the design; the first that is not the baseline unless said", {
      example: "one-transistor",
    }),
    vary: { ...variedField, required: true },
    where: list(
      "conditions that an organisation must meet",
      text("a comparison of varied names and quantities", { example: "read_latency <= 10 ns" }),
    ),
    minimise: aims("what shall be small; two or more give a trade-off front", "[macro_area]"),
    maximise: aims("what shall be large", "[array_efficiency]"),
    best: whole("how many of the best are told, where there is one aim", {
      maximum: 1000,
      example: "5",
      default: { value: "5", source: "this project" },
    }),
  },
);

import { refuse } from "../errors/problem.ts";
import { parseFormula } from "../formulas/parse.ts";
import { explanationDocument } from "../report/documents/explanation.ts";
import { explainQuantity } from "../studies/explain.ts";
import type { CommonArguments, OutputArguments } from "./options.ts";
import { emit } from "./output.ts";
import { openNamed } from "./study.ts";

/** Derives one quantity and prints how. */
export async function explain(
  options: CommonArguments &
    OutputArguments & {
      readonly file: string;
      readonly set: readonly string[];
      readonly quantity: string;
      readonly design?: string | undefined;
      readonly depth: number;
    },
): Promise<void> {
  const { quantity, design, depth } = options;
  if (!(Number.isInteger(depth) && depth >= 0)) {
    refuse({
      code: "out-of-range",
      what: `--depth can't be ${depth}`,
      expected: "a whole number, 0 for the formula alone",
    });
  }
  const { study, catalogue } = await openNamed(options);
  const found = explainQuantity(study, catalogue, parseFormula, quantity, design, depth);
  await emit(
    {
      document: () => explanationDocument(found),
      data: () => ({
        format: "tenfold.explanation/1",
        design: found.design,
        derivation: found.derivation,
      }),
    },
    options,
  );
}

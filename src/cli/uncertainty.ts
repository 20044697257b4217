import { parseFormula } from "../formulas/parse.ts";
import { uncertaintyDocument } from "../report/documents/uncertainty.ts";
import { uncertaintyData } from "../report/documents/uncertainty-data.ts";
import { uncertaintyOfStudy } from "../studies/uncertainty/study.ts";
import type { CommonArguments, OutputArguments, StudyArguments } from "./options.ts";
import { emit } from "./output.ts";
import { openNamed } from "./study.ts";
import { version } from "./version.ts";

/** Propagates the distributions of a study's parameters and prints what came of it. */
export async function uncertainty(
  options: CommonArguments &
    OutputArguments &
    StudyArguments & {
      readonly quantity?: string | undefined;
      readonly design?: string | undefined;
    },
): Promise<void> {
  const { study, catalogue, sha256 } = await openNamed(options);
  const { quantity, design } = options;
  const result = uncertaintyOfStudy(study, catalogue, parseFormula, { quantity, design });
  await emit(
    {
      document: () => uncertaintyDocument(result),
      data: () => uncertaintyData(result, { sha256, version }),
    },
    options,
  );
}

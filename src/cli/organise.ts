import { parseFormula } from "../formulas/parse.ts";
import { readText } from "../io/read.ts";
import { hashOf, reopener, sweepSource } from "../io/sweep/open.ts";
import { organiseDocument } from "../report/documents/organise.ts";
import { organiseData } from "../report/documents/organise-data.ts";
import { organiseStudy } from "../studies/organise/study.ts";
import type { CommonArguments, OutputArguments, StudyArguments } from "./options.ts";
import { emit } from "./output.ts";
import { settings } from "./settings.ts";
import { fileName } from "./stdin.ts";
import { checkSeed } from "./study.ts";
import { version } from "./version.ts";

/** Searches the organisations of a design and prints what it found. */
export async function organise(
  options: CommonArguments &
    OutputArguments &
    StudyArguments & { readonly design?: string | undefined; readonly everything: boolean },
): Promise<void> {
  const { set, seed, design, everything } = options;
  checkSeed(seed);
  const path = fileName(options.file);
  const source = await sweepSource(await readText(path), path, settings(set), seed);
  const result = organiseStudy(reopener(source), parseFormula, { design, everything });
  await emit(
    {
      document: () => organiseDocument(result),
      data: () => organiseData(result, { sha256: hashOf(source), version }),
    },
    options,
  );
}

import { createHash } from "node:crypto";
import { basename, join } from "node:path";
import { parseFormula } from "../formulas/parse.ts";
import { readText } from "../io/read.ts";
import { shellWord } from "../io/shell.ts";
import { reopener, sweepSource } from "../io/sweep/open.ts";
import { writeFilesWhole } from "../io/write.ts";
import { reportFiles } from "../report/documents/report/files.ts";
import { furtherBlocks } from "../report/documents/report/further.ts";
import { testClaims } from "../studies/claim/claims.ts";
import { estimateStudy } from "../studies/estimate.ts";
import { studySources } from "../studies/explain.ts";
import { organiseStudy } from "../studies/organise/study.ts";
import type { CommonArguments, StudyArguments } from "./options.ts";
import { warn } from "./output.ts";
import { settings } from "./settings.ts";
import { fileName } from "./stdin.ts";
import { checkSeed } from "./study.ts";
import { version } from "./version.ts";

/** Writes a study in every format into a directory. */
export async function report(
  options: CommonArguments & StudyArguments & { readonly out: string; readonly force: boolean },
): Promise<void> {
  const { out, force } = options;
  const path = fileName(options.file);
  const source = await sweepSource(await readText(path), path, settings(options.set), options.seed);
  checkSeed(options.seed);
  const { study, catalogue } = reopener(source)([]);
  const sha256 = createHash("sha256").update(source.named.text).digest("hex");
  const estimate = estimateStudy(study, catalogue, parseFormula);
  const files = reportFiles({
    estimate,
    further: furtherBlocks(estimate, {
      ...(study.organise && { organised: organiseStudy(reopener(source), parseFormula) }),
      ...(study.claims && { claims: testClaims(study, catalogue, parseFormula) }),
    }),
    provenance: { sha256, version },
    references: studySources(study, catalogue, parseFormula),
    command: reportCommand(options),
  });
  await writeFilesWhole(out, files, { force });
  warn(`${files.size} files in ${out}: read ${join(out, "report.html")}`, options);
}

/** The command line that makes a study's report again. */
export function reportCommand({ file, set, seed }: StudyArguments): string {
  return [
    "tenfold report",
    shellWord(fileName(file) === "-" ? "study.yaml" : basename(file)),
    ...set.map((one) => `--set ${shellWord(one)}`),
    ...(seed === undefined ? [] : [`--seed ${seed}`]),
    "--out report",
  ].join(" ");
}

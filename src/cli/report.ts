import { existsSync } from "node:fs";
import { basename, join } from "node:path";
import { refuse } from "../errors/problem.ts";
import { parseFormula } from "../formulas/parse.ts";
import { writeFileWhole } from "../io/write.ts";
import { reportFiles } from "../report/documents/report/files.ts";
import { estimateStudy } from "../studies/estimate.ts";
import { studySources } from "../studies/explain.ts";
import type { CommonArguments, StudyArguments } from "./options.ts";
import { warn } from "./output.ts";
import { fileName } from "./stdin.ts";
import { openNamed } from "./study.ts";
import { version } from "./version.ts";

/** Writes a study in every format into a directory. */
export async function report(
  options: CommonArguments & StudyArguments & { readonly out: string; readonly force: boolean },
): Promise<void> {
  const { out, force } = options;
  const { study, catalogue, sha256 } = await openNamed(options);
  const files = reportFiles({
    estimate: estimateStudy(study, catalogue, parseFormula),
    provenance: { sha256, version },
    references: studySources(study, catalogue, parseFormula),
    command: reportCommand(options),
  });
  // All or nothing: what is there already is found before anything is written.
  const there = [...files.keys()].find((name) => existsSync(join(out, name)));
  if (there !== undefined && !force) {
    refuse({
      code: "file-exists",
      what: `${join(out, there)} is there already`,
      fix: "choose another directory, or say --force to replace what is in it",
    });
  }
  for (const [name, text] of files) await writeFileWhole(join(out, name), text, { force });
  warn(`${files.size} files in ${out}: read ${join(out, "report.html")}`, options);
}

/** The command line that makes a study's report again. */
export function reportCommand({ file, set, seed }: StudyArguments): string {
  return [
    "tenfold report",
    quoted(fileName(file) === "-" ? "study.yaml" : basename(file)),
    ...set.map((one) => `--set ${quoted(one)}`),
    ...(seed === undefined ? [] : [`--seed ${seed}`]),
    "--out report",
  ].join(" ");
}

/** A word of a command line that a shell reads as one. */
function quoted(word: string): string {
  return /^[\w./=-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`;
}

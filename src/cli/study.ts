import { refuse } from "../errors/problem.ts";
import { parseFormula } from "../formulas/parse.ts";
import { type OpenStudy, openStudy } from "../io/study.ts";
import { estimateStudy, type StudyEstimate, withReliability } from "../studies/estimate.ts";
import type { Provenance } from "../studies/estimate-data.ts";
import type { StudyArguments } from "./options.ts";
import { settings } from "./settings.ts";
import { fileName } from "./stdin.ts";
import { version } from "./version.ts";

const LARGEST_SEED = 2 ** 32 - 1;

/** Opens the study that the command line names, with its changes. */
export async function openNamed({ file, set, seed }: StudyArguments): Promise<OpenStudy> {
  const open = await openStudy(fileName(file), settings(set));
  checkSeed(seed);
  return seed === undefined ? open : { ...open, study: { ...open.study, seed } };
}

/** @throws TenfoldError `out-of-range` */
export function checkSeed(seed: number | undefined): void {
  if (seed === undefined || (Number.isInteger(seed) && seed >= 0 && seed <= LARGEST_SEED)) return;
  refuse({
    code: "out-of-range",
    what: `--seed can't be ${seed}`,
    expected: `a whole number from 0 to ${LARGEST_SEED}`,
  });
}

/** Estimates the study that the command line names. */
export async function estimateNamed(
  named: StudyArguments,
): Promise<{ readonly estimate: StudyEstimate; readonly provenance: Provenance }> {
  const { study, catalogue, sha256 } = await openNamed(named);
  return {
    estimate: estimateStudy(
      named.section === "reliability" ? withReliability(study) : study,
      catalogue,
      parseFormula,
    ),
    provenance: { sha256, version },
  };
}

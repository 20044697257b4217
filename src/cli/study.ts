import { refuse } from "../errors/problem.ts";
import { parseFormula } from "../formulas/parse.ts";
import { type OpenStudy, openStudy } from "../io/study.ts";
import type { Origin } from "../report/documents/estimate-data.ts";
import { estimateStudy, type StudyEstimate } from "../studies/estimate.ts";
import { fileName } from "./stdin.ts";
import { version } from "./version.ts";

export interface StudyArguments {
  readonly file: string;
  readonly seed?: number | undefined;
}

/** Opens the study that the command line names, with its changes. */
export async function openNamed({ file, seed }: StudyArguments): Promise<OpenStudy> {
  const open = await openStudy(fileName(file));
  if (seed === undefined) return open;
  if (!Number.isInteger(seed) || seed < 0 || seed >= 2 ** 32) {
    refuse({
      code: "out-of-range",
      what: `--seed can't be ${seed}`,
      expected: "a whole number from 0 to 4294967295",
    });
  }
  return { ...open, study: { ...open.study, seed } };
}

/** Estimates the study that the command line names. */
export async function estimateNamed(
  named: StudyArguments,
): Promise<{ readonly estimate: StudyEstimate; readonly origin: Origin }> {
  const { study, catalogue, sha256 } = await openNamed(named);
  return {
    estimate: estimateStudy(study, catalogue, parseFormula),
    origin: { sha256, version },
  };
}

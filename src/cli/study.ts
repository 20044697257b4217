import { refuse } from "../errors/problem.ts";
import { parseFormula } from "../formulas/parse.ts";
import { type OpenStudy, openStudy } from "../io/study.ts";
import type { Setting } from "../schema/settings.ts";
import { estimateStudy, type StudyEstimate } from "../studies/estimate.ts";
import type { Provenance } from "../studies/estimate-data.ts";
import type { StudyArguments } from "./options.ts";
import { fileName } from "./stdin.ts";
import { version } from "./version.ts";

const LARGEST_SEED = 2 ** 32 - 1;

/** Opens the study that the command line names, with its changes. */
export async function openNamed({ file, set, seed }: StudyArguments): Promise<OpenStudy> {
  const open = await openStudy(fileName(file), settings(set));
  if (seed === undefined) return open;
  if (!Number.isInteger(seed) || seed < 0 || seed > LARGEST_SEED) {
    refuse({
      code: "out-of-range",
      what: `--seed can't be ${seed}`,
      expected: `a whole number from 0 to ${LARGEST_SEED}`,
    });
  }
  return { ...open, study: { ...open.study, seed } };
}

/** `path=value`, as the command line gives them. */
export function settings(given: readonly string[]): readonly Setting[] {
  return given.map((text) => {
    const at = text.indexOf("=");
    if (at > 0) return { path: text.slice(0, at).trim(), value: text.slice(at + 1).trim() };
    return refuse({
      code: "usage",
      what: `--set can't be ${text}`,
      expected: "the place of a value, `=` and the value, such as temperature=85degC",
    });
  });
}

/** Estimates the study that the command line names. */
export async function estimateNamed(
  named: StudyArguments,
): Promise<{ readonly estimate: StudyEstimate; readonly provenance: Provenance }> {
  const { study, catalogue, sha256 } = await openNamed(named);
  return {
    estimate: estimateStudy(study, catalogue, parseFormula),
    provenance: { sha256, version },
  };
}

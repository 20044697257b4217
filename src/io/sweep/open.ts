import { createHash } from "node:crypto";
import { Catalogue, type OwnEntry, ownEntries } from "../../catalogue/index.ts";
import { parseFormula } from "../../formulas/parse.ts";
import type { Setting } from "../../schema/settings.ts";
import type { Reopen } from "../../studies/sweep/families.ts";
import { planSweep, type SweepPlan } from "../../studies/sweep/plan.ts";
import { folderLoader } from "../catalogue.ts";
import { type NamedText, readText } from "../read.ts";
import { fileEntries, parseStudy } from "../study.ts";

/** All that decides a sweep, as plain data: a worker makes the same plan from it. */
export interface SweepSource {
  readonly named: NamedText;
  readonly set: readonly Setting[];
  readonly seed?: number | undefined;
  /** Entries of the files beside the study. */
  readonly entries: readonly OwnEntry[];
}

/** Reads what belongs to a study. */
export async function sweepSource(
  named: NamedText,
  path: string,
  set: readonly Setting[],
  seed: number | undefined,
): Promise<SweepSource> {
  return { named, set, seed, entries: await fileEntries(parseStudy(named, set), path) };
}

/**
 * A study in a file, to be planned, swept or organised.
 *
 * @param set values in place of those of the file
 * @throws TenfoldError with every mistake of the file, or why it can't be read
 */
export async function reopenFile(path: string, set: readonly Setting[] = []): Promise<Reopen> {
  return reopener(await sweepSource(await readText(path), path, set, undefined));
}

/** Gives the study of a source with further settings. */
export function reopener(source: SweepSource): Reopen {
  const loader = folderLoader();
  return (settings) => {
    const read = parseStudy(source.named, [...source.set, ...settings]);
    const study = source.seed === undefined ? read : { ...read, seed: source.seed };
    return {
      study,
      catalogue: new Catalogue(loader, [...ownEntries(study.catalogue), ...source.entries]),
    };
  };
}

export function planOf(source: SweepSource): SweepPlan {
  return planSweep(reopener(source), parseFormula);
}

/** Of the study's text and of the files beside it. */
export function hashOf({ named, entries }: SweepSource): string {
  const hash = createHash("sha256").update(named.text);
  if (entries.length > 0) hash.update(JSON.stringify(entries));
  return hash.digest("hex");
}

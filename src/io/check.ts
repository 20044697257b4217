import { KIND, KINDS, readEntry } from "../catalogue/index.ts";
import { type Problem, TenfoldError } from "../errors/problem.ts";
import { macroModelOf } from "../estimate/crossbar/auto.ts";
import { parseFormula } from "../formulas/parse.ts";
import { formatOf } from "../schema/entry-file.ts";
import type { Setting } from "../schema/settings.ts";
import { type NamedText, readText } from "./read.ts";
import { openText } from "./study.ts";

/** What a check of one file found. */
export interface Checked {
  readonly file: string;
  /** `study`, or the kind of catalogue entry. */
  readonly kind: string;
  readonly problems: readonly Problem[];
  /** What nobody gave and was taken by default, by design. */
  readonly defaulted: Readonly<Record<string, readonly string[]>>;
}

/** Reads a study or an entry of the catalogue only to find its mistakes. */
export async function checkFile(path: string, set: readonly Setting[] = []): Promise<Checked> {
  const found = { file: path, kind: "study", problems: [], defaulted: {} };
  try {
    const named = await readText(path);
    const format = formatOf(named.text, named.file);
    const kind = KINDS.find((one) => KIND[one].format === format);
    if (kind !== undefined) {
      readEntry(named.text, { file: named.file, source: named.file });
      return { ...found, file: named.file, kind };
    }
    return { ...found, file: named.file, ...(await checkStudy(named, path, set)) };
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    return { ...found, problems: error.problems };
  }
}

/** Looks up every name of every design, and puts together what it is made of. */
async function checkStudy(named: NamedText, path: string, set: readonly Setting[]) {
  const { study, catalogue } = await openText(named, path, set);
  const problems: Problem[] = [];
  const defaulted: Record<string, readonly string[]> = {};
  for (const name of Object.keys(study.designs)) {
    try {
      const { design } = macroModelOf(study, name, catalogue, parseFormula);
      defaulted[name] = [...design.organised.chosen, ...design.defaulted];
    } catch (error) {
      if (!(error instanceof TenfoldError)) throw error;
      problems.push(...error.problems);
    }
  }
  return { problems, defaulted };
}

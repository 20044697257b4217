import { KIND, KINDS } from "../catalogue/index.ts";
import { type Problem, TenfoldError } from "../errors/problem.ts";
import { formatOf, readEntryFile } from "../schema/entry-file.ts";
import { readText } from "./read.ts";
import { entryFormat, parseStudy } from "./study.ts";

/** What a check of one file found. */
export interface Checked {
  readonly file: string;
  /** `study`, or the kind of catalogue entry. */
  readonly kind: string;
  readonly problems: readonly Problem[];
}

/** Reads a study or an entry of the catalogue only to find its mistakes. */
export async function checkFile(path: string): Promise<Checked> {
  let kind = "study";
  try {
    const named = await readText(path);
    const format = formatOf(named.text, named.file);
    const of = KINDS.find((one) => KIND[one].format === format);
    if (of === undefined) {
      parseStudy(named);
    } else {
      kind = of;
      readEntryFile(named.text, named.file, entryFormat(of));
    }
    return { file: named.file, kind, problems: [] };
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    return { file: path, kind, problems: error.problems };
  }
}

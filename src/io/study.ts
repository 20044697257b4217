import { readStudy } from "../schema/read-study.ts";
import type { Study } from "../schema/study.ts";
import { type NamedText, readText } from "./read.ts";
import { studyTables } from "./tables.ts";

/**
 * Reads a study from a file, or from standard input for `-`.
 *
 * @throws TenfoldError with every mistake of the file, or why it can't be read
 */
export async function loadStudy(path: string): Promise<Study> {
  return parseStudy(await readText(path));
}

/** Reads a study from its text. */
export function parseStudy({ text, file }: NamedText): Study {
  return readStudy(text, file, { tables: studyTables() });
}

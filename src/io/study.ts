import { createHash } from "node:crypto";
import { Catalogue, type OwnEntry, ownEntries, readEntry } from "../catalogue/index.ts";
import { TenfoldError } from "../errors/problem.ts";
import { readStudy } from "../schema/read-study.ts";
import type { Setting } from "../schema/settings.ts";
import type { Study } from "../schema/study.ts";
import { besideStudy } from "./beside.ts";
import { folderLoader } from "./catalogue.ts";
import { type NamedText, readText } from "./read.ts";
import { studySections } from "./sections.ts";
import { studyTables } from "./tables.ts";

/** A study with all that its names mean. */
export interface OpenStudy {
  readonly study: Study;
  /** What the package ships, and over it what the study adds. */
  readonly catalogue: Catalogue;
  /** Of the study's text: names the input of a result. */
  readonly sha256: string;
}

/**
 * Opens a study from a file, or from standard input for `-`, with the entries that it brings along.
 *
 * @param set values that stand in place of those of the file
 * @throws TenfoldError with every mistake of the file, or why it can't be read
 */
export async function openStudy(path: string, set: readonly Setting[] = []): Promise<OpenStudy> {
  return openText(await readText(path), path, set);
}

/** The same for a text that was read already; files beside it are looked for at `path`. */
export async function openText(
  named: NamedText,
  path: string,
  set: readonly Setting[] = [],
): Promise<OpenStudy> {
  const study = parseStudy(named, set);
  const own = [...ownEntries(study.catalogue), ...(await fileEntries(study, path))];
  return {
    study,
    catalogue: new Catalogue(folderLoader(), own),
    sha256: createHash("sha256").update(named.text).digest("hex"),
  };
}

/** Reads a study from its text; names are not looked up. */
export function parseStudy({ text, file }: NamedText, set: readonly Setting[] = []): Study {
  return readStudy(text, file, { tables: studyTables(), sections: studySections(), set });
}

/** Files with entries lie in the study's folder; a value that names no source is the file's own word. */
export async function fileEntries(study: Study, path: string): Promise<OwnEntry[]> {
  const entries: OwnEntry[] = [];
  for (const [i, named] of (study.catalogue?.files ?? []).entries()) {
    const at = `/catalogue/files/${i}`;
    const { text, file } = await readNamed(study, at, () => besideStudy(path, named));
    entries.push({ ...readEntry(text, { file, source: named }), path: at });
  }
  return entries;
}

/** Reads a file that a study names; that it can't be read is said where the study names it. */
async function readNamed(study: Study, at: string, path: () => Promise<string>) {
  try {
    return await readText(await path());
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    const located = error.problems.map((one) => ({ place: study.place(at), path: at, ...one }));
    throw new TenfoldError(located, error.exitCode);
  }
}

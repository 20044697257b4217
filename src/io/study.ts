import { createHash } from "node:crypto";
import { Catalogue, KIND, KINDS, type Kind, type OwnEntry } from "../catalogue/index.ts";
import { refuse } from "../errors/problem.ts";
import { formatOf, readEntryFile } from "../schema/entry-file.ts";
import type { EntryUse } from "../schema/field.ts";
import { readStudy } from "../schema/read-study.ts";
import type { Study } from "../schema/study.ts";
import { besideStudy } from "./beside.ts";
import { folderLoader } from "./catalogue.ts";
import { type NamedText, readText } from "./read.ts";
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
 * @throws TenfoldError with every mistake of the file, or why it can't be read
 */
export async function openStudy(path: string): Promise<OpenStudy> {
  const named = await readText(path);
  const study = parseStudy(named);
  const own = [...inlineEntries(study), ...(await fileEntries(study, path))];
  return {
    study,
    catalogue: new Catalogue(folderLoader(), own),
    sha256: createHash("sha256").update(named.text).digest("hex"),
  };
}

/** Reads a study from its text; names are not looked up. */
export function parseStudy({ text, file }: NamedText): Study {
  return readStudy(text, file, { tables: studyTables() });
}

const SECTIONS = {
  technologies: "technology",
  switches: "switch",
  selectors: "selector",
  baselines: "baseline",
} as const satisfies Record<string, Kind>;

function inlineEntries({ catalogue = {} }: Study): OwnEntry[] {
  return Object.entries(SECTIONS).flatMap(([section, kind]) =>
    Object.entries(catalogue[section as keyof typeof SECTIONS] ?? {}).map(
      ([name, use]: [string, EntryUse]) => ({ ...use, kind, name }),
    ),
  );
}

/** Files with entries lie in the study's folder. */
async function fileEntries({ catalogue = {} }: Study, path: string): Promise<OwnEntry[]> {
  const entries: OwnEntry[] = [];
  for (const [i, named] of (catalogue.files ?? []).entries()) {
    const { text, file } = await readText(await besideStudy(path, named));
    const kind = kindOfFile(text, file);
    const { name, title, from, variant, values } = readEntryFile(text, file, entryFormat(kind));
    entries.push({
      kind,
      name,
      title,
      ...(from === undefined ? {} : { from }),
      ...(variant === undefined ? {} : { variant }),
      values,
      path: `/catalogue/files/${i}`,
    });
  }
  return entries;
}

function kindOfFile(text: string, file: string): Kind {
  const format = formatOf(text, file);
  const kind = KINDS.find((one) => KIND[one].format === format);
  if (kind !== undefined) return kind;
  return refuse({
    code: "unknown-format",
    what: `${file} holds no entry of the catalogue`,
    ...(format === undefined ? {} : { got: format }),
    expected: `\`format:\` with one of ${KINDS.map((one) => KIND[one].format).join(", ")}`,
  });
}

/** What a file with an entry of that kind may hold. */
export function entryFormat(kind: Kind) {
  const { fields, variants, format } = KIND[kind];
  return { kind, format, fields, ...(variants === undefined ? {} : { variants }) };
}

import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import {
  type Entry,
  KIND,
  KINDS,
  type Kind,
  type Loader,
  type ModelErrors,
  readEntry,
} from "../catalogue/index.ts";
import { TenfoldError } from "../errors/problem.ts";

/** Where the build puts the entries that it has read: beside the bundled program. */
const FOLDER = join(dirname(fileURLToPath(import.meta.url)), "catalogue");

interface Prepared<T> {
  /** Of the text that the entry was read from. */
  readonly sha256: string;
  readonly entry: T;
}
const ERRORS = "model-error.json";

function fileOf(folder: string, kind: Kind, name: string): string {
  return join(folder, KIND[kind].folder, `${name}.json`);
}

const hashOf = (text: string): string => createHash("sha256").update(text).digest("hex");

/**
 * An entry that was read while the program was built: to read it anew would give the same, slower.
 *
 * @param text of its file now
 * @returns undefined where none was prepared, or from another text
 */
export function preparedEntry(
  kind: Kind,
  name: string,
  text: string,
  folder = FOLDER,
): Entry | undefined {
  return preparedFrom(fileOf(folder, kind, name), text);
}

/** The model error, where it was read from that very text while the program was built. */
export function preparedErrors(text: string, folder = FOLDER): ModelErrors | undefined {
  return preparedFrom(join(folder, ERRORS), text);
}

function preparedFrom<T>(file: string, text: string): T | undefined {
  if (!existsSync(file)) return undefined;
  const { sha256, entry } = JSON.parse(readFileSync(file, "utf8")) as Prepared<T>;
  return sha256 === hashOf(text) ? entry : undefined;
}

/** Writes the model error into the folder, as the build does. */
export function prepareErrors(text: string, entry: ModelErrors, folder: string): void {
  write(join(folder, ERRORS), { sha256: hashOf(text), entry });
}

function write<T>(file: string, prepared: Prepared<T>): void {
  writeFileSync(file, JSON.stringify(prepared));
}

/** Reads every entry that can be read and writes it into the folder, as the build does. */
export function prepareEntries(loader: Loader, folder: string): void {
  for (const kind of KINDS) {
    mkdirSync(join(folder, KIND[kind].folder), { recursive: true });
    for (const name of loader.names(kind)) {
      const text = loader.read(kind, name)!;
      const entry = readable(text, kind, name);
      if (entry === undefined) continue;
      write(fileOf(folder, kind, name), { sha256: hashOf(text), entry });
    }
  }
}

/** A file with mistakes is left to the run that asks for it, which names them. */
function readable(text: string, kind: Kind, name: string): Entry | undefined {
  try {
    return readEntry(text, { file: `${KIND[kind].folder}/${name}.yaml`, kind, name });
  } catch (error) {
    if (error instanceof TenfoldError) return undefined;
    throw error;
  }
}

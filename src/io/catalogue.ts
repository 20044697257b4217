import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import {
  KIND,
  type Kind,
  type Loader,
  type ModelErrors,
  readModelErrors,
} from "../catalogue/index.ts";
import { fail } from "../errors/problem.ts";
import { preparedEntry, preparedErrors } from "./prepared.ts";

/** The folder with the catalogue that the package ships; what tells it from others is its file of sources. */
const FOLDER = "shared";
const LANDMARK = "sources.yaml";
const ENDING = ".yaml";
const ERRORS = "evidence/model-error.yaml";

/** Finds the package's own catalogue from where this code lies: the source tree, or the built program beside it. */
export function catalogueFolder(from = dirname(fileURLToPath(import.meta.url))): string {
  for (let folder = from; ; folder = dirname(folder)) {
    const shared = join(folder, FOLDER);
    if (existsSync(join(shared, LANDMARK))) return shared;
    if (folder === dirname(folder)) {
      return fail({
        code: "catalogue-missing",
        what: "the catalogue that belongs to tenfold is not there",
        expected: `a folder ${FOLDER} with ${LANDMARK} beside the program`,
        fix: "install the package again",
      });
    }
  }
}

/** Reads the catalogue's files when they are asked for, and no others: names come from the listing of a folder. */
export function folderLoader(folder = catalogueFolder()): Loader {
  const listings = new Map<Kind, readonly string[]>();
  const names = (kind: Kind): readonly string[] => {
    const known = listings.get(kind);
    if (known !== undefined) return known;
    const path = join(folder, KIND[kind].folder);
    const found = existsSync(path) ? readdirSync(path).filter((name) => name.endsWith(ENDING)) : [];
    const listed = found.map((name) => name.slice(0, -ENDING.length)).sort();
    listings.set(kind, listed);
    return listed;
  };
  return {
    names,
    read(kind, name) {
      const path =
        kind === "sources"
          ? join(folder, LANDMARK)
          : join(folder, KIND[kind].folder, `${name}${ENDING}`);
      return existsSync(path) ? readFileSync(path, "utf8") : undefined;
    },
    prepared: preparedEntry,
    modelErrors() {
      const text = modelErrorText(folder);
      return text === undefined ? undefined : (preparedErrors(text) ?? modelErrorsOf(text));
    },
  };
}

/** The file in which the evidence leaves the model error; undefined before there is one. */
export function modelErrorText(folder = catalogueFolder()): string | undefined {
  const path = join(folder, ERRORS);
  return existsSync(path) ? readFileSync(path, "utf8") : undefined;
}

export function modelErrorsOf(text: string): ModelErrors {
  return readModelErrors(text, ERRORS);
}

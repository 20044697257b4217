import type { Entry, Loader } from "../../src/catalogue/index.ts";
import { KIND, readEntry } from "../../src/catalogue/index.ts";
import { parseFormula } from "../../src/formulas/parse.ts";
import { parserFrom } from "../../src/formulas/preparsed.ts";
import { folderLoader } from "../../src/io/catalogue.ts";

/** The shipped catalogue, each file read once for all cases. */
export const LOADER: Loader = remembering(folderLoader());

/** Each formula is parsed once for all cases. */
export const parse = parserFrom({}, parseFormula);

function remembering(loader: Loader): Loader {
  const texts = new Map<string, string | undefined>();
  const entries = new Map<string, Entry>();
  let errors: ReturnType<NonNullable<Loader["modelErrors"]>>;
  return {
    names: loader.names,
    read(kind, name) {
      const id = `${kind}/${name}`;
      if (!texts.has(id)) texts.set(id, loader.read(kind, name));
      return texts.get(id);
    },
    prepared(kind, name, text) {
      const id = `${kind}/${name}`;
      const known = entries.get(id);
      if (known !== undefined) return known;
      const entry = readEntry(text, { file: `${KIND[kind].folder}/${name}.yaml`, kind, name });
      entries.set(id, entry);
      return entry;
    },
    modelErrors: () => (errors ??= loader.modelErrors!()),
  };
}

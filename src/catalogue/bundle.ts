/** The shipped catalogue as one piece of data, for where there is no folder to read. */

import { TenfoldError } from "../errors/problem.ts";
import type { Entry, Loader } from "./entry.ts";
import { KIND, KINDS, type Kind } from "./kinds.ts";
import type { ModelErrors } from "./model-error.ts";
import { readEntry } from "./read.ts";

/** Names of all entries, the entries themselves but for those of chips, and the file of sources. */
export interface CatalogueBundle {
  readonly names: Readonly<Partial<Record<Kind, readonly string[]>>>;
  /** By kind, then by name. */
  readonly entries: Readonly<Partial<Record<Kind, Readonly<Record<string, Entry>>>>>;
  readonly sources: string;
  readonly errors?: ModelErrors | undefined;
}

/** Chips are what estimates are held against; no study reads them. */
const NAMED_ONLY: readonly Kind[] = ["chip"];

/**
 * Reads all that a study can name.
 *
 * @param loader of the folder with the catalogue
 * @returns without the entries that have mistakes
 */
export function packCatalogue(loader: Loader): CatalogueBundle {
  const names = KINDS.map((kind) => [kind, loader.names(kind)] as const);
  return {
    names: Object.fromEntries(names),
    entries: Object.fromEntries(
      names
        .filter(([kind]) => !NAMED_ONLY.includes(kind))
        .map(([kind, all]) => [
          kind,
          Object.fromEntries(all.flatMap((name) => readable(loader, kind, name))),
        ]),
    ),
    sources: loader.read("sources", "sources")!,
    errors: loader.modelErrors?.(),
  };
}

function readable(loader: Loader, kind: Kind, name: string): [string, Entry][] {
  const file = `${KIND[kind].folder}/${name}.yaml`;
  try {
    return [[name, readEntry(loader.read(kind, name)!, { file, kind, name })]];
  } catch (error) {
    if (error instanceof TenfoldError) return [];
    throw error;
  }
}

/** A loader whose entries are read already. Their texts are not there: each stands for itself by its name. */
export function bundleLoader({ names, entries, sources, errors }: CatalogueBundle): Loader {
  const entryOf = (kind: Kind, name: string): Entry | undefined => {
    const all = entries[kind] ?? {};
    return Object.hasOwn(all, name) ? all[name] : undefined;
  };
  return {
    names: (kind) => names[kind] ?? [],
    read: (kind, name) =>
      kind === "sources" ? sources : entryOf(kind, name) === undefined ? undefined : name,
    prepared: entryOf,
    modelErrors: () => errors,
  };
}

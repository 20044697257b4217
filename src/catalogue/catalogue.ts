/** Finds entries by name: those of the user first, then those of the loader. */

import { nearestWord } from "../errors/nearest.ts";
import { refuse } from "../errors/problem.ts";
import type { EntryUse } from "../schema/field.ts";
import type { Entry, Loader, Parameters } from "./entry.ts";
import { KIND, KINDS, type Kind } from "./kinds.ts";
import type { ModelErrors } from "./model-error.ts";
import { byName } from "./natural.ts";
import { readEntry } from "./read.ts";
import { type Resolved, resolveNode } from "./resolve.ts";
import { readSources, type Source } from "./sources.ts";

/** An entry of a study's own `catalogue:` section. */
export interface OwnEntry extends EntryUse {
  readonly kind: Kind;
  readonly name: string;
  readonly more?: Entry["more"];
}

export class Catalogue {
  readonly #loader: Loader;
  readonly #own: ReadonlyMap<string, Entry>;
  readonly #read = new Map<string, Entry>();
  #sources: ReadonlyMap<string, Source> | undefined;
  #errors: ModelErrors | undefined;

  /**
   * @param loader gives the text of each file when it is first asked for
   * @param own entries of the study, which take precedence over those of the same kind and name
   */
  constructor(loader: Loader, own: readonly OwnEntry[] = []) {
    this.#loader = loader;
    this.#own = new Map(own.map((entry) => [`${entry.kind}/${entry.name}`, ownEntry(entry)]));
  }

  /** The names of a kind, in their natural order. */
  names(kind: Kind): readonly string[] {
    const own = [...this.#own.values()].filter((entry) => entry.kind === kind);
    return [...new Set([...this.#loader.names(kind), ...own.map(({ name }) => name)])].sort(byName);
  }

  /**
   * The entry of that name, as its file says it.
   * @throws TenfoldError `unknown-word` with the nearest name, and what `readEntry` throws
   */
  find(kind: Kind, name: string): Entry {
    return this.#own.get(`${kind}/${name}`) ?? this.#shipped(kind, name);
  }

  #shipped(kind: Kind, name: string): Entry {
    const id = `${kind}/${name}`;
    const known = this.#read.get(id);
    if (known !== undefined) return known;
    const text = NAME.test(name) ? this.#loader.read(kind, name) : undefined;
    if (text === undefined) return this.#unknown(kind, name);
    const entry =
      this.#loader.prepared?.(kind, name, text) ??
      readEntry(text, { file: `${KIND[kind].folder}/${name}.yaml`, kind, name });
    this.#read.set(id, entry);
    return entry;
  }

  /** The kinds that have an entry of this name. */
  kindsOf(name: string): readonly Kind[] {
    return KINDS.filter((kind) => this.names(kind).includes(name));
  }

  /**
   * What a name, or values over a name, mean: all parameters with units, ranges, sources and keys
   * of shared draws.
   * @param context parameters that defaults may take over, such as those of the technology
   * @throws TenfoldError with the reasons, see `resolveNode`
   */
  resolve(kind: Kind, node: string | EntryUse, context: Parameters = {}): Resolved {
    return resolveNode(kind, node, context, (name, above) =>
      // An entry of the study may be laid over the one that it hides.
      above?.name === name ? this.#shipped(kind, name) : this.find(kind, name),
    );
  }

  /** Every source by its key. */
  sources(): ReadonlyMap<string, Source> {
    this.#sources ??= readSources(this.#loader.read("sources", "sources"));
    return this.#sources;
  }

  /** The model error that published silicon shows; nothing where the catalogue has none. */
  modelErrors(): ModelErrors {
    this.#errors ??= this.#loader.modelErrors?.() ?? {};
    return this.#errors;
  }

  #unknown(kind: Kind, name: string): never {
    const names = this.names(kind);
    const elsewhere = this.kindsOf(name)[0];
    const nearest = nearestWord(name, names);
    return refuse({
      code: "unknown-word",
      what:
        elsewhere === undefined
          ? `there is no ${kind} "${name}" in the catalogue`
          : `"${name}" is a ${elsewhere}, no ${kind}`,
      got: name,
      expected:
        names.length > 12 ? `one of the ${names.length} ${KIND[kind].plural}` : names.join(", "),
      ...(nearest === undefined ? {} : { nearest }),
      fix: `\`tenfold list ${kind}\` shows them, or give its values in place of a name`,
    });
  }
}

/** What an entry claims that says nothing of itself. */
const GIVEN_BY_STUDY = "Given by the study itself.";

/** File names are made of these alone, so that no name leaves the folder. */
const NAME = /^[a-z0-9][a-z0-9_-]*$/i;

function ownEntry(entry: OwnEntry): Entry {
  const { kind, name, title, about, from, variant, values } = entry;
  const keyed = Object.entries(values).map(([field, value]) => [
    field,
    { ...value, key: `${kind}/${name}/${field}` },
  ]);
  return {
    kind,
    name,
    title: title ?? name,
    about: about ?? GIVEN_BY_STUDY,
    ...(from === undefined ? {} : { from }),
    ...(variant === undefined ? {} : { variant }),
    values: Object.fromEntries(keyed),
    more: entry.more ?? {},
  };
}

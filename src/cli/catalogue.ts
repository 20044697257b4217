import { Catalogue, type Entry, KIND, KINDS, type Kind } from "../catalogue/index.ts";
import { nearestWord } from "../errors/nearest.ts";
import { refuse } from "../errors/problem.ts";
import { folderLoader } from "../io/catalogue.ts";

/** The catalogue that the package ships. */
export function openCatalogue(): Catalogue {
  return new Catalogue(folderLoader());
}

/** The kind that a word of the command line means, in singular or plural. */
export function kindOf(word: string): Kind {
  const found = KINDS.find((kind) => kind === word || KIND[kind].plural === word);
  if (found !== undefined) return found;
  const nearest = nearestWord(word, KINDS);
  return refuse({
    code: "unknown-word",
    what: `${word} is no kind of entry`,
    got: word,
    expected: KINDS.join(", "),
    ...(nearest === undefined ? {} : { nearest }),
  });
}

/** The entry of that name, of whatever kind has it. */
export function findEntry(catalogue: Catalogue, name: string, kindWord?: string): Entry {
  if (kindWord !== undefined) return catalogue.find(kindOf(kindWord), name);
  const kinds = catalogue.kindsOf(name);
  if (kinds.length === 1) return catalogue.find(kinds[0]!, name);
  if (kinds.length > 1) {
    return refuse({
      code: "unknown-word",
      what: `${kinds.length} entries have the name ${name}`,
      got: name,
      expected: `one kind: ${kinds.join(", ")}`,
      fix: `say --kind ${kinds[0]} or --kind ${kinds[1]}`,
    });
  }
  const nearest = nearestWord(
    name,
    KINDS.flatMap((kind) => catalogue.names(kind)),
  );
  return refuse({
    code: "unknown-word",
    what: `there is no entry ${name} in the catalogue`,
    got: name,
    ...(nearest === undefined ? {} : { nearest }),
    fix: "`tenfold list` shows what there is",
  });
}

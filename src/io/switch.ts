import { Catalogue, KIND, type Loader, type Resolved, readEntry } from "../catalogue/index.ts";
import { TenfoldError } from "../errors/problem.ts";
import { formatOf } from "../schema/entry-file.ts";
import { placeIn } from "../schema/locate.ts";
import { child, locatedTree } from "../schema/yaml/tree.ts";
import { folderLoader } from "./catalogue.ts";
import { readText } from "./read.ts";

/** Runs what may refuse, and gives its problems a place where they have none. */
export type Placing = <T>(run: () => T) => T;

/** A switch of a file of its own, and where its figures stand. */
export interface SwitchFile {
  readonly resolved: Resolved;
  readonly placed: Placing;
}

/** A switch of a file of its own, resolved; undefined where the file is no such file. */
export async function openSwitch(path: string): Promise<SwitchFile | undefined> {
  const { text, file } = await readText(path);
  if (formatOf(text, file) !== KIND.switch.format) return undefined;
  return readSwitch(text, file, folderLoader());
}

/**
 * The switch of a text of the format `tenfold.switch/1`.
 *
 * @throws TenfoldError with every mistake of the text
 */
export function readSwitch(text: string, file: string, loader: Loader): SwitchFile {
  const entry = readEntry(text, { file, kind: "switch", source: file });
  const catalogue = new Catalogue(loader, [{ ...entry, path: "" }]);
  const placed = placing(text, file, Object.keys(entry.values));
  return { resolved: placed(() => catalogue.resolve("switch", entry.name)), placed };
}

/**
 * All that is computed of such a switch hangs on the values of its file: what cannot be computed is
 * refused at the first of them that the problem names, else at all of them.
 */
function placing(text: string, file: string, fields: readonly string[]): Placing {
  return (run) => {
    try {
      return run();
    } catch (error) {
      if (!(error instanceof TenfoldError)) throw error;
      const tree = locatedTree(text, file);
      const whole = child(tree.root, "values") === undefined ? "" : "/values";
      const problems = error.problems.map((one) => {
        const named = firstNamed(one.what, fields);
        const path = named === undefined ? whole : `/values/${named}`;
        return one.place === undefined ? { ...one, path, place: placeIn(tree, path) } : one;
      });
      throw new TenfoldError(problems);
    }
  };
}

/** The field that a sentence names first. */
function firstNamed(sentence: string, fields: readonly string[]): string | undefined {
  return sentence.match(/[a-z_]+/g)?.find((word) => fields.includes(word));
}

import { Catalogue, KIND, type Resolved, readEntry } from "../catalogue/index.ts";
import { formatOf } from "../schema/entry-file.ts";
import { folderLoader } from "./catalogue.ts";
import { readText } from "./read.ts";

/** A switch of a file of its own, resolved; undefined where the file is no such file. */
export async function openSwitch(path: string): Promise<Resolved | undefined> {
  const { text, file } = await readText(path);
  if (formatOf(text, file) !== KIND.switch.format) return undefined;
  const entry = readEntry(text, { file, kind: "switch", source: path });
  const catalogue = new Catalogue(folderLoader(), [{ ...entry, path: "" }]);
  return catalogue.resolve("switch", entry.name);
}

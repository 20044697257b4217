/** The project's own data, read from disk: the catalogue itself never touches a file. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { KIND, type Loader } from "../../src/catalogue/index.ts";

export const SHARED = new URL("../../shared/", import.meta.url);

export const sharedLoader: Loader = {
  read(kind, name) {
    const file = kind === "sources" ? "sources.yaml" : `${KIND[kind].folder}/${name}.yaml`;
    const url = new URL(file, SHARED);
    return existsSync(url) ? readFileSync(url, "utf8") : undefined;
  },
  names(kind) {
    const folder = new URL(`${KIND[kind].folder}/`, SHARED);
    return readdirSync(folder).map((file) => file.replace(/\.yaml$/, ""));
  },
};

/** A loader from memory; keys are such as `switch/thing`. */
export function memoryLoader(files: Readonly<Record<string, string>>): Loader {
  return {
    read: (kind, name) => (kind === "sources" ? files["sources"] : files[`${kind}/${name}`]),
    names: (kind) =>
      Object.keys(files)
        .filter((id) => id.startsWith(`${kind}/`))
        .map((id) => id.slice(kind.length + 1)),
  };
}

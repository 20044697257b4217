import { lstatSync, type Stats } from "node:fs";
import { join, sep } from "node:path";
import { refuse } from "../errors/problem.ts";

/**
 * Refuses to write at a path where something lies that is not to be replaced. A link is neither
 * followed nor replaced: what it leads to may be anywhere, and a device's name may be one.
 *
 * @param force whether a file may be replaced
 * @returns the rights of the file that will be replaced
 * @throws TenfoldError `file-exists`, `file-not-regular`
 */
export function checkTarget(path: string, force: boolean): { readonly mode?: number } {
  const there = at(path);
  if (there === undefined) return {};
  const what = kindOf(there);
  if (what !== undefined) {
    refuse({
      code: "file-not-regular",
      what: `${path} is ${what} and is not written over`,
      fix: what === "a directory" ? "name a file in it" : "choose another name",
    });
  }
  if (!force) refuseThere(path);
  return { mode: there.mode & 0o777 };
}

export function refuseThere(path: string): never {
  return refuse({
    code: "file-exists",
    what: `${path} is there already`,
    fix: "choose another name, or say --force to replace it",
  });
}

/**
 * The path of a file within a folder of results, none of whose own folders is a link that leads out.
 *
 * @param name with `/` between its parts
 * @throws TenfoldError `file-not-regular`
 */
export function within(folder: string, name: string): string {
  const parts = name.split("/");
  for (let i = 1; i < parts.length; i++) {
    const path = join(folder, ...parts.slice(0, i));
    if (at(path)?.isSymbolicLink() !== true) continue;
    refuse({
      code: "file-not-regular",
      what: `${path} is a link, which is not followed out of ${folder}`,
      fix: "remove it, or choose another directory",
    });
  }
  return join(folder, parts.join(sep));
}

function kindOf(there: Stats): string | undefined {
  if (there.isFile()) return undefined;
  if (there.isDirectory()) return "a directory";
  return there.isSymbolicLink() ? "a link" : "a device, pipe or socket";
}

/** What lies at a path; undefined where nothing does or nobody may look, which writing will tell. */
function at(path: string): Stats | undefined {
  try {
    return lstatSync(path, { throwIfNoEntry: false });
  } catch {
    return undefined;
  }
}

import { realpath } from "node:fs/promises";
import { dirname, isAbsolute, relative, resolve, sep } from "node:path";
import { refuse } from "../errors/problem.ts";
import { STDIN } from "./read.ts";

/**
 * The path of a file that a study names, relative to the study. It must stay in the study's folder, links included, so
 * that a study from elsewhere reads nothing that isn't its own.
 *
 * @param study the study's path, or `-`, which stands for a study in the current directory
 * @throws TenfoldError `path-outside`
 */
export async function besideStudy(study: string, named: string): Promise<string> {
  const folder = resolve(study === STDIN ? "." : dirname(study));
  const path = resolve(folder, named);
  // No file has such a name; the system would take it for a fault of the program.
  if (named.includes("\0")) refusePath(named);
  if (isAbsolute(named) || !isWithin(folder, path)) refusePath(named);
  const [realFolder, real] = await Promise.all([resolved(folder), resolved(path)]);
  if (!isWithin(realFolder, real)) refusePath(named);
  return path;
}

function isWithin(folder: string, path: string): boolean {
  const way = relative(folder, path);
  return way !== ".." && !way.startsWith(`..${sep}`) && !isAbsolute(way);
}

/** With all links followed; a file that isn't there has none. */
async function resolved(path: string): Promise<string> {
  return realpath(path).catch(() => path);
}

function refusePath(named: string): never {
  return refuse({
    code: "path-outside",
    what: `${named} lies outside of the study's folder`,
    expected: "a path within the folder of the study",
    fix: "move the file beside the study",
  });
}

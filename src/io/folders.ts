import { mkdir, stat } from "node:fs/promises";
import { dirname } from "node:path";
import { systemCode } from "./system.ts";

/**
 * Makes a folder with those on the way to it. Node's own recursive way never ends where a system
 * has no room for folders, such as below `/proc`: there each parent is there and no child can be.
 *
 * @throws the error of the operating system
 */
export async function makeFolders(path: string): Promise<void> {
  try {
    await mkdir(path);
  } catch (error) {
    const code = systemCode(error);
    const parent = dirname(path);
    if (code === "ENOENT" && parent !== path) {
      await makeFolders(parent);
      // Its parent is there now; another process may have made it meanwhile.
      await mkdir(path).catch((again) => unlessFolder(path, again));
      return;
    }
    await unlessFolder(path, error);
  }
}

/** A folder that is there already is as good, whatever the system says of making it. */
async function unlessFolder(path: string, error: unknown): Promise<void> {
  const there = await stat(path).catch(() => undefined);
  if (there?.isDirectory() !== true) throw error;
}

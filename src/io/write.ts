import { link, mkdir, open, rename, rm } from "node:fs/promises";
import { dirname } from "node:path";
import { fail, refuse } from "../errors/problem.ts";
import { systemCode, systemReason } from "./system.ts";

export interface WriteOptions {
  /** Replaces a file that is there already; without it that is refused. */
  readonly force?: boolean;
}

/** Tells the temporary names of one process apart. */
let serial = 0;

/**
 * Writes a file as a whole or not at all: under another name first, then renamed. Directories on the way are made.
 *
 * @throws TenfoldError `file-exists` (2), `file-unwritable` (3)
 */
export async function writeFileWhole(
  path: string,
  content: string | Uint8Array,
  options: WriteOptions = {},
): Promise<void> {
  const fresh = `${path}.${process.pid}-${serial++}.tmp`;
  try {
    await mkdir(dirname(path), { recursive: true });
    try {
      const handle = await open(fresh, "wx");
      try {
        await handle.writeFile(content);
        await handle.sync();
      } finally {
        await handle.close();
      }
      await (options.force ? rename(fresh, path) : putAtFreeName(fresh, path));
    } finally {
      await rm(fresh, { force: true });
    }
  } catch (error) {
    const code = systemCode(error);
    if (code === "EEXIST") {
      refuse({
        code: "file-exists",
        what: `${path} is there already`,
        fix: "choose another name, or say --force to replace it",
      });
    }
    if (code === undefined) throw error;
    fail({
      code: "file-unwritable",
      what: `${path} can't be written: ${systemReason(error)}`,
      fix: "free some space, check the permissions, or write elsewhere",
    });
  }
}

/** A link fails where the name is taken, which a rename would overwrite; not every file system has links. */
async function putAtFreeName(fresh: string, path: string): Promise<void> {
  try {
    await link(fresh, path);
  } catch (error) {
    if (systemCode(error) === "EEXIST") throw error;
    const reserved = await open(path, "wx");
    await reserved.close();
    await rename(fresh, path);
  }
}

import { type FileHandle, link, open, rename, rm } from "node:fs/promises";
import { dirname, join } from "node:path";
import { fail } from "../errors/problem.ts";
import { makeFolders } from "./folders.ts";
import { systemCode, systemReason } from "./system.ts";
import { checkTarget, refuseThere, within } from "./target.ts";

export interface WriteOptions {
  /** Replaces a file that is there already; without it that is refused. */
  readonly force?: boolean;
}

export type Content = string | Uint8Array;

/** Tells the temporary names of one process apart. */
let serial = 0;

/**
 * Writes a file as a whole or not at all: under another name first, then renamed. Directories on the way are made.
 *
 * @throws TenfoldError `file-exists` (2), `file-not-regular` (2), `file-unwritable` (3)
 */
export async function writeFileWhole(
  path: string,
  content: Content,
  options: WriteOptions = {},
): Promise<void> {
  await fillFileWhole(path, (handle) => handle.writeFile(content), options);
}

/** The same for a content that is written piece by piece. */
export async function fillFileWhole(
  path: string,
  fill: (handle: FileHandle) => Promise<void>,
  { force = false }: WriteOptions = {},
): Promise<void> {
  const staged = await stage(path, fill, force);
  try {
    await giveName(staged, path, force);
  } finally {
    await rm(staged, { force: true });
  }
}

/**
 * Writes several files into a folder. All are written under other names before the first gets its
 * own, so that a full disk, a missing right or a file in the way leaves the folder as it was; only
 * an end of the process within the renames, which need no room, leaves whole files of both kinds.
 *
 * @param files by name, with `/` between its parts
 * @throws TenfoldError `file-exists` (2), `file-not-regular` (2), `file-unwritable` (3)
 */
export async function writeFilesWhole(
  folder: string,
  files: ReadonlyMap<string, Content>,
  { force = false }: WriteOptions = {},
): Promise<void> {
  const named = [...files].map(([name, content]) => ({ path: within(folder, name), content }));
  for (const { path } of named) checkTarget(path, force);
  const staged: { readonly path: string; readonly fresh: string }[] = [];
  try {
    for (const { path, content } of named) {
      const fresh = await stage(path, (handle) => handle.writeFile(content), force);
      staged.push({ path, fresh });
    }
    for (const { path, fresh } of staged) await giveName(fresh, path, force);
  } finally {
    for (const { fresh } of staged) await rm(fresh, { force: true });
  }
}

/** Writes a file under a temporary name beside its own, down to the disk. */
async function stage(
  path: string,
  fill: (handle: FileHandle) => Promise<void>,
  force: boolean,
): Promise<string> {
  const { mode } = checkTarget(path, force);
  // Short, so that it fits wherever the name itself does.
  const fresh = join(dirname(path), `.${process.pid}-${serial++}.tmp`);
  await unlessRefused(path, async () => {
    await makeFolders(dirname(path));
    const handle = await open(fresh, "wx");
    try {
      if (mode !== undefined) await handle.chmod(mode);
      await fill(handle);
      await handle.sync();
    } catch (error) {
      await rm(fresh, { force: true });
      throw error;
    } finally {
      await handle.close();
    }
  });
  return fresh;
}

/**
 * Gives a finished file its name.
 *
 * @throws TenfoldError `file-exists`, `file-unwritable`
 */
export async function giveName(fresh: string, path: string, force: boolean): Promise<void> {
  await unlessRefused(path, async () => {
    try {
      await (force ? rename(fresh, path) : putAtFreeName(fresh, path));
    } catch (error) {
      if (systemCode(error) === "EEXIST") refuseThere(path);
      throw error;
    }
  });
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

/** What the operating system refuses becomes a problem. */
async function unlessRefused(path: string, run: () => Promise<void>): Promise<void> {
  try {
    await run();
  } catch (error) {
    if (systemCode(error) === undefined) throw error;
    fail({
      code: "file-unwritable",
      what: `${path} can't be written: ${systemReason(error)}`,
      fix: "free some space, check the permissions, or write elsewhere",
    });
  }
}

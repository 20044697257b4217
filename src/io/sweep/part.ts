import { constants } from "node:fs";
import { type FileHandle, open, readFile, rename, rm } from "node:fs/promises";
import { fail, refuse } from "../../errors/problem.ts";
import { systemCode, systemReason } from "../system.ts";
import { checkTarget } from "../target.ts";
import { giveName } from "../write.ts";

/** What of an unfinished output is safe on the disk. */
interface Mark {
  /** Of all that decides the bytes. */
  readonly identity: string;
  readonly chunks: number;
  readonly bytes: number;
}

const SAFE_EVERY = 1000;

/** What lies at the name of a file of ours may be anything: a link is not followed. */
const { O_RDWR, O_CREAT, O_TRUNC, O_NOFOLLOW = 0 } = constants;
const GO_ON = O_RDWR | O_CREAT | O_NOFOLLOW;
const BEGIN = GO_ON | O_TRUNC;

/**
 * An output that grows chunk by chunk under another name, `OUT.part`, beside a mark of how much of
 * it is whole, `OUT.part.mark`. Whatever happens, what the mark counts is there.
 */
export class PartFile {
  readonly path: string;
  private readonly handle: FileHandle;
  private readonly identity: string;
  private chunks: number;
  private bytes: number;
  private safe = 0;
  /** The mark that is being written. */
  private marking: Promise<void> = Promise.resolve();

  private constructor(path: string, handle: FileHandle, mark: Mark) {
    this.path = path;
    this.handle = handle;
    this.identity = mark.identity;
    this.chunks = mark.chunks;
    this.bytes = mark.bytes;
  }

  /** Chunks that are there already. */
  get finished(): number {
    return this.chunks;
  }

  /**
   * Begins an output, or goes on with one.
   *
   * @throws TenfoldError `file-exists` where an unfinished output lies in the way,
   *   `other-study` where it is of another study, `part-damaged`, `file-not-regular`,
   *   `file-unwritable`
   */
  static async open(
    out: string,
    identity: string,
    choice: { readonly resume: boolean; readonly force: boolean },
  ): Promise<PartFile> {
    const path = partName(out);
    const mark = await readMark(path);
    if (mark !== undefined && choice.resume) {
      if (mark.identity !== identity) refuseOther(path);
      return PartFile.goOn(path, mark);
    }
    if (mark !== undefined && !choice.force) {
      refuse({
        code: "file-exists",
        what: `${path} holds an unfinished output`,
        fix: "say --resume to go on with it, or --force to begin anew",
      });
    }
    // What has no mark beside it is none of ours.
    checkTarget(path, choice.force || mark !== undefined);
    const empty = { identity, chunks: 0, bytes: 0 };
    await guarded(path, () => writeMark(path, empty));
    const handle = await guarded(path, () => open(path, BEGIN));
    return new PartFile(path, handle, empty);
  }

  private static async goOn(path: string, mark: Mark): Promise<PartFile> {
    const handle = await guarded(path, () => open(path, GO_ON));
    try {
      const { size } = await guarded(path, () => handle.stat());
      if (size < mark.bytes) {
        refuse({
          code: "part-damaged",
          what: `${path} holds less than was written`,
          got: `${size} bytes`,
          expected: `${mark.bytes} bytes or more`,
          fix: "say --force to begin anew",
        });
      }
      await guarded(path, () => handle.truncate(mark.bytes));
      return new PartFile(path, handle, mark);
    } catch (error) {
      await handle.close();
      throw error;
    }
  }

  /** Adds the bytes of one chunk, or of the head before the first. */
  async add(bytes: Uint8Array, isChunk = true): Promise<void> {
    await guarded(this.path, async () => {
      let done = 0;
      while (done < bytes.length) {
        const { bytesWritten } = await this.handle.write(
          bytes,
          done,
          bytes.length - done,
          this.bytes + done,
        );
        done += bytesWritten;
      }
    });
    this.bytes += bytes.length;
    if (isChunk) this.chunks += 1;
    if (performance.now() - this.safe < SAFE_EVERY) return;
    // The disk takes its time while more is computed; what it refuses is told when it is due again.
    await this.marking;
    this.safe = performance.now();
    this.marking = this.mark();
    this.marking.catch(() => undefined);
  }

  /** Brings what was added to the disk, then marks it. */
  async secure(): Promise<void> {
    await this.marking;
    await this.mark();
    this.safe = performance.now();
  }

  private async mark(): Promise<void> {
    const { identity, chunks, bytes } = this;
    await guarded(this.path, async () => {
      await this.handle.datasync();
      await writeMark(this.path, { identity, chunks, bytes });
    });
  }

  async close(): Promise<void> {
    await this.marking.catch(() => undefined);
    await this.handle.close();
  }

  /** Gives the finished output its name. */
  async finish(out: string, force: boolean): Promise<void> {
    await this.secure();
    await this.close();
    await giveName(this.path, out, force);
    await this.forget();
  }

  /** Removes the mark, and what it marks if that is still there. */
  async forget(): Promise<void> {
    await rm(markName(this.path), { force: true });
    await rm(this.path, { force: true });
  }
}

export function partName(out: string): string {
  return `${out}.part`;
}

function markName(part: string): string {
  return `${part}.mark`;
}

async function readMark(path: string): Promise<Mark | undefined> {
  try {
    const mark = JSON.parse(await readFile(markName(path), "utf8")) as Mark;
    return isMark(mark) ? mark : undefined;
  } catch {
    return undefined;
  }
}

function isMark({ identity, chunks, bytes }: Mark): boolean {
  const counts = [chunks, bytes].every((one) => Number.isSafeInteger(one) && one >= 0);
  return typeof identity === "string" && counts;
}

async function writeMark(path: string, mark: Mark): Promise<void> {
  const fresh = `${markName(path)}.tmp`;
  const handle = await open(fresh, BEGIN);
  try {
    await handle.writeFile(JSON.stringify(mark));
    await handle.datasync();
  } finally {
    await handle.close();
  }
  await rename(fresh, markName(path));
}

function refuseOther(path: string): never {
  return refuse({
    code: "other-study",
    what: `${path} is of another study, of other values or of another version`,
    fix: "say --force to begin anew, or write elsewhere",
  });
}

/** Runs what touches the disk; what the system refuses becomes a problem. */
export async function guarded<T>(path: string, run: () => Promise<T>): Promise<T> {
  try {
    return await run();
  } catch (error) {
    if (systemCode(error) === undefined) throw error;
    return fail({
      code: "file-unwritable",
      what: `${path} can't be written: ${systemReason(error)}`,
      fix: "free some space or check the permissions, then go on with --resume; what was finished is kept",
    });
  }
}

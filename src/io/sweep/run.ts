import { existsSync } from "node:fs";
import { dirname } from "node:path";
import { fail } from "../../errors/problem.ts";
import { chunksOf } from "../../studies/sweep/chunk.ts";
import { makeFolders } from "../folders.ts";
import { checkTarget } from "../target.ts";
import { CHUNK_OF } from "./encode.ts";
import { type Form, formOf, headOf, headText, type Shard } from "./form.ts";
import { hashOf, planOf, type SweepSource } from "./open.ts";
import { writeParquet } from "./parquet.ts";
import { guarded, PartFile } from "./part.ts";
import { chunksByWorkers, chunksHere, hasWorkers } from "./pool.ts";

export interface SweepJob {
  readonly source: SweepSource;
  readonly out: string;
  readonly version: string;
  readonly shard?: Shard | undefined;
  readonly workers: number;
  readonly resume: boolean;
  readonly force: boolean;
  /** Told after each chunk: points that are done, of how many, and how many of them by this run. */
  readonly onProgress?: (done: number, total: number, now: number) => void;
  /** Asked between chunks: whether to stop. */
  readonly stopped?: () => boolean;
}

export interface SweepDone {
  readonly points: number;
  readonly out: string;
}

/**
 * Runs a sweep, or one part of it, into a file. The bytes depend on the source and the shard
 * alone.
 *
 * @throws TenfoldError for a study that can't be, `file-exists`, `file-unwritable` (what was
 *   finished is kept), `sweep-interrupted`
 */
export async function runSweep(job: SweepJob): Promise<SweepDone> {
  const { source, out, shard, version } = job;
  const form = formOf(out);
  const plan = planOf(source);
  const size = CHUNK_OF[form];
  const all = chunksOf(plan, size);
  const [from, to] =
    shard === undefined
      ? [0, all]
      : [
          Math.floor(((shard.index - 1) * all) / shard.of),
          Math.floor((shard.index * all) / shard.of),
        ];
  const set = source.set.map(({ path, value }) => `${path}=${value}`);
  const head = headOf(plan, { sha256: hashOf(source), version, set }, shard);
  if (existsSync(out) && !job.force && job.resume) return { points: 0, out };
  checkTarget(out, job.force);
  await guarded(out, () => makeFolders(dirname(out)));
  const headBytes = new TextEncoder().encode(headText(head, form));
  const part = await PartFile.open(out, JSON.stringify(head), job);
  const first = from + part.finished;
  const total = Math.min(to * size, plan.total) - from * size;
  try {
    if (part.finished === 0) await part.add(headBytes, false);
    const chunks =
      job.workers > 1 && hasWorkers() && to - first > 1
        ? chunksByWorkers(source, form, first, to, job.workers)
        : chunksHere(plan, form, first, to);
    for await (const bytes of chunks) {
      await part.add(bytes);
      const done = Math.min(part.finished * size, total);
      job.onProgress?.(done, total, done - (first - from) * size);
      if (job.stopped?.() === true) await interrupt(part, done, total);
    }
    await finish(part, form, job);
  } catch (error) {
    await part.close().catch(() => undefined);
    throw error;
  }
  return { points: total, out };
}

async function finish(part: PartFile, form: Form, { out, force }: SweepJob): Promise<void> {
  if (form !== "parquet") return part.finish(out, force);
  await part.secure();
  await part.close();
  await writeParquet(part.path, out, force);
  await part.forget();
}

async function interrupt(part: PartFile, done: number, total: number): Promise<never> {
  await part.secure();
  return fail({
    code: "sweep-interrupted",
    what: `stopped after ${done} of ${total} points`,
    fix: "the same command with --resume goes on from there",
  });
}

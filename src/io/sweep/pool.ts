import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Worker } from "node:worker_threads";
import { fail, type Problem, TenfoldError } from "../../errors/problem.ts";
import type { SweepPlan } from "../../studies/sweep/plan.ts";
import { sweepChunk } from "../../studies/sweep/rows.ts";
import { type Form, rowsText } from "./form.ts";
import type { SweepSource } from "./open.ts";

/** Gives the bytes of chunks in their order. */
export type Chunks = AsyncGenerator<Uint8Array, void, void>;

/** Chunks that one worker may be ahead of what is written: memory stays the same for any sweep. */
const AHEAD = 2;

interface Answer {
  readonly chunk: number;
  readonly bytes?: Uint8Array;
  readonly problems?: readonly Problem[];
}

/** Chunks `from` to `to` (without it), computed here. */
export async function* chunksHere(plan: SweepPlan, form: Form, from: number, to: number): Chunks {
  const encoder = new TextEncoder();
  for (let chunk = from; chunk < to; chunk++) {
    yield encoder.encode(rowsText(sweepChunk(plan, chunk), plan.columns, form));
    // Between chunks the program hears signals and draws its progress.
    await new Promise((resolve) => setImmediate(resolve));
  }
}

/** The worker's program: built, it lies beside the main one. */
function workerFile(): string | undefined {
  const path = fileURLToPath(new URL("./sweep-worker.js", import.meta.url));
  return existsSync(path) ? path : undefined;
}

/** Whether there is a program for worker threads: not where the sources run as they are. */
export function hasWorkers(): boolean {
  return workerFile() !== undefined;
}

/** The same, computed by worker threads: which of them computes a chunk changes nothing of it. */
export async function* chunksByWorkers(
  source: SweepSource,
  form: Form,
  from: number,
  to: number,
  workers: number,
): Chunks {
  const waiting = new Map<number, (answer: Answer) => void>();
  let broken: Error | undefined;
  const finished = new Map<number, Promise<Answer>>();
  const pool = Array.from({ length: Math.min(workers, to - from) }, () => {
    const worker = new Worker(workerFile()!, { workerData: { source, form } });
    worker.on("message", (answer: Answer) => waiting.get(answer.chunk)?.(answer));
    worker.on("error", (error: Error) => {
      broken ??= error;
      for (const [chunk, settle] of waiting) settle({ chunk });
    });
    return worker;
  });
  const ask = (chunk: number): void => {
    if (chunk >= to) return;
    finished.set(chunk, new Promise((resolve) => waiting.set(chunk, resolve)));
    pool[(chunk - from) % pool.length]!.postMessage(chunk);
  };
  try {
    const window = AHEAD * pool.length;
    for (let chunk = from; chunk < Math.min(to, from + window); chunk++) ask(chunk);
    for (let chunk = from; chunk < to; chunk++) {
      const { bytes, problems } = await finished.get(chunk)!;
      finished.delete(chunk);
      waiting.delete(chunk);
      if (problems !== undefined) throw new TenfoldError(problems);
      if (bytes === undefined) {
        fail({
          code: "worker-failed",
          what: `a worker thread failed: ${broken?.message ?? "no reason"}`,
        });
      }
      ask(chunk + window);
      yield bytes!;
    }
  } finally {
    await Promise.all(pool.map((worker) => worker.terminate()));
  }
}

import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Worker } from "node:worker_threads";
import { fail, type Problem, TenfoldError } from "../../errors/problem.ts";
import type { SweepPlan } from "../../studies/sweep/plan.ts";
import { chunkEncoder } from "./encode.ts";
import type { Form } from "./form.ts";
import type { SweepSource } from "./open.ts";

/** Gives the bytes of chunks in their order; each is valid until the next is asked for. */
export type Chunks = AsyncGenerator<Uint8Array, void, void>;

/** Chunks that a worker has before it, so that it never waits for the next. */
const QUEUED = 2;
/** Chunks for each worker that may be ahead of what is written: memory stays the same for any sweep. */
const AHEAD = 4;
/**
 * The young generation of a worker's heap [MiB]. What dies young is texts of numbers alone; the
 * engine would let it grow with the length of the sweep.
 */
const YOUNG = 4;

interface Answer {
  readonly chunk: number;
  readonly buffer?: ArrayBuffer;
  readonly size?: number;
  readonly problems?: readonly Problem[];
}

/** Chunks `from` to `to` (without it), computed here. */
export async function* chunksHere(plan: SweepPlan, form: Form, from: number, to: number): Chunks {
  const encode = chunkEncoder(plan, form);
  for (let chunk = from; chunk < to; chunk++) {
    yield encode(chunk);
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
  const pool = new Pool(source, form, from, to, Math.min(workers, to - from));
  try {
    for (let chunk = from; chunk < to; chunk++) {
      const { buffer, size, problems } = await pool.take(chunk);
      if (problems !== undefined) throw new TenfoldError(problems);
      yield new Uint8Array(buffer!, 0, size);
      pool.giveBack(buffer!);
    }
  } finally {
    await pool.end();
  }
}

class Pool {
  private readonly workers: { readonly thread: Worker; queued: number }[];
  private readonly answers = new Map<number, Answer>();
  private readonly spare: ArrayBuffer[] = [];
  private readonly to: number;
  private next: number;
  private taken: number;
  private waiting: (() => void) | undefined;
  private broken: Error | undefined;

  constructor(source: SweepSource, form: Form, from: number, to: number, count: number) {
    this.next = from;
    this.taken = from;
    this.to = to;
    this.workers = Array.from({ length: count }, () => {
      const thread = new Worker(workerFile()!, {
        workerData: { source, form },
        resourceLimits: { maxYoungGenerationSizeMb: YOUNG },
      });
      const worker = { thread, queued: 0 };
      thread.on("message", (answer: Answer) => {
        worker.queued -= 1;
        this.answers.set(answer.chunk, answer);
        this.feed();
        this.waiting?.();
      });
      thread.on("error", (error: Error) => {
        this.broken ??= error;
        this.waiting?.();
      });
      return worker;
    });
    this.feed();
  }

  /** The answer of the next chunk in order. */
  async take(chunk: number): Promise<Answer> {
    this.taken = chunk;
    this.feed();
    while (!this.answers.has(chunk)) {
      if (this.broken !== undefined) {
        fail({ code: "worker-failed", what: `a worker thread failed: ${this.broken.message}` });
      }
      await new Promise<void>((resolve) => {
        this.waiting = resolve;
      });
    }
    const answer = this.answers.get(chunk)!;
    this.answers.delete(chunk);
    return answer;
  }

  giveBack(buffer: ArrayBuffer): void {
    this.spare.push(buffer);
  }

  async end(): Promise<void> {
    await Promise.all(this.workers.map(({ thread }) => thread.terminate()));
  }

  /** Gives each worker its next chunks, the one with the fewest before it first. */
  private feed(): void {
    const end = Math.min(this.to, this.taken + AHEAD * this.workers.length);
    while (this.next < end) {
      const worker = this.workers.reduce((a, b) => (b.queued < a.queued ? b : a));
      if (worker.queued >= QUEUED) return;
      worker.queued += 1;
      const spare = this.spare.pop();
      const transfer = spare === undefined ? [] : [spare];
      worker.thread.postMessage({ chunk: this.next, spare }, transfer);
      this.next += 1;
    }
  }
}

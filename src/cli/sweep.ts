import { availableParallelism } from "node:os";
import { setFlagsFromString } from "node:v8";
import { refuse } from "../errors/problem.ts";
import { readText } from "../io/read.ts";
import { shellWord } from "../io/shell.ts";
import { arrayJobScript } from "../io/sweep/array-job.ts";
import { formOf, type Shard } from "../io/sweep/form.ts";
import { planOf, sweepSource } from "../io/sweep/open.ts";
import { runSweep } from "../io/sweep/run.ts";
import { writeFileWhole } from "../io/write.ts";
import type { SweepArguments } from "./commands/sweep.ts";
import { warn } from "./output.ts";
import { Progress } from "./progress.ts";
import { settings } from "./settings.ts";
import { fileName } from "./stdin.ts";
import { checkSeed } from "./study.ts";
import { version } from "./version.ts";

const MOST_JOBS = 100_000;

/** Sweeps a study, or writes the script that lets a cluster do it. */
export async function sweep(options: SweepArguments): Promise<void> {
  const { out, set, seed, force, resume } = options;
  checkSeed(seed);
  const path = fileName(options.file);
  const shard = shardOf(options.shard);
  const workers = wholeOption("workers", options.workers ?? availableParallelism(), 1, 1024);
  formOf(out);
  const source = await sweepSource(await readText(path), path, settings(set), seed);
  const script = options["array-job"];
  if (script !== undefined) {
    const jobs = wholeOption("jobs", options.jobs, 1, MOST_JOBS);
    planOf(source);
    const text = arrayJobScript({ study: path, out, jobs, set, seed });
    await writeFileWhole(script, text, { force });
    warn(`${script}: ${jobs} tasks; start them with sbatch ${shellWord(script)}`, options);
    return;
  }
  keepHeap();
  const progress = new Progress("points", options);
  let asked = false;
  const stop = (): void => {
    asked = true;
  };
  process.once("SIGINT", stop);
  process.once("SIGTERM", stop);
  try {
    const done = await runSweep({
      source,
      out,
      version,
      shard,
      workers,
      resume,
      force,
      onProgress: (finished, total, now) => progress.tell(finished, total, now),
      stopped: () => asked,
    });
    progress.end();
    warn(`${done.out}: ${done.points} points`, options);
  } finally {
    progress.end();
    process.removeListener("SIGINT", stop);
    process.removeListener("SIGTERM", stop);
  }
}

/**
 * Stops the engine from letting its heap grow with the length of a run: what dies there are texts of
 * numbers and columns of a chunk, and memory shall be the same for any sweep.
 */
function keepHeap(): void {
  setFlagsFromString("--semi-space-growth-factor=1");
  setFlagsFromString("--heap-growing-percent=15");
}

/** `k/n`, as the command line gives it. */
function shardOf(text: string | undefined): Shard | undefined {
  if (text === undefined) return undefined;
  const [, index, of] = /^(\d+)\/(\d+)$/.exec(text) ?? [];
  const shard = { index: Number(index), of: Number(of) };
  if (shard.index >= 1 && shard.index <= shard.of && shard.of <= MOST_JOBS) return shard;
  return refuse({
    code: "usage",
    what: `--shard can't be ${text}`,
    expected: "a part of how many, such as 2/8",
  });
}

function wholeOption(name: string, value: number, least: number, most: number): number {
  if (Number.isInteger(value) && value >= least && value <= most) return value;
  return refuse({
    code: "out-of-range",
    what: `--${name} can't be ${value}`,
    expected: `a whole number from ${least} to ${most}`,
  });
}

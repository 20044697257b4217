import { existsSync, readFileSync } from "node:fs";
import { parentPort, workerData } from "node:worker_threads";
import fc from "fast-check";
import { judge } from "./judge.ts";
import type { Material } from "./material.ts";
import { cases } from "./studies.ts";

/** What a worker is to do: cases of the seed with their numbers. */
export interface Task {
  readonly material: Material;
  readonly seed: number;
  readonly first: number;
  readonly count: number;
  /** Only cases that were made so. */
  readonly how?: string | undefined;
}

const { material, seed, first, count, how: wanted } = workerData as Task;
const port = parentPort!;
const made = cases(material);
const OF_THREAD = "/proc/thread-self/schedstat";
/** Of this worker alone [s]: older engines know only that of all together, Linux that of a thread in nanoseconds. */
function processorTime(): number {
  const { threadCpuUsage } = process as { threadCpuUsage?: () => NodeJS.CpuUsage };
  if (threadCpuUsage === undefined && existsSync(OF_THREAD))
    return Number(readFileSync(OF_THREAD, "utf8").split(" ")[0]) / 1e9;
  const { user, system } = threadCpuUsage?.call(process) ?? process.cpuUsage();
  return (user + system) / 1e6;
}

/** Cases are drawn in blocks, so that a case can be made again without all before it. */
const BLOCK = 50;

for (let from = first - (first % BLOCK); from < first + count; from += BLOCK) {
  const block = fc.sample(made, { seed: (seed + from) | 0, numRuns: BLOCK });
  for (const [i, { kind, how, text }] of block.entries()) {
    if (from + i < first || from + i >= first + count) continue;
    if (wanted !== undefined && how !== wanted) continue;
    port.postMessage({ number: from + i, kind, how, text });
    const before = processorTime();
    const verdict = await judge(kind, text);
    const seconds = processorTime() - before;
    port.postMessage({ number: from + i, how, ...verdict, seconds });
  }
}

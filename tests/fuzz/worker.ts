import { parentPort, workerData } from "node:worker_threads";
import fc from "fast-check";
import { judge } from "./judge.ts";
import { cases, type Material } from "./studies.ts";

/** What a worker is to do: cases of the seed with their numbers, or texts of findings. */
export interface Task {
  readonly material: Material;
  readonly seed: number;
  readonly first: number;
  readonly count: number;
}

const { material, seed, first, count } = workerData as Task;
const port = parentPort!;
const made = cases(material);
/** Cases are drawn in blocks, so that a case can be made again without all before it. */
const BLOCK = 50;

for (let from = first - (first % BLOCK); from < first + count; from += BLOCK) {
  const block = fc.sample(made, { seed: (seed + from) | 0, numRuns: BLOCK });
  for (const [i, { how, text }] of block.entries()) {
    if (from + i < first || from + i >= first + count) continue;
    port.postMessage({ number: from + i, how, text });
    const before = process.cpuUsage();
    const verdict = await judge(text);
    const { user, system } = process.cpuUsage(before);
    port.postMessage({ number: from + i, ...verdict, seconds: (user + system) / 1e6 });
  }
}

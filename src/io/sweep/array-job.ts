import { basename, extname } from "node:path";
import { shellWord } from "../shell.ts";

/** What an array job runs. */
export interface ArrayJob {
  readonly study: string;
  readonly out: string;
  /** Tasks of the array. */
  readonly jobs: number;
  readonly set: readonly string[];
  readonly seed?: number | undefined;
}

/** Stands for the number of the task; no file name holds it. */
const TASK = "\u0000";

/** The name of one part: `area.csv` becomes `area.3-of-8.csv`. */
export function partOf(out: string, index: number | string, of: number): string {
  const ending = extname(out);
  return `${out.slice(0, out.length - ending.length)}.${index}-of-${of}${ending}`;
}

/**
 * A script for the Slurm scheduler whose tasks each run one part of a sweep. A task that is
 * started again goes on where it was stopped.
 */
export function arrayJobScript({ study, out, jobs, set, seed }: ArrayJob): string {
  const options = [
    ...set.map((one) => `--set ${shellWord(one)}`),
    ...(seed === undefined ? [] : [`--seed ${seed}`]),
  ];
  const [before, after] = partOf(out, TASK, jobs).split(TASK, 2);
  const part = `${shellWord(before!)}"$SLURM_ARRAY_TASK_ID"${shellWord(after!)}`;
  const more = options.map((one) => ` \\\n  ${one}`).join("");
  const parts = Array.from({ length: jobs }, (_, i) => shellWord(partOf(out, i + 1, jobs)));
  return [
    "#!/bin/bash",
    `#SBATCH --job-name=${basename(out, extname(out)).replace(/[^\w.-]/g, "-")}`,
    `#SBATCH --array=1-${jobs}`,
    "#SBATCH --cpus-per-task=1",
    "#SBATCH --requeue",
    "#",
    "# Start it in the folder where this file's study is, with `sbatch`. When all tasks are done:",
    `#   tenfold merge ${parts.join(" ")} --out ${shellWord(out)}`,
    "# TENFOLD says how the program is started, where that is not `tenfold`.",
    "set -eu",
    `exec \${TENFOLD:-tenfold} sweep ${shellWord(study)} --out ${part} \\`,
    `  --shard "$SLURM_ARRAY_TASK_ID/${jobs}" --resume --workers 1 --quiet${more}`,
    "",
  ].join("\n");
}

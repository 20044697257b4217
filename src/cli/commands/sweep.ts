import type { CommandModule } from "yargs";
import { type CommonArguments, STUDY, type StudyArguments } from "../options.ts";

export interface SweepArguments extends CommonArguments, StudyArguments {
  readonly out: string;
  readonly force: boolean;
  readonly resume: boolean;
  readonly shard?: string | undefined;
  readonly workers?: number | undefined;
  readonly "array-job"?: string | undefined;
  readonly jobs: number;
}

export const sweep: CommandModule<CommonArguments, SweepArguments> = {
  command: "sweep <file>",
  describe: "Estimate a study over the parameters that its section `sweep` varies",
  builder: (yargs) =>
    yargs
      .positional("file", {
        type: "string",
        demandOption: true,
        describe: "The study; - is standard input",
      })
      .options({
        out: {
          type: "string",
          requiresArg: true,
          demandOption: true,
          describe: "Write the table to this .csv, .jsonl or .parquet file",
        },
        force: {
          type: "boolean",
          default: false,
          describe: "Replace an output file that is there",
        },
        resume: { type: "boolean", default: false, describe: "Go on with an unfinished output" },
        shard: { type: "string", requiresArg: true, describe: "Only part k of n, as 2/8" },
        workers: { type: "number", nargs: 1, describe: "Threads (default: one per processor)" },
        "array-job": {
          type: "string",
          requiresArg: true,
          describe: "Write a Slurm script that runs the parts, in place of a sweep",
        },
        jobs: { type: "number", nargs: 1, default: 8, describe: "Parts of an array job" },
      })
      .options(STUDY)
      .example("tenfold sweep memory.yaml --out memory.csv", "all points into a table")
      .example("tenfold sweep memory.yaml --out memory.csv --resume", "after an interruption")
      .example("tenfold sweep memory.yaml --out a.parquet --shard 1/4", "the first of four parts")
      .example(
        "tenfold sweep memory.yaml --out all.csv --array-job job.sh --jobs 64",
        "a script for a cluster",
      ),
  handler: async (options) => {
    const { sweep: run } = await import("../sweep.ts");
    await run(options);
  },
};

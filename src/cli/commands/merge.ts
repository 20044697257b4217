import type { CommandModule } from "yargs";
import type { CommonArguments } from "../options.ts";

interface Arguments extends CommonArguments {
  readonly parts: readonly string[];
  readonly out: string;
  readonly force: boolean;
}

export const merge: CommandModule<CommonArguments, Arguments> = {
  command: "merge <parts..>",
  describe: "Join the parts of a sweep into what one machine would have written",
  builder: (yargs) =>
    yargs
      .positional("parts", {
        type: "string",
        array: true,
        demandOption: true,
        describe: "Files that `sweep --shard` wrote",
      })
      .options({
        out: {
          type: "string",
          requiresArg: true,
          demandOption: true,
          describe: "Write the whole table to this file",
        },
        force: {
          type: "boolean",
          default: false,
          describe: "Replace an output file that is there",
        },
      })
      .example("tenfold merge all.*-of-8.csv --out all.csv", "eight parts"),
  handler: async ({ parts, out, force, ...common }) => {
    const [{ mergeSweep }, { warn }] = await Promise.all([
      import("../../io/sweep/merge.ts"),
      import("../output.ts"),
    ]);
    const { points } = await mergeSweep(parts, out, { force });
    warn(`${out}: ${points} points from ${parts.length} parts`, common);
  },
};

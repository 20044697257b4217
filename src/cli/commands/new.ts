import type { CommandModule } from "yargs";
import type { CommonArguments } from "../options.ts";
import { OUTPUT } from "../options.ts";

interface Arguments extends CommonArguments {
  readonly dir: string;
  readonly force: boolean;
}

export const newStudy: CommandModule<CommonArguments, Arguments> = {
  command: "new [dir]",
  describe: "Write a commented study to start from",
  builder: (yargs) =>
    yargs
      .positional("dir", { type: "string", default: ".", describe: "Directory for its files" })
      .option("force", OUTPUT.force)
      .example("tenfold new", "study.yaml and its schema, here")
      .example("tenfold new memory", "the same in a directory of their own"),
  handler: async (options) => {
    const { writeStarter } = await import("../starter.ts");
    await writeStarter(options.dir, options);
  },
};

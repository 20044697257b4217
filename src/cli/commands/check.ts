import type { CommandModule } from "yargs";
import { type CommonArguments, STUDY } from "../options.ts";
import { fileName } from "../stdin.ts";

interface Arguments extends CommonArguments {
  readonly files: readonly string[];
  readonly set: readonly string[];
  readonly verbose: boolean;
  readonly format: "table" | "json";
}

export const check: CommandModule<CommonArguments, Arguments> = {
  command: "check <files..>",
  describe: "Find every mistake of a study, or of an entry for the catalogue",
  builder: (yargs) =>
    yargs
      .positional("files", {
        type: "string",
        array: true,
        demandOption: true,
        describe: "Files to check; - is standard input",
      })
      .options({
        set: STUDY.set,
        verbose: { type: "boolean", default: false, describe: "Say what was taken by default" },
      })
      .option("format", {
        choices: ["table", "json"] as const,
        default: "table" as const,
        describe: "Text for people, or data for editors",
      })
      .example("tenfold check memory.yaml", "place, reason and remedy of each mistake")
      .example("tenfold check *.yaml --format json", "the same for another program"),
  handler: async (options) => {
    const { checkFiles } = await import("../check.ts");
    await checkFiles(options.files.map(fileName), options);
  },
};

import type { CommandModule } from "yargs";
import { type CommonArguments, OUTPUT } from "../options.ts";

interface Arguments extends CommonArguments {
  readonly file: string;
  readonly out: string;
  readonly force: boolean;
}

export const explore: CommandModule<CommonArguments, Arguments> = {
  command: "explore <file>",
  describe: "Write a page with sliders that runs the same engine in a browser",
  builder: (yargs) =>
    yargs
      .positional("file", {
        type: "string",
        demandOption: true,
        describe: "The study; - is standard input",
      })
      .option("out", {
        type: "string",
        demandOption: true,
        requiresArg: true,
        describe: "The page: one file that needs no network",
      })
      .option("force", OUTPUT.force)
      .example("tenfold explore memory.yaml --out memory.html", "open it in any browser")
      .example(
        "tenfold explore memory.yaml --out memory.html --force",
        "the page anew after the study has changed",
      ),
  handler: async (options) => {
    const { explore: run } = await import("../explore.ts");
    await run(options);
  },
};

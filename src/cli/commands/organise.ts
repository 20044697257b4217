import type { CommandModule } from "yargs";
import {
  type CommonArguments,
  OUTPUT,
  type OutputArguments,
  STUDY,
  type StudyArguments,
} from "../options.ts";

interface Arguments extends CommonArguments, OutputArguments, StudyArguments {
  readonly design?: string | undefined;
  readonly everything: boolean;
  readonly chart?: string | undefined;
}

export const organise: CommandModule<CommonArguments, Arguments> = {
  command: "organise <file>",
  describe: "Find the best organisations of a design, or the front of their trade-offs",
  builder: (yargs) =>
    yargs
      .positional("file", {
        type: "string",
        demandOption: true,
        describe: "The study; - is standard input",
      })
      .options({
        design: {
          type: "string",
          requiresArg: true,
          describe: "The design (default: as the study says)",
        },
        everything: {
          type: "boolean",
          default: false,
          describe: "Compute every organisation, to check the search",
        },
        chart: {
          type: "string",
          requiresArg: true,
          describe: "Draw the front of the first two aims to this SVG file",
        },
      })
      .options(STUDY)
      .options(OUTPUT)
      .example("tenfold organise memory.yaml", "the best, and why the winner wins")
      .example("tenfold organise memory.yaml --format csv --out front.csv", "the front as a table")
      .example("tenfold organise memory.yaml --chart front.svg", "and as a picture"),
  handler: async (options) => {
    const { organise: run } = await import("../organise.ts");
    await run(options);
  },
};

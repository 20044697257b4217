import type { CommandModule } from "yargs";
import {
  type CommonArguments,
  OUTPUT,
  type OutputArguments,
  STUDY,
  type StudyArguments,
} from "../options.ts";

interface Arguments extends CommonArguments, OutputArguments, StudyArguments {
  readonly quantity?: string | undefined;
  readonly design?: string | undefined;
  readonly chart?: string | undefined;
}

export const uncertainty: CommandModule<CommonArguments, Arguments> = {
  command: "uncertainty <file>",
  describe: "Coverage intervals, the parameters that carry them, and what must improve",
  builder: (yargs) =>
    yargs
      .positional("file", {
        type: "string",
        demandOption: true,
        describe: "The study; - is standard input",
      })
      .options({
        quantity: { type: "string", requiresArg: true, describe: "One quantity, in detail" },
        design: { type: "string", requiresArg: true, describe: "One design" },
        chart: {
          type: "string",
          requiresArg: true,
          describe: "Draw the tornado of the one quantity to this SVG file",
        },
      })
      .options(STUDY)
      .options(OUTPUT)
      .example("tenfold uncertainty memory.yaml", "intervals and what carries them")
      .example(
        "tenfold uncertainty memory.yaml --quantity read_latency --design static",
        "with narrower indices and a tornado",
      ),
  handler: async (options) => {
    const { uncertainty: run } = await import("../uncertainty.ts");
    await run(options);
  },
};

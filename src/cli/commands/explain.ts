import type { CommandModule } from "yargs";
import { type CommonArguments, OUTPUT, type OutputArguments, STUDY } from "../options.ts";

interface Arguments extends CommonArguments, OutputArguments {
  readonly file: string;
  readonly set: readonly string[];
  readonly quantity: string;
  readonly design?: string | undefined;
  readonly depth: number;
}

export const explain: CommandModule<CommonArguments, Arguments> = {
  command: "explain <file> <quantity>",
  describe: "Derive a quantity: formula, numbers, units and sources, step by step",
  builder: (yargs) =>
    yargs
      .positional("file", {
        type: "string",
        demandOption: true,
        describe: "The study; - is standard input",
      })
      .positional("quantity", {
        type: "string",
        demandOption: true,
        describe: "Name of a quantity, such as macro_area",
      })
      .options({
        design: {
          type: "string",
          requiresArg: true,
          describe: "Name of the design (default: the first that is not the baseline)",
        },
        set: STUDY.set,
        depth: { type: "number", nargs: 1, default: 1, describe: "Steps below the quantity" },
      })
      .options(OUTPUT)
      .example("tenfold explain memory.yaml read_latency", "its formula and the symbols in it")
      .example(
        "tenfold explain memory.yaml macro_area --design static --depth 3",
        "three steps down, for another design",
      ),
  handler: async (options) => {
    const { explain: run } = await import("../explain.ts");
    await run(options);
  },
};

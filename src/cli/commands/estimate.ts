import type { CommandModule } from "yargs";
import { type CommonArguments, OUTPUT, type OutputArguments, STUDY } from "../options.ts";

interface Arguments extends CommonArguments, OutputArguments {
  readonly file: string;
  readonly seed?: number | undefined;
}

export const estimate: CommandModule<CommonArguments, Arguments> = {
  command: "estimate <file>",
  describe: "Estimate every quantity of every design of a study, with what makes up its totals",
  builder: (yargs) =>
    yargs
      .positional("file", {
        type: "string",
        demandOption: true,
        describe: "The study; - is standard input",
      })
      .options(STUDY)
      .options(OUTPUT)
      .example("tenfold estimate memory.yaml", "all figures and their parts")
      .example("tenfold estimate memory.yaml --format json", "the same for another program")
      .example("tenfold estimate memory.yaml --seed 2", "with other random draws"),
  handler: async (options) => {
    const [{ estimateNamed }, { estimateDocument }, { estimateData }, { emit }] = await Promise.all(
      [
        import("../study.ts"),
        import("../../report/documents/estimate.ts"),
        import("../../report/documents/estimate-data.ts"),
        import("../output.ts"),
      ],
    );
    const { estimate: result, origin } = await estimateNamed(options);
    await emit(
      {
        document: () => estimateDocument(result),
        data: () => estimateData(result, origin),
      },
      options,
    );
  },
};

import type { CommandModule } from "yargs";
import { type CommonArguments, OUTPUT, type OutputArguments, STUDY } from "../options.ts";

interface Arguments extends CommonArguments, OutputArguments {
  readonly file: string;
  readonly seed?: number | undefined;
}

export const compare: CommandModule<CommonArguments, Arguments> = {
  command: "compare <file>",
  describe: "Compare the designs of a study with each other and with its baseline",
  builder: (yargs) =>
    yargs
      .positional("file", {
        type: "string",
        demandOption: true,
        describe: "The study; - is standard input",
      })
      .options(STUDY)
      .options(OUTPUT)
      .example("tenfold compare memory.yaml", "a table for the terminal")
      .example("tenfold compare memory.yaml --out memory.md", "the same for a report")
      .example("tenfold compare memory.yaml --format csv", "one row per quantity and design"),
  handler: async (options) => {
    const [{ estimateNamed }, { comparisonDocument }, { comparisonData }, { emit }] =
      await Promise.all([
        import("../study.ts"),
        import("../../report/documents/comparison.ts"),
        import("../../report/documents/estimate-data.ts"),
        import("../output.ts"),
      ]);
    const { estimate, origin } = await estimateNamed(options);
    await emit(
      {
        document: () => comparisonDocument(estimate),
        data: () => comparisonData(estimate, origin),
      },
      options,
    );
  },
};

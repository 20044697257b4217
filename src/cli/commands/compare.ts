import type { CommandModule } from "yargs";
import {
  type CommonArguments,
  OUTPUT,
  type OutputArguments,
  SECTION,
  STUDY,
  type StudyArguments,
} from "../options.ts";

type Arguments = CommonArguments & OutputArguments & StudyArguments;

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
      .options(SECTION)
      .options(OUTPUT)
      .example("tenfold compare memory.yaml", "a table for the terminal")
      .example("tenfold compare memory.yaml --out memory.md", "the same for a report")
      .example("tenfold compare memory.yaml --set temperature=85degC", "hotter than the file says")
      .example("tenfold compare memory.yaml --section reliability", "errors, life and yield alone")
      .example("tenfold compare memory.yaml --format csv", "one row per quantity and design"),
  handler: async (options) => {
    const [{ estimateNamed }, { comparisonDocument }, { comparisonData }, { emit }] =
      await Promise.all([
        import("../study.ts"),
        import("../../report/documents/comparison.ts"),
        import("../../report/documents/comparison-data.ts"),
        import("../output.ts"),
      ]);
    const { estimate, provenance } = await estimateNamed(options);
    await emit(
      {
        document: () => comparisonDocument(estimate, options.section),
        data: () => comparisonData(estimate, provenance),
      },
      options,
    );
  },
};

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
      .options(SECTION)
      .options(OUTPUT)
      .example("tenfold estimate memory.yaml", "all figures and their parts")
      .example("tenfold estimate memory.yaml --format json", "the same for another program")
      .example("tenfold estimate memory.yaml --seed 2", "with other random draws"),
  handler: async (options) => {
    const [{ estimateNamed }, { estimateDocument }, { estimateData }, { emit }] = await Promise.all(
      [
        import("../study.ts"),
        import("../../report/documents/comparison.ts"),
        import("../../studies/estimate-data.ts"),
        import("../output.ts"),
      ],
    );
    const { estimate: result, provenance } = await estimateNamed(options);
    await emit(
      {
        document: () => estimateDocument(result, options.section),
        data: () => estimateData(result, provenance),
      },
      options,
    );
  },
};

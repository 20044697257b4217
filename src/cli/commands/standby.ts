import type { CommandModule } from "yargs";
import {
  type CommonArguments,
  OUTPUT,
  type OutputArguments,
  STUDY,
  type StudyArguments,
} from "../options.ts";

type Arguments = CommonArguments & OutputArguments & StudyArguments;

export const standby: CommandModule<CommonArguments, Arguments> = {
  command: "standby <file>",
  describe: "Power at rest, from when switching off pays, and days of battery",
  builder: (yargs) =>
    yargs
      .positional("file", {
        type: "string",
        demandOption: true,
        describe: "The study; - is standard input",
      })
      .options(STUDY)
      .options(OUTPUT)
      .example("tenfold standby memory.yaml", "for the use that the section `standby` says"),
  handler: async (options) => {
    const [{ openNamed }, { parseFormula }, { standbyOfStudy }, documents, { emit }, { version }] =
      await Promise.all([
        import("../study.ts"),
        import("../../formulas/parse.ts"),
        import("../../studies/standby/study.ts"),
        import("../../report/documents/standby.ts"),
        import("../output.ts"),
        import("../version.ts"),
      ]);
    const { study, catalogue, sha256 } = await openNamed(options);
    const result = standbyOfStudy(study, catalogue, parseFormula);
    await emit(
      {
        document: () => documents.standbyDocument(result),
        data: () => documents.standbyData(result, { sha256, version }),
      },
      options,
    );
  },
};

import type { CommandModule } from "yargs";
import { type CommonArguments, OUTPUT, STUDY, type StudyArguments } from "../options.ts";

interface Arguments extends CommonArguments, StudyArguments {
  readonly out: string;
  readonly force: boolean;
}

export const report: CommandModule<CommonArguments, Arguments> = {
  command: "report <file>",
  describe: "Write the whole study as Markdown, HTML, LaTeX, CSV, JSON, charts and bibliography",
  builder: (yargs) =>
    yargs
      .positional("file", {
        type: "string",
        demandOption: true,
        describe: "The study; - is standard input",
      })
      .options(STUDY)
      .option("out", {
        type: "string",
        demandOption: true,
        requiresArg: true,
        describe: "Directory for its files",
      })
      .option("force", OUTPUT.force)
      .example("tenfold report memory.yaml --out report", "report/report.html and all else"),
  handler: async (options) => {
    const { report: run } = await import("../report.ts");
    await run(options);
  },
};

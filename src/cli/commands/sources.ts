import type { CommandModule } from "yargs";
import { type CommonArguments, FORMATS, type Format, OUTPUT, STUDY } from "../options.ts";

/** What a list of references can be written as. */
const BIBLIOGRAPHY = [...(Object.keys(FORMATS) as Format[]), "bibtex", "csl-json"] as const;

interface Arguments extends CommonArguments {
  readonly file: string;
  readonly set: readonly string[];
  readonly format?: (typeof BIBLIOGRAPHY)[number] | undefined;
  readonly out?: string | undefined;
  readonly force: boolean;
}

export const sources: CommandModule<CommonArguments, Arguments> = {
  command: "sources <file>",
  describe: "List the references of every value and formula that a study uses",
  builder: (yargs) =>
    yargs
      .positional("file", {
        type: "string",
        demandOption: true,
        describe: "The study; - is standard input",
      })
      .options({
        ...OUTPUT,
        set: STUDY.set,
        format: { describe: "Form of the list (default: table)", choices: BIBLIOGRAPHY },
      })
      .example("tenfold sources memory.yaml", "with how many values each gives")
      .example("tenfold sources memory.yaml --format bibtex --out memory.bib", "for a paper"),
  handler: async (options) => {
    const { sources: run } = await import("../sources.ts");
    await run(options);
  },
};

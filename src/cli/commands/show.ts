import type { CommandModule } from "yargs";
import { type CommonArguments, OUTPUT, type OutputArguments } from "../options.ts";
import { emit } from "../output.ts";

interface Arguments extends CommonArguments, OutputArguments {
  readonly name: string;
  readonly kind?: string | undefined;
}

export const show: CommandModule<CommonArguments, Arguments> = {
  command: "show <name>",
  describe: "Show an entry of the catalogue with the sources of its values",
  builder: (yargs) =>
    yargs
      .positional("name", { type: "string", demandOption: true, describe: "Name of the entry" })
      .option("kind", {
        type: "string",
        requiresArg: true,
        describe: "Its kind, where two kinds have an entry of that name",
      })
      .options(OUTPUT)
      .example("tenfold show cmos-65", "all values of a technology")
      .example("tenfold show sram-6t --format json", "a cell for another program"),
  handler: async (options) => {
    const [{ entryDocument }, { openCatalogue, findEntry }] = await Promise.all([
      import("../../report/documents/catalogue.ts"),
      import("../catalogue.ts"),
    ]);
    const entry = findEntry(openCatalogue(), options.name, options.kind);
    await emit(
      {
        document: () => entryDocument(entry),
        data: () => ({ format: "tenfold.entry/1", ...entry }),
      },
      options,
    );
  },
};

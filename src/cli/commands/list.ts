import type { CommandModule } from "yargs";
import { type CommonArguments, OUTPUT, type OutputArguments } from "../options.ts";
import { emit } from "../output.ts";

interface Arguments extends CommonArguments, OutputArguments {
  readonly kind?: string | undefined;
}

export const list: CommandModule<CommonArguments, Arguments> = {
  command: "list [kind]",
  describe: "Show what the catalogue holds",
  builder: (yargs) =>
    yargs
      .positional("kind", { type: "string", describe: "A kind of entry, such as switch" })
      .options(OUTPUT)
      .example("tenfold list", "the kinds, with the names of their entries")
      .example("tenfold list switch", "all switches, one line each"),
  handler: async (options) => {
    const [{ listDocument }, { openCatalogue, kindOf }, { KIND, KINDS }] = await Promise.all([
      import("../../report/documents/catalogue.ts"),
      import("../catalogue.ts"),
      import("../../catalogue/index.ts"),
    ]);
    const catalogue = openCatalogue();
    const kind = options.kind === undefined ? undefined : kindOf(options.kind);
    await emit(
      {
        document: () => listDocument(catalogue, kind),
        data: () => ({
          format: "tenfold.list/1",
          entries: (kind === undefined ? KINDS : [kind]).flatMap((of) =>
            catalogue.names(of).map((name) => ({
              kind: of,
              name,
              title: catalogue.find(of, name).title,
              file: `${KIND[of].folder}/${name}.yaml`,
            })),
          ),
        }),
      },
      options,
    );
  },
};

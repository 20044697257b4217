import type { CommandModule } from "yargs";
import type { CommonArguments, OutputArguments } from "../options.ts";
import { OUTPUT } from "../options.ts";

type Arguments = CommonArguments & Pick<OutputArguments, "out" | "force">;

export const schema: CommandModule<CommonArguments, Arguments> = {
  command: "schema",
  describe: "Print the JSON Schema of a study, for editors",
  builder: (yargs) =>
    yargs
      .options({ out: OUTPUT.out, force: OUTPUT.force })
      .example("tenfold schema --out study.schema.json", "a file that editors complete from")
      .epilogue(
        "An editor that knows YAML schemas uses it when the first line of a study says\n" +
          "# yaml-language-server: $schema=./study.schema.json",
      ),
  handler: async (options) => {
    const [{ studySchema }, { put }, { renderJson }] = await Promise.all([
      import("../../io/schema.ts"),
      import("../output.ts"),
      import("../../report/renderers/json.ts"),
    ]);
    await put(renderJson(studySchema()), options);
  },
};

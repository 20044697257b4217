import type { CommandModule } from "yargs";
import type { EvidenceArguments } from "../evidence.ts";
import { type CommonArguments, OUTPUT } from "../options.ts";

export const evidence: CommandModule<CommonArguments, EvidenceArguments> = {
  command: "evidence",
  describe: "Compare predictions with published silicon: ratios, spread, and why they are off",
  builder: (yargs) =>
    yargs
      .options({
        chips: {
          type: "string",
          requiresArg: true,
          describe: "Chips of your own in place of the shipped ones: a folder with compared.yaml",
        },
        kind: {
          type: "string",
          requiresArg: true,
          describe: "Only chips of this kind, such as static, magnetic, resistive",
        },
        require: {
          type: "boolean",
          default: false,
          describe: "Exit with 1 where the evidence is out of its bounds",
        },
        chart: {
          type: "string",
          requiresArg: true,
          describe: "Draw predicted against measured to this SVG file",
        },
      })
      .options(OUTPUT)
      .example("tenfold evidence", "all chips")
      .example("tenfold evidence --kind magnetic --format markdown", "one kind")
      .example("tenfold evidence --chips kept-aside", "chips of your own, held to the same bounds")
      .epilogue(
        "A folder for --chips holds compared.yaml (what of which chip is compared), NAME.yaml " +
          "(a study with one design, from what the paper states) and chips/NAME.yaml " +
          "(published figures). The package's own shared/evidence and shared/chips are examples.",
      ) as never,
  handler: async (options) => {
    const { evidence: run } = await import("../evidence.ts");
    await run(options);
  },
};

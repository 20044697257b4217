import type { CommandModule } from "yargs";
import { type CommonArguments, OUTPUT, type OutputArguments, STUDY } from "../options.ts";

const PARTS = ["boundary", "switching_times", "retention", "loop"] as const;

export interface SwitchArguments extends CommonArguments, OutputArguments {
  readonly file: string;
  readonly set: readonly string[];
  readonly design?: string | undefined;
  readonly temperature: string;
  readonly chart?: string | undefined;
  readonly part?: (typeof PARTS)[number] | undefined;
  readonly fit?: string | undefined;
  readonly free?: string | undefined;
}

export const switchCommand: CommandModule<CommonArguments, SwitchArguments> = {
  command: "switch <file>",
  describe: "A switch from its film: loop, switching time against voltage, disturb, retention",
  builder: (yargs) =>
    yargs
      .positional("file", {
        type: "string",
        demandOption: true,
        describe: "A file of the format tenfold.switch/1 with a geometry, or a study",
      })
      .options({
        design: {
          type: "string",
          requiresArg: true,
          describe: "The design of a study whose switch is meant (default: the first with one)",
        },
        temperature: {
          type: "string",
          requiresArg: true,
          default: "25 degC",
          describe: "Temperature of the switch of a file; that of a study is its own",
        },
        chart: {
          type: "string",
          requiresArg: true,
          describe: "Write a picture (SVG) of the times against voltage to this file",
        },
        part: {
          choices: PARTS,
          describe: "One table alone, as a CSV text needs it",
        },
        fit: {
          type: "string",
          requiresArg: true,
          describe: "Fit to a table: voltage,time of sets and resets, or time,voltage,current",
        },
        free: {
          type: "string",
          requiresArg: true,
          describe: "What is fitted, as hop_energy,hop_distance (default: two that fit the table)",
        },
        set: STUDY.set,
      })
      .options(OUTPUT)
      .example("tenfold switch my-switch.yaml", "tables for the terminal")
      .example("tenfold switch my-switch.yaml --part loop --format csv", "the loop as data")
      .example("tenfold switch my-switch.yaml --chart times.svg", "with a picture")
      .example("tenfold switch my-switch.yaml --fit times.csv", "fitted, with intervals")
      .example("tenfold switch memory.yaml --design hybrid", "the switch of a design"),
  handler: async (options) => {
    const { switchAndPrint } = await import("../switch.ts");
    await switchAndPrint(options);
  },
};

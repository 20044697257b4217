import type { CommandModule } from "yargs";
import { type CommonArguments, OUTPUT, type OutputArguments } from "../options.ts";
import { fileName } from "../stdin.ts";

export interface SolveArguments extends CommonArguments, OutputArguments {
  readonly case: string;
  readonly map?: string | undefined;
  readonly pick?: string | undefined;
}

export const solve: CommandModule<CommonArguments, SolveArguments> = {
  command: "solve <case>",
  describe: "Solve a crossbar: every current and voltage with its wires, leaks and selectors",
  builder: (yargs) =>
    yargs
      .positional("case", {
        type: "string",
        demandOption: true,
        describe: "A case, or a file of many under `cases`, YAML or JSON; - is standard input",
      })
      .options(OUTPUT)
      .option("map", {
        type: "string",
        requiresArg: true,
        describe:
          "Write a picture (SVG) of the junction voltages, of a dot product their errors, to this file",
      })
      .option("pick", {
        type: "string",
        requiresArg: true,
        describe: "The id of the case to map, in a file of many",
      })
      .example("tenfold solve case.yaml", "a table, and a coarse map of the junction voltages")
      .example("tenfold solve case.yaml --format json", "all outputs for another program")
      .example("tenfold solve case.yaml --map map.svg", "with a picture"),
  handler: async (options) => {
    const { solveAndPrint } = await import("../solve.ts");
    await solveAndPrint({ ...options, case: fileName(options.case) });
  },
};

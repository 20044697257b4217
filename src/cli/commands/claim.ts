import type { CommandModule } from "yargs";
import {
  type CommonArguments,
  OUTPUT,
  type OutputArguments,
  STUDY,
  type StudyArguments,
} from "../options.ts";

interface Arguments extends CommonArguments, OutputArguments, StudyArguments {
  readonly ledger: boolean;
  readonly require: boolean;
  readonly chart?: string | undefined;
}

const EPILOGUE = `\
A claim says that one switch saves a number of transistors in a function. Both sides, with switches and without, are
composed of the same decoders, drivers, amplifiers and control. The count stops at a boundary:
  cell      the cells that hold the user's data, with what stands in each of them
  crossbar  all cells of the arrays: partly empty tiles, check bits and spares too
  tile      and the drivers, decoders, multiplexers and amplifiers of the tiles
  macro     and control, latches, routing, supplies and error correction
  function  and what the function needs outside of its memory
  area      the area of the whole function, over that of an average logic transistor
A claim holds where it is true in the wanted share of draws (holds_with, 95 % unless said), holds when a capacity or
one parameter changes within its range, or fails. \`function: all\` tests the sentence over all functions.`;

export const claim: CommandModule<CommonArguments, Arguments> = {
  command: "claim <file>",
  describe: "Test sentences such as 'one switch replaces ten transistors'",
  builder: (yargs) =>
    yargs
      .positional("file", {
        type: "string",
        demandOption: true,
        describe: "The study, with a section claims:; - is standard input",
      })
      .options(STUDY)
      .options({
        require: {
          type: "boolean",
          default: false,
          describe: "Exit with 1 unless every claim holds",
        },
        ledger: { type: "boolean", default: false, describe: "Show every transistor by part" },
        chart: {
          type: "string",
          requiresArg: true,
          describe: "Draw the claims about all functions to this SVG file",
        },
      })
      .options(OUTPUT)
      .example("tenfold claim proposal.yaml", "verdicts, numbers, limits")
      .example("tenfold claim proposal.yaml --require", "for the tests of a proposal")
      .example("tenfold claim proposal.yaml --ledger --out ledger.md", "every transistor")
      .epilogue(EPILOGUE) as never,
  handler: async (options) => {
    const { claim: run } = await import("../claim.ts");
    await run(options);
  },
};

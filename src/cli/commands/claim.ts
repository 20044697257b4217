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
  readonly explain?: string | undefined;
  readonly depth: number;
}

const EPILOGUE = `\
A claim says that one switch saves a number of transistors in a function. Both
sides, with switches and without, are composed of the same decoders, drivers,
amplifiers and control. The count stops at a boundary:
  cell      the cells that hold the user's data, with what stands in each
  crossbar  all cells of the arrays: empty ones, check bits and spares too
  tile      and drivers, decoders, multiplexers, amplifiers of the tiles
  macro     and control, latches, routing, supplies, error correction
  function  and what the function needs outside of its memory
  area      the area of the function over that of an average logic transistor
A claim holds where it is true in the wanted share of draws (holds_with, 95 %
unless said), holds when the capacity or one parameter within its range is
another, or fails. \`function: all\` tests the sentence over all functions.
  claims:
    match-table:
      sentence: One switch replaces ten transistors in a match table of 4 kib
      subject: hybrid            # a design whose switch, process and tiles are used
      function: ternary-match
      number: 10
      comparison: at least       # about, at most
      capacity: 4 kib
      boundary: all              # or one of the above
      count: {dummies: false, spares: true, test: false, error_correction: true}
      solve_for: [current_limit]`;

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
        explain: {
          type: "string",
          requiresArg: true,
          describe: "Derive a quantity of both sides instead, such as tile_boundary_transistors",
        },
        depth: { type: "number", nargs: 1, default: 3, describe: "Steps below that quantity" },
        chart: {
          type: "string",
          requiresArg: true,
          describe: "Draw the claims about all functions to this SVG file",
        },
      })
      .options(OUTPUT)
      .example("tenfold claim proposal.yaml", "verdicts, numbers, limits")
      .example("tenfold claim proposal.yaml --require", "for the tests of a proposal")
      .example("tenfold claim proposal.yaml --ledger --out ledger.md", "every part that is counted")
      .example(
        "tenfold claim proposal.yaml --explain function_boundary_transistors --depth 9",
        "every transistor to the last inverter",
      )
      .epilogue(EPILOGUE) as never,
  handler: async (options) => {
    const { claim: run } = await import("../claim.ts");
    await run(options);
  },
};

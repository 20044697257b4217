import type { CommandModule } from "yargs";
import {
  APPROACHES,
  type Approach,
  LEVEL_SPACINGS,
  type LevelSpacing,
  PULSE_TRAINS,
  type PulseTrain,
} from "../../models/switch/levels.ts";
import { type CommonArguments, OUTPUT, type OutputArguments, STUDY } from "../options.ts";

const PARTS = [
  "boundary",
  "switching_times",
  "temperatures",
  "loop",
  "fitted",
  "points",
  "levels",
  "level_costs",
] as const;
const DRIVES = ["triangle", "sine", "pulse"] as const;

export interface SwitchArguments extends CommonArguments, OutputArguments {
  readonly file: string;
  readonly set: readonly string[];
  readonly design?: string | undefined;
  readonly temperature: string;
  readonly chart?: string | undefined;
  readonly part?: (typeof PARTS)[number] | undefined;
  readonly drive: (typeof DRIVES)[number];
  readonly amplitude?: string | undefined;
  readonly period?: string | undefined;
  readonly width?: string | undefined;
  readonly "series-resistance"?: string | undefined;
  readonly "current-limit"?: string | undefined;
  readonly fit?: string | undefined;
  readonly free?: string | undefined;
  readonly refits: number;
  readonly seed: number;
  readonly temperatures?: string | undefined;
  readonly levels?: number | undefined;
  readonly spacing?: LevelSpacing | undefined;
  readonly window?: number | undefined;
  readonly approach?: Approach | undefined;
  readonly train?: PulseTrain | undefined;
  readonly steps?: number | undefined;
  readonly "most-pulses"?: number | undefined;
  readonly "read-time"?: string | undefined;
  readonly "read-noise"?: number | undefined;
  readonly writes?: number | undefined;
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
          describe:
            "Write a picture (SVG) to this file: of the times, of the loop with --part loop, of the " +
            "fit or of the levels",
        },
        part: {
          choices: PARTS,
          describe: "One table alone, as a CSV text needs it",
        },
        drive: {
          choices: DRIVES,
          default: "triangle" as const,
          describe: "What drives the loop: first above zero, then below",
        },
        amplitude: {
          type: "string",
          requiresArg: true,
          describe:
            "Height of the drive both ways, or of the strongest pulse of a train (default: the set " +
            "and the reset voltage)",
        },
        period: {
          type: "string",
          requiresArg: true,
          describe: "Time of one loop (default: 1 s)",
        },
        width: {
          type: "string",
          requiresArg: true,
          describe:
            "Width of each pulse of the drive (default: a quarter of the period), or of a train",
        },
        "series-resistance": {
          type: "string",
          requiresArg: true,
          describe: "Resistance between the source and the switch (default: none)",
        },
        "current-limit": {
          type: "string",
          requiresArg: true,
          describe: "Largest current of the source (default: none)",
        },
        fit: {
          type: "string",
          requiresArg: true,
          describe:
            "Fit to a table: voltage,time of sets and resets (and temperature), or " +
            "time,voltage,current of a loop",
        },
        free: {
          type: "string",
          requiresArg: true,
          describe: "What is fitted, as hop_energy,hop_distance (default: two that fit the table)",
        },
        refits: {
          type: "number",
          requiresArg: true,
          default: 0,
          describe: "Refits to resampled residuals, for intervals that assume no distribution",
        },
        temperatures: {
          type: "string",
          requiresArg: true,
          describe: 'Temperatures of the table of times, as "-40 degC, 85 degC"',
        },
        levels: {
          type: "number",
          requiresArg: true,
          describe: "Write so many levels by program and verify, simulated",
        },
        spacing: {
          choices: LEVEL_SPACINGS,
          describe: "Levels even in ln of the resistance, or in current (default: resistance)",
        },
        window: {
          type: "number",
          requiresArg: true,
          describe: "Share of the levels' distance that a window takes (default: 0.5)",
        },
        approach: {
          choices: APPROACHES,
          describe: "Pulses that lead to a level (default: reset; a set runs away)",
        },
        train: {
          choices: PULSE_TRAINS,
          describe: "What grows from pulse to pulse (default: voltage)",
        },
        steps: {
          type: "number",
          requiresArg: true,
          describe: "Pulses of a train before it starts over (default: 60)",
        },
        "most-pulses": {
          type: "number",
          requiresArg: true,
          describe: "Pulses after which a write gives up (default: 200)",
        },
        "read-time": {
          type: "string",
          requiresArg: true,
          describe: "Time of a verify read (default: 10 ns)",
        },
        "read-noise": {
          type: "number",
          requiresArg: true,
          describe: "Standard deviation of ln R from read to read (default: 0.01)",
        },
        writes: {
          type: "number",
          requiresArg: true,
          describe: "Simulated writes of each level (default: 200)",
        },
        seed: {
          type: "number",
          requiresArg: true,
          default: 1,
          describe: "Seed of all that is drawn at random",
        },
        set: STUDY.set,
      })
      .options(OUTPUT)
      .example("tenfold switch my-switch.yaml", "tables for the terminal")
      .example("tenfold switch my-switch.yaml --part loop --format csv", "the loop as data")
      .example("tenfold switch my-switch.yaml --drive sine --period 1ms", "a faster loop")
      .example('tenfold switch my-switch.yaml --current-limit "50 uA"', "with a limited source")
      .example("tenfold switch my-switch.yaml --chart times.svg", "with a picture")
      .example("tenfold switch my-switch.yaml --fit times.csv", "fitted, with intervals")
      .example("tenfold switch my-switch.yaml --levels 4", "pulses, sigma, energy of each level")
      .example("tenfold switch memory.yaml --design hybrid", "the switch of a design"),
  handler: async (options) => {
    const { switchAndPrint } = await import("../switch.ts");
    await switchAndPrint(options);
  },
};

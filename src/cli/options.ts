import type { Options } from "yargs";

/** Formats of results, with the endings of files that mean them. */
export const FORMATS = {
  table: [".txt"],
  markdown: [".md", ".markdown"],
  csv: [".csv"],
  json: [".json"],
  latex: [".tex"],
  html: [".html", ".htm"],
} as const;
export type Format = keyof typeof FORMATS;

/** How a result is written: options of all commands that have one. */
export const OUTPUT = {
  format: {
    describe: "Form of the result (default: table, or what the ending of --out says)",
    choices: Object.keys(FORMATS) as Format[],
  },
  out: { type: "string", requiresArg: true, describe: "Write the result to this file" },
  force: { type: "boolean", default: false, describe: "Replace an output file that is there" },
} as const satisfies Record<string, Options>;

/** Options that every command has. */
export const COMMON = {
  quiet: { type: "boolean", default: false, describe: "No progress and no warnings" },
  "no-color": { type: "boolean", default: false, describe: "No colours (as NO_COLOR says too)" },
} as const satisfies Record<string, Options>;

/** How a study is read and computed. */
export const STUDY = {
  set: {
    type: "string",
    array: true,
    nargs: 1,
    default: [] as string[],
    defaultDescription: "none",
    describe: "Change a value of the study, as temperature=85degC (repeatable)",
  },
  seed: { type: "number", nargs: 1, describe: "Seed of the sampled intervals" },
} as const satisfies Record<string, Options>;

/** A part of the figures in place of all. */
export const SECTION = {
  section: {
    choices: ["reliability"] as const,
    describe: "Only these figures; computed even where the study says nothing of them",
  },
} as const satisfies Record<string, Options>;

export interface StudyArguments {
  readonly file: string;
  readonly set: readonly string[];
  readonly seed?: number | undefined;
  readonly section?: "reliability" | undefined;
}

export interface OutputArguments {
  readonly format?: Format | undefined;
  readonly out?: string | undefined;
  readonly force: boolean;
}

export interface CommonArguments {
  readonly quiet: boolean;
  readonly "no-color": boolean;
}

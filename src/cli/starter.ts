import { join } from "node:path";
import { studySchema } from "../io/schema.ts";
import { shellWord } from "../io/shell.ts";
import { writeFilesWhole } from "../io/write.ts";
import { renderJson } from "../report/renderers/json.ts";
import { plain } from "../report/renderers/plain.ts";
import type { CommonArguments } from "./options.ts";
import { warn } from "./output.ts";

/** A study that can be computed as it is, with what else may be said in its comments. */
export const STARTER = `# yaml-language-server: $schema=./study.schema.json
# A study: what is compared, in which process, for which memory.
# Each value is a text with a unit. A value that you are not sure of is a mapping
# with value, low and high; the results then come with intervals.
title: My memory

# \`tenfold list technology\` shows the processes, \`tenfold show cmos-65\` one with its sources.
technology: cmos-65
temperature: 25 degC

# The design that the others are compared with.
baseline: static

# What holds for all designs.
defaults:
  capacity: 1 Mib
  word: 32 bit

designs:
  # An all-CMOS cell by its name: see \`tenfold list baseline\`.
  static:
    cell: sram-6t

  # A resistance switch with a transistor in each cell.
  one-transistor:
    cell:
      switch: oxide-bilayer        # see \`tenfold list switch\`
      selector: transistor         # see \`tenfold list selector\`
    tile: {rows: 512, columns: 512}

  # A crossbar of your own switch with a two-terminal selector.
  crossbar:
    cell:
      switch:
        from: oxide-bilayer        # what you do not say is taken from here
        on_resistance: {value: 100 kohm, low: 60 kohm, high: 160 kohm, source: my notebook}
        off_resistance: 10 Mohm
      selector: threshold-chalcogenide
    bias: one-half                 # voltage of the unselected rows and columns
    tile: {rows: 256, columns: 256}
`;

export const STARTER_FILE = "study.yaml";
export const SCHEMA_FILE = "study.schema.json";

/** Writes the study and the schema that its first line names. */
export async function writeStarter(
  directory: string,
  options: CommonArguments & { readonly force: boolean },
): Promise<void> {
  const study = join(directory, STARTER_FILE);
  const schema = join(directory, SCHEMA_FILE);
  const files = new Map([
    [STARTER_FILE, STARTER],
    [SCHEMA_FILE, renderJson(studySchema())],
  ]);
  await writeFilesWhole(directory, files, options);
  process.stdout.write(`${plain(study)}\n${plain(schema)}\n`);
  warn(`Next: tenfold compare ${shellWord(study)}`, options);
}

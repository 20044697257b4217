import type { Instance } from "../../formulas/sheet.ts";
import {
  holdRegister,
  matchLines,
  matchPrecharge,
  priorityEncoder,
  resistiveCompare,
  staticCompare,
} from "../../models/functions/index.ts";
import { raisedRowDriver, rowDriver } from "../../models/periphery/tile/rows.ts";
import { currentSenseAmplifier } from "../../models/periphery/tile/sense-current.ts";
import { voltageSenseAmplifier } from "../../models/periphery/tile/sense-voltage.ts";
import type { Design } from "../../schema/study.ts";
import { additions } from "./addition.ts";
import {
  composed,
  type FunctionDefinition,
  type FunctionPart,
  operation,
  type Side,
} from "./side.ts";

/** An entry is one row of a tile: its symbols are written and searched side by side. */
const oneEntryPerRow =
  (cells: number) =>
  (design: Design): Design => ({
    ...design,
    word: (design.word ?? 1) * cells,
    tile: { ...design.tile, columns: (design.word ?? 1) * cells, column_share: 1 },
  });

const SENSED = {
  signal_current: "match_signal_current",
  column_capacitance: "match_line_capacitance",
} as const;

/**
 * What stands around the array for a search; the same on both sides but for how a line is sensed.
 */
function searchParts(sensing: "voltage" | "current"): readonly FunctionPart[] {
  const voltage = sensing === "voltage";
  return [
    {
      name: "search register",
      prefix: "search_register_",
      sheet: holdRegister,
      bind: { held_bits: "search_lines" },
      boundary: "macro",
      count: "1",
      active: "1",
    },
    {
      name: "search drivers",
      prefix: "search_driver_",
      // Gates of access transistors may swing beyond the supply: the hybrid is charged for a level
      // shifter at each line, which it does not need where they don't.
      sheet: voltage ? rowDriver : raisedRowDriver,
      bind: { row_capacitance: "search_line_capacitance" },
      boundary: "tile",
      count: "tiles * search_lines",
      active: "tiles * search_lines / 2",
      energy: "read_energy",
    },
    ...(voltage
      ? [
          {
            name: "match-line precharge",
            prefix: "match_precharge_",
            sheet: matchPrecharge,
            boundary: "tile" as const,
            count: "tiles * physical_rows",
            active: "tiles * physical_rows",
          },
        ]
      : []),
    {
      name: "match amplifiers",
      prefix: "match_sense_",
      sheet: voltage ? voltageSenseAmplifier : currentSenseAmplifier,
      bind: voltage
        ? { ...SENSED, column_swing: "match_swing" }
        : {
            signal_current: "match_signal_current",
            cell_on_current: "mismatch_current",
            column_leak_current: "match_leak_current",
          },
      boundary: "tile",
      count: "tiles * physical_rows",
      active: "tiles * physical_rows",
      energy: "read_energy",
    },
    encoder("priority encoders", "tile_encoder_", "rows", "tile", "tiles"),
    encoder("priority encoder of the tiles", "macro_encoder_", "tiles", "macro", "1"),
  ];
}

const encoder = (
  name: string,
  prefix: string,
  inputs: string,
  boundary: "tile" | "macro",
  count: string,
): FunctionPart => ({
  name,
  prefix,
  sheet: priorityEncoder,
  bind: { encoder_inputs: inputs },
  boundary,
  count,
  active: count,
});

const DELAY =
  "search_register_delay + search_driver_delay + match_sense_delay + tile_encoder_delay + macro_encoder_delay";

const searchFormulas = (current: string) =>
  operation(`tiles * (search_line_energy + match_line_energy${current})`, DELAY);

const cellsOfSymbol = (cells: number) =>
  composed("cells_of_symbol", "1", String(cells), "cells of one row that hold one symbol");

function staticSide(entry: string, cells: number): Side {
  const sheets: Instance[] = [{ of: staticCompare }, { of: matchLines }];
  return {
    memory: { of: "baseline", cell: "sram-6t" },
    organise: oneEntryPerRow(cells),
    stored: `function_capacity * ${cells}`,
    published: entry,
    sheets,
    parts: [
      ...additions("compare devices", "function_capacity", "cells_of_symbol"),
      ...searchParts("voltage"),
    ],
    formulas: [...searchFormulas(""), cellsOfSymbol(cells)],
  };
}

const resistiveSide: Side = {
  memory: { of: "subject", form: "pair" },
  organise: oneEntryPerRow(1),
  sheets: [{ of: resistiveCompare }, { of: matchLines }],
  parts: searchParts("current"),
  formulas: [
    ...searchFormulas(
      " + rows * supply * (mismatch_current + match_leak_current) * match_sense_delay",
    ),
    cellsOfSymbol(1),
  ],
};

const LEFT = [
  "Endurance: each change of an entry wears its switches; a table that learns is another matter",
  "The leak of the symbols that agree limits how long an entry of switches can be",
];

/** Content-addressable tables. */
export const MATCHES: readonly FunctionDefinition[] = [
  {
    name: "ternary-match",
    title: "Ternary match table",
    element: "symbols",
    operation: "search of all entries",
    levels: false,
    hybrid: resistiveSide,
    baseline: staticSide("tcam-16t", 2),
    leavesOut: LEFT,
  },
  {
    name: "binary-match",
    title: "Binary match table",
    element: "symbols",
    operation: "search of all entries",
    levels: false,
    hybrid: resistiveSide,
    baseline: staticSide("bcam-10t", 1),
    leavesOut: LEFT,
  },
];

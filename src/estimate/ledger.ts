import { sumTree } from "../formulas/build.ts";
import type { ExtraFormula } from "../formulas/program.ts";
import type { Tree } from "../formulas/tree.ts";
import type { PartUse } from "../models/periphery/index.ts";

/**
 * Where a count of transistors stops, from the inside out. Each boundary holds what stands at it
 * and all that the ones before it hold, but the last, which is not a count: it is area, in
 * transistors.
 */
export const BOUNDARIES = ["cell", "crossbar", "tile", "macro", "function", "area"] as const;
export type Boundary = (typeof BOUNDARIES)[number];

/** What each boundary counts, in the words of tables and of the help. */
export const BOUNDARY_MEANINGS: Readonly<Record<Boundary, string>> = {
  cell: "the cells that hold the user's data, with what stands in each of them",
  crossbar: "all cells of the arrays: partly empty tiles, check bits and spares too",
  tile: "and the drivers, decoders, multiplexers and amplifiers of the tiles",
  macro: "and control, latches, routing, supplies and error correction of the macro",
  function: "and what the function needs outside of its memory",
  area: "the area of the whole function, over that of an average logic transistor",
};

/** One line of a ledger: transistors of one part in all of the function. */
export interface LedgerRow {
  readonly part: string;
  /** The innermost boundary that counts it. */
  readonly boundary: Exclude<Boundary, "area">;
  /** The quantity that counts it. */
  readonly quantity: string;
}

/** The quantity that counts all that a boundary holds. */
export function countAt(boundary: Boundary): string {
  return `${boundary}_boundary_transistors`;
}

const counted = (
  name: string,
  formula: string | Tree,
  meaning: string,
  note?: string,
): ExtraFormula => ({
  name,
  unit: "1",
  formula,
  meaning,
  source: "this project",
  ...(note === undefined ? {} : { note }),
});

/** The rows of a memory: its cells, and the parts of its periphery. */
export function memoryRows(uses: readonly PartUse[]): readonly LedgerRow[] {
  return [
    { part: "cells", boundary: "cell", quantity: "data_cells_transistors" },
    { part: "cells without data", boundary: "crossbar", quantity: "other_cells_transistors" },
    { part: "dummy cells", boundary: "crossbar", quantity: "dummy_cells_transistors" },
    ...uses.map(({ name, prefix, level, alongTiles = false }) => ({
      part: name,
      boundary: level === "tile" || alongTiles ? ("tile" as const) : ("macro" as const),
      quantity: `all_${prefix}transistors`,
    })),
    { part: "test logic", boundary: "macro", quantity: "test_transistors" },
  ];
}

/**
 * What a ledger of a memory counts beside the parts of `partTotals`. Dummies and test logic are
 * in it where `count_dummies` and `count_test` are 1.
 */
export const MEMORY_COUNTS: readonly ExtraFormula[] = [
  counted(
    "data_cells",
    "capacity / bits_per_cell * cells_per_bit",
    "cells that hold the user's data",
  ),
  counted(
    "data_cells_transistors",
    "data_cells * cell_transistors",
    "transistors of the cells that hold the user's data",
  ),
  counted(
    "other_cells_transistors",
    "all_cells_transistors - data_cells_transistors",
    "transistors of cells without data: empty tiles, check bits, spares",
  ),
  counted(
    "dummy_cells_transistors",
    "count_dummies * tiles * decks * ((physical_rows + 2 * edge_cells) * (physical_columns + 2 * " +
      "edge_cells) - physical_rows * physical_columns) * cell_transistors",
    "transistors of the dummy cells around each array",
  ),
  counted(
    "test_transistors",
    "count_test * (4 * test_gates + multiplexer_transistors * (address_bits + 2 + 2 * word))",
    "transistors of the self-test, and of the scan of all latches",
  ),
];

/**
 * Sums of a ledger: for each boundary the count of all that it holds.
 *
 * @param rows whose quantities the program defines
 * @param area the quantity [m^2] that the boundary `area` turns into transistors
 */
export function boundaryFormulas(
  rows: readonly LedgerRow[],
  area: string,
): readonly ExtraFormula[] {
  const sums = BOUNDARIES.slice(0, -1).map((boundary, i) => {
    const own = rows.filter((row) => row.boundary === boundary).map(({ quantity }) => quantity);
    const inner = i === 0 ? [] : [countAt(BOUNDARIES[i - 1]!)];
    const terms = [...inner, ...own];
    return counted(
      countAt(boundary),
      sumTree(terms),
      `transistors counted up to the boundary ${boundary}`,
    );
  });
  return [
    ...sums,
    counted(
      countAt("area"),
      `${area} / transistor_area`,
      "area of the function in average logic transistors",
    ),
  ];
}

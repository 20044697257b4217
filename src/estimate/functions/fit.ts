import type { ExtraFormula } from "../../formulas/program.ts";
import type { ParameterSet } from "../parameters.ts";
import { composed } from "./side.ts";

/** The parameters of a tile that become its largest, by the names that they then have. */
const LARGEST = {
  rows: "largest_rows",
  columns: "largest_columns",
  column_share: "largest_column_share",
  amplifier_share: "largest_amplifier_share",
} as const;

/** Takes what a design says of its tile as the largest that it may be. */
export function takeLargest(parameters: ParameterSet): void {
  for (const [name, largest] of Object.entries(LARGEST)) {
    const figure = parameters.get(name)!;
    parameters.add({ ...figure, name: largest });
  }
}

/**
 * The tile that a capacity needs: a small memory has a small tile, about square, no narrower than a
 * word, and from the stated tile's size on it has that tile. Both sides follow the same rule, so
 * that no side is charged for an array that stands empty.
 */
export const FITTED_TILE: readonly ExtraFormula[] = [
  composed(
    "bank_cells",
    "1",
    "capacity * coded_word / word * cells_per_bit / (bits_per_cell * banks * decks)",
    "cells that a bank needs in one deck",
  ),
  composed(
    "columns",
    "1",
    "bank_cells >= largest_rows * largest_columns ? largest_columns : min(largest_columns, " +
      "max(word_cells, 2 ^ ceil(log2(sqrt(bank_cells)))))",
    "cells of a row that hold data",
  ),
  composed(
    "rows",
    "1",
    "min(largest_rows, max(2, 2 ^ ceil(log2(bank_cells / columns))))",
    "row wires of a tile that hold data",
  ),
  composed(
    "column_share",
    "1",
    "columns < largest_columns ? max(1, min(largest_column_share, floor(columns / word_cells))) : " +
      "largest_column_share",
    "symbols among which one is switched to a bit of the word",
  ),
  composed(
    "amplifier_share",
    "1",
    "min(largest_amplifier_share, column_share)",
    "symbols that share one sense amplifier",
  ),
];

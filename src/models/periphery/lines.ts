/** How many wires, lines and bits the parts have to serve. Instantiated once, without a prefix. */
import { given, part } from "./define.ts";

export const lines = part({
  name: "lines",
  title: "Lines and bits that the periphery serves",
  about:
    "Spare rows and columns have drivers and switches like all others. Each deck of a stack has " +
    "its own wires: wires that two decks share are not modelled.",
  formulas: {
    decoded_rows: given(
      "(rows + spare_rows) * decks",
      "1",
      "row addresses of a tile, spare rows included",
    ),
    driven_rows: given("decoded_rows * row_lines", "1", "row wires of a tile that need a driver"),
    driven_columns: given(
      "(columns + spare_columns) * column_lines * decks",
      "1",
      "column wires of a tile that need a switch or a driver",
    ),
    selected_columns: given(
      "column_share * decks",
      "1",
      "columns among which a sense amplifier is switched",
    ),
    coded_word: given("word + check_bits", "1", "bits of one access with their check bits"),
    word_cells: given(
      "ceil(coded_word / bits_per_cell) * cells_per_bit",
      "1",
      "cells of one access",
    ),
    cells_written: given(
      "ceil(word_cells / groups)",
      "1",
      "cells of the macro that are written at once",
    ),
    row_cells_written: given(
      "ceil(cells_written / tiles_active)",
      "1",
      "cells of one row that are written at once",
    ),
    words: given("ceil(capacity / word)", "1", "words of the macro"),
    address_bits: given("ceil(log2(words))", "1", "bits of a word's address"),
  },
});

import { type FormulaDefinition, type Sheet, sheet } from "../formulas/sheet.ts";

const cellsAtOnce = (limited: boolean): FormulaDefinition => ({
  unit: "1",
  formula:
    "max(1, min(word_cells, tiles_active * floor(bits_at_once / bits_per_cell * cells_per_bit)" +
    `${limited ? ", floor(write_current_budget / write_current)" : ""}))`,
  meaning: "cells of the macro that may be written at once",
  source: "this project",
  note: limited
    ? "a driver gives each cell its current for the whole pulse"
    : "their currents only charge the cells, so that no budget holds them back",
});

const build = (limited: boolean): Sheet =>
  sheet({
    name: "organisation",
    title: "Organisation of a macro",
    about:
      "Counts of tiles, banks and amplifiers. A word is spread over as many tiles of one bank as its bits need; " +
      "the last tile of a bank may be partly empty, and is counted whole.",
    inputs: {
      capacity: { unit: "1", meaning: "bits that a user can store", symbol: "C" },
      word: { unit: "1", meaning: "bits of one access", symbol: "w" },
      coded_word: { unit: "1", meaning: "bits of one access with their check bits", symbol: "w_s" },
      word_cells: { unit: "1", meaning: "cells of one access" },
      ...(limited && {
        write_current: { unit: "A", meaning: "write current of one cell, at the driver" },
      }),
      write_current_budget: { unit: "A", meaning: "current that a macro may draw for a write" },
      bits_at_once: { unit: "1", meaning: "most bits that a tile may write at once" },
      banks: { unit: "1", meaning: "banks of the macro", symbol: "n_{bank}" },
      rows: { unit: "1", meaning: "row wires of a tile that hold data", symbol: "m" },
      columns: { unit: "1", meaning: "cells of a row that hold data", symbol: "n" },
      spare_rows: { unit: "1", meaning: "spare row wires of a tile", symbol: "m_s" },
      spare_columns: { unit: "1", meaning: "spare cells of a row", symbol: "n_s" },
      decks: { unit: "1", meaning: "crossbars stacked in a tile", symbol: "k" },
      bits_per_cell: { unit: "1", meaning: "bits that one cell stores", symbol: "b" },
      cells_per_bit: { unit: "1", meaning: "cells that store one symbol together", symbol: "c" },
      column_share: {
        unit: "1",
        meaning: "symbols of which one is accessed at a time",
        symbol: "x",
      },
      amplifier_share: { unit: "1", meaning: "symbols that share one sense amplifier" },
    },
    formulas: {
      physical_rows: {
        unit: "1",
        formula: "rows + spare_rows",
        meaning: "row wires of a tile",
        source: "this project",
        symbol: "m_p",
      },
      physical_columns: {
        unit: "1",
        formula: "columns + spare_columns",
        meaning: "cells of a row, spares included",
        source: "this project",
        symbol: "n_p",
      },
      tile_bits: {
        unit: "1",
        formula: "rows * columns * decks * bits_per_cell / cells_per_bit",
        meaning: "bits that one tile stores",
        source: "this project",
      },
      tiles_per_bank: {
        unit: "1",
        formula: "ceil(capacity * coded_word / word / (banks * tile_bits))",
        meaning: "tiles of a bank: enough for its share of the capacity",
        source: "this project",
        symbol: "n_{tile}",
      },
      tiles: {
        unit: "1",
        formula: "banks * tiles_per_bank",
        meaning: "tiles of the macro",
        source: "this project",
        symbol: "N_{tile}",
      },
      tile_cells: {
        unit: "1",
        formula: "physical_rows * physical_columns * decks",
        meaning: "cells of one tile, spares included",
        source: "this project",
      },
      cells: {
        unit: "1",
        formula: "tiles * tile_cells",
        meaning: "cells of the macro, spares included",
        source: "this project",
        symbol: "N_{cell}",
      },
      sense_amplifiers: {
        unit: "1",
        formula: "max(1, ceil(columns / (amplifier_share * cells_per_bit)))",
        meaning: "sense amplifiers of one tile",
        source: "this project",
        symbol: "n_{sense}",
      },
      data_ports: {
        unit: "1",
        formula: "max(1, ceil(columns / (column_share * cells_per_bit)))",
        meaning: "symbols of a tile that enter or leave it at once",
        source: "this project",
        symbol: "n_{port}",
      },
      tiles_active: {
        unit: "1",
        formula: "ceil(coded_word / (data_ports * bits_per_cell))",
        meaning: "tiles that one access wakes, all in one bank",
        source: "this project",
      },
      cells_at_once: cellsAtOnce(limited),
      groups: {
        unit: "1",
        formula: "ceil(word_cells / cells_at_once)",
        meaning: "groups of cells that are written one after another",
        source: "this project",
      },
      write_current_left: {
        unit: "A",
        formula: limited ? "write_current_budget - write_current" : "write_current_budget",
        meaning: "what the write of a single cell leaves of the current that the macro may draw",
        source: "this project",
      },
    },
  });

/** How a capacity is cut into tiles and banks, and which of them an access wakes. */
export const organisation = build(true);
/** The same for cells whose write needs no steady current. */
export const plainOrganisation = build(false);

import { sheet } from "../formulas/sheet.ts";

/** Length, resistance and capacitance of the row and column wires of one tile. */
export const lineLoads = sheet({
  name: "line_loads",
  title: "Row and column wires of a tile",
  about:
    "Lengths follow from the cell's outline and the number of cells; capacitance is that of the " +
    "wire and of what each " +
    "cell hangs on it. Well straps between the cells and dummy cells along the edges make a " +
    "line longer; dummies hang on " +
    "the crossing lines alone and are not counted as load. The wire is distributed: see the " +
    "line delay.",
  inputs: {
    physical_rows: { unit: "1", meaning: "row wires of a tile", symbol: "m_p" },
    physical_columns: { unit: "1", meaning: "cells of a row", symbol: "n_p" },
    strap_share: { unit: "1", meaning: "length of well straps over that of the cells" },
    edge_cells: { unit: "1", meaning: "dummy cells at each end of a line" },
    cell_width: { unit: "m", meaning: "outline of the cell along the row", symbol: "w_c" },
    cell_height: { unit: "m", meaning: "outline of the cell along the column", symbol: "h_c" },
    row_load: { unit: "F", meaning: "load of one cell on its row wire", symbol: "C_{r}" },
    column_load: { unit: "F", meaning: "load of one cell on its column wire", symbol: "C_{c}" },
    row_wire_resistance_per_length: { unit: "ohm/m", meaning: "row wire resistance per length" },
    row_wire_capacitance_per_length: { unit: "F/m", meaning: "row wire capacitance per length" },
    column_wire_resistance_per_length: {
      unit: "ohm/m",
      meaning: "column wire resistance per length",
    },
    column_wire_capacitance_per_length: {
      unit: "F/m",
      meaning: "column wire capacitance per length",
    },
  },
  formulas: {
    row_length: {
      unit: "m",
      formula: "(physical_columns * (1 + strap_share) + 2 * edge_cells) * cell_width",
      meaning: "length of a row wire",
      source: "this project",
      symbol: "L_r",
    },
    column_length: {
      unit: "m",
      formula: "(physical_rows * (1 + strap_share) + 2 * edge_cells) * cell_height",
      meaning: "length of a column wire",
      source: "this project",
      symbol: "L_c",
    },
    row_resistance: {
      unit: "ohm",
      formula: "row_length * row_wire_resistance_per_length",
      meaning: "resistance of a whole row wire",
      source: "dic",
      symbol: "R_r",
    },
    column_resistance: {
      unit: "ohm",
      formula: "column_length * column_wire_resistance_per_length",
      meaning: "resistance of a whole column wire",
      source: "dic",
      symbol: "R_c",
    },
    row_capacitance: {
      unit: "F",
      formula: "row_length * row_wire_capacitance_per_length + physical_columns * row_load",
      meaning: "capacitance of a row wire with its cells",
      source: "dic",
      symbol: "C_{row}",
    },
    column_capacitance: {
      unit: "F",
      formula: "column_length * column_wire_capacitance_per_length + physical_rows * column_load",
      meaning: "capacitance of a column wire with its cells",
      source: "dic",
      symbol: "C_{col}",
    },
  },
});

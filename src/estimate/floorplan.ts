import { formula, model } from "../models/define.ts";
import { lineLoads } from "./geometry.ts";
import { definitionsOf } from "./names.ts";
import { organisation } from "./organisation.ts";

/**
 * Where the parts of a tile go. The area of parts comes in as two sums, which `parts.ts` writes: `row_side_area` and
 * `column_side_area`, of one tile.
 */
export const floorplan = model({
  name: "floorplan",
  title: "Floor plan of a tile",
  about:
    "Row decoder and drivers stand along one side of the array, everything of the columns along " +
    "another; where the two " +
    "strips meet, a corner stays empty, or is filled by folding the strips until only a share " +
    "of them is lost. Where the cells have no transistor, a share of both strips may lie " +
    "beneath the " +
    "array, no more than fits.",
  inputs: {
    ...definitionsOf(organisation, lineLoads),
    row_side_area: { unit: "m^2", meaning: "area of one tile's parts along the rows" },
    column_side_area: { unit: "m^2", meaning: "area of one tile's parts along the columns" },
    side_area_without_data_drivers: {
      unit: "m^2",
      meaning: "area of one tile's parts without those that drive data across the macro",
    },
    periphery_beneath: { unit: "1", meaning: "share of a tile's periphery beneath its array" },
    largest_corner_share: {
      unit: "1",
      meaning: "largest empty corner over the periphery beside the array",
    },
    cell_width: { unit: "m", meaning: "outline of the cell along the row", symbol: "w_c" },
    cell_height: { unit: "m", meaning: "outline of the cell along the column", symbol: "h_c" },
  },
  formulas: {
    tile_array_area: formula(
      "m^2",
      "row_length * column_length",
      "area of one tile's array",
      "this project",
      { symbol: "A_{array}", note: "decks lie above each other" },
    ),
    beneath_share: formula(
      "1",
      "min(periphery_beneath, tile_array_area / (row_side_area + column_side_area))",
      "share of the periphery that lies beneath the array",
      "this project",
    ),
    beside_share: formula(
      "1",
      "1 - beneath_share",
      "share of the periphery that lies beside the array",
      "this project",
    ),
    row_strip_width: formula(
      "m",
      "row_side_area * beside_share / column_length",
      "width of the strip along the rows' ends",
      "this project",
    ),
    column_strip_height: formula(
      "m",
      "column_side_area * beside_share / row_length",
      "height of the strip along the columns' ends",
      "this project",
    ),
    corner_area: formula(
      "m^2",
      "min(row_strip_width * column_strip_height, largest_corner_share * beside_share * " +
        "(row_side_area + column_side_area))",
      "empty corner between the strips",
      "this project",
      { note: "a small array with a large periphery is laid out folded" },
    ),
    tile_area: formula(
      "m^2",
      "tile_array_area + beside_share * (row_side_area + column_side_area) + corner_area",
      "area of one tile",
      "this project",
      { symbol: "A_{tile}" },
    ),
    macro_side: formula(
      "m",
      "sqrt(tiles * (tile_array_area + side_area_without_data_drivers))",
      "side of a square that holds all tiles",
      "this project",
      { symbol: "L_{macro}", note: "without the data drivers, which this length sizes" },
    ),
  },
});

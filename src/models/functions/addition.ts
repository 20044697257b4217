/** What a function adds to static cells: the published cell less its memory cells. */
import { given, part } from "./define.ts";

/**
 * Devices beside the memory cells of one element of a function. Bind `memory_cells` [1] to how many
 * static cells the published circuit has inside.
 */
export const cellAddition = part({
  name: "cell_addition",
  title: "Devices beside the memory cells",
  about:
    "The published circuit, such as a match cell or a routing switch, less its six-transistor " +
    "cells, which the memory counts. The same holds for its area.",
  inputs: {
    memory_cells: { unit: "1", meaning: "six-transistor cells inside the published circuit" },
    published_transistors: { unit: "1", meaning: "transistors of the published circuit" },
    published_area_ratio: { unit: "1", meaning: "area of the published circuit over a 6T cell" },
  },
  formulas: {
    transistors: given(
      "published_transistors - memory_cells * cell_transistors",
      "1",
      "transistors beside the memory cells",
    ),
    area: given(
      "max(0, published_area_ratio - memory_cells) * sram_6t_area",
      "m^2",
      "area beside the memory cells",
    ),
    growth: given(
      "sqrt(max(1, published_area_ratio / memory_cells))",
      "1",
      "length of the lines over that of the memory cells alone",
      "this project",
      "the added devices widen both pitches alike",
    ),
    energy: given("0", "J", "counted with the lines that the devices drive"),
  },
});

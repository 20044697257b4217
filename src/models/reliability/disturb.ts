/** Disturb: how often a cell is half-selected, and what that adds up to. */
import { formula, reliabilitySheet } from "./define.ts";

export const disturbCounts = reliabilitySheet(
  "disturb_counts",
  "Half-selected junctions and exposures",
  "One-half bias. A full rewrite writes every cell of the tile once. Cells of a row that are " +
    "written at once do not disturb each other along the row.",
  {
    half_selected: formula(
      "1",
      "rows + columns - 2",
      "half-selected junctions of one access",
      "counting",
    ),
    unselected: formula(
      "1",
      "(rows - 1) * (columns - 1)",
      "unselected junctions of one access",
      "counting",
    ),
    rewrite_exposures: formula(
      "1",
      "rows * columns * half_selected",
      "exposures of all cells in a full rewrite, cell by cell",
      "counting",
    ),
    row_exposures: formula(
      "1",
      "columns / parallel_cells - 1",
      "exposures of a cell by its row in a full rewrite",
      "counting",
    ),
    column_exposures: formula(
      "1",
      "rows - 1",
      "exposures of a cell by its column in a full rewrite",
      "counting",
    ),
    cell_exposures: formula(
      "1",
      "row_exposures + column_exposures",
      "exposures of a cell in a full rewrite",
      "counting",
    ),
  },
);

export const disturbErrors = reliabilitySheet(
  "disturb_errors",
  "Bits flipped by disturb",
  "Each exposure flips a cell with the same small probability.",
  {
    cell_disturbed: formula(
      "1",
      "-expm1(exposures * log1p(-disturb))",
      "probability that a cell was flipped",
      "counting",
    ),
    macro_disturbed: formula(
      "1",
      "-expm1(cells * exposures * log1p(-disturb))",
      "probability that any cell was flipped",
      "counting",
    ),
    allowed_exposures: formula(
      "1",
      "log1p(-macro_loss_target) / (cells * log1p(-disturb))",
      "exposures that keep the macro below its target",
      "counting",
    ),
  },
);

export const disturbKinetics = reliabilitySheet(
  "disturb_kinetics",
  "Disturb of a sinh switching law",
  "The rate of switching goes as sinh(V/V0). Ratios of sinh are written as cosh, which overflows " +
    "later and cancels nowhere; beyond V/V0 = 1400 the result is refused as not finite.",
  {
    half_voltage_slowdown: formula(
      "1",
      "2 * cosh(write_voltage / (2 * rate_voltage))",
      "switching time at half the voltage over that at the voltage",
      "ionic",
      { note: "sinh(2x)/sinh(x) = 2 cosh(x)" },
    ),
    third_voltage_slowdown: formula(
      "1",
      "1 + 2 * cosh(2 * write_voltage / (3 * rate_voltage))",
      "switching time at a third of the voltage over that at the voltage",
      "ionic",
      { note: "sinh(3x)/sinh(x) = 1 + 2 cosh(2x)" },
    ),
    half_voltage_exposures: formula(
      "1",
      "floor(half_voltage_slowdown / disturb_margin)",
      "write pulses at half the voltage that a state survives",
      "ionic",
    ),
  },
);

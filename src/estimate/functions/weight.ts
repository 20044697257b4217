import {
  accumulator,
  adderShare,
  columnConverter,
  columnCurrent,
  partialProduct,
} from "../../models/functions/index.ts";
import {
  composed,
  type FunctionDefinition,
  type FunctionPart,
  operation,
  type Side,
} from "./side.ts";

const WEIGHTS = "function_capacity / weight_bits";

const accumulators = (count: string): FunctionPart => ({
  name: "accumulators",
  prefix: "accumulator_",
  sheet: accumulator,
  bind: { summed: "rows" },
  boundary: "tile",
  count,
  active: "1 / rows",
});

const digital: Side = {
  memory: { of: "baseline", cell: "sram-6t" },
  sheets: [],
  parts: [
    {
      name: "partial products",
      prefix: "product_",
      sheet: partialProduct,
      boundary: "cell",
      count: WEIGHTS,
      active: "1",
    },
    {
      name: "adder trees",
      prefix: "adder_",
      sheet: adderShare,
      bind: { summed: "rows" },
      boundary: "tile",
      count: WEIGHTS,
      active: "1",
    },
    accumulators(`${WEIGHTS} / rows`),
  ],
  formulas: operation(
    "0 * unit_gate_energy",
    "input_bits * (product_delay + adder_delay + accumulator_delay)",
  ),
};

const columns: Side = {
  memory: { of: "subject", form: "pair" },
  sheets: [
    {
      of: columnCurrent,
      prefix: "weight_current_",
      bind: { conversion_time: "converter_time" },
    },
  ],
  parts: [
    {
      name: "column converters",
      prefix: "column_converter_",
      sheet: columnConverter,
      boundary: "tile",
      count: "tiles * ceil(physical_columns * column_lines / columns_per_converter)",
      active: "weight_switches / (rows * columns_per_converter)",
    },
    accumulators(`${WEIGHTS} / rows * weight_slices`),
  ],
  formulas: [
    ...operation(
      "weight_current_energy",
      "input_bits * (row_driver_delay + row_line_delay + column_line_delay + " +
        "column_converter_delay + accumulator_delay)",
    ),
    composed(
      "weight_slices",
      "1",
      "ceil(weight_bits / bits_per_cell)",
      "places of a weight, each with as many bits as a cell holds",
    ),
    composed(
      "weight_switches",
      "1",
      "weight_slices * cells_per_bit * cell_switches",
      "switches of one weight: a pair for each place",
    ),
  ],
};

/** Weights with their multiplication. */
export const WEIGHTED: readonly FunctionDefinition[] = [
  {
    name: "weight",
    title: "Weight with its multiplication",
    element: "weight bits",
    operation: "one product added, the input bit by bit",
    levels: true,
    hybrid: columns,
    baseline: digital,
    leavesOut: [
      "Precision: a column of conductances adds noise, drift and the error of its converter; digital weights are exact",
      "A weight of several bits in one switch needs levels that it can hold",
    ],
  },
];

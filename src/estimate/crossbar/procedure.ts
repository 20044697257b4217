/** The network solve as a procedure, for every kind of selector and pair of schemes. */
import { type Procedure, procedure } from "../../formulas/sheet.ts";
import {
  type SchemePair,
  SOLVED_OUTPUTS,
  type SolvedOutput,
} from "../../models/crossbar/contract.ts";
import { inputsOf } from "../../models/define.ts";
import type { SelectorKind } from "../../models/selector/bias.ts";
import { junctionInputs, junctionOf } from "../../models/selector/current.ts";
import { selectorDefaults } from "../../models/selector/defaults.ts";
import { unselectedJunction } from "../../models/selector/elements.ts";
import type { JunctionKind } from "../../numerics/crossbar/index.ts";
import { type CornerCase, solveCorner, type Work } from "./solve.ts";

type Values = Readonly<Record<string, number>>;

const TILE = [
  "rows",
  "columns",
  "row_segment_resistance",
  "column_segment_resistance",
  "array_read_voltage",
  "array_write_voltage",
  "switch_write_current",
];
const OWN = {
  row_segment_resistance: { unit: "ohm", meaning: "row wire between two cells" },
  column_segment_resistance: { unit: "ohm", meaning: "column wire between two cells" },
};
export const SOLVED_NAMES = Object.keys(SOLVED_OUTPUTS) as readonly SolvedOutput[];

/** What a solve reads. */
export function solveInputs(kind: SelectorKind): readonly string[] {
  return [...TILE, ...junctionInputs(kind).filter((name) => name !== "junction_voltage")];
}

/** The selected junction as an element of the solver, where its two elements say it exactly. */
function selectedElement(kind: SelectorKind, values: Values, on: boolean) {
  if (kind === "threshold") return undefined;
  if (kind === "complementary" && on) {
    return { element: { law: "ohmic", resistance: 2 * values["on_resistance"]! } } as JunctionKind;
  }
  if (!on && (kind === "diode" || kind === "mixed_conductor")) return undefined;
  return unselectedJunction(kind, values, on);
}

/** The case of a tile from the values of `solveInputs`. */
export function cornerCase(kind: SelectorKind, schemes: SchemePair, values: Values): CornerCase {
  const state = (on: boolean) => {
    const element = selectedElement(kind, values, on);
    const { selected } = junctionOf(kind, values, on);
    return element === undefined ? { law: selected } : { law: selected, element };
  };
  return {
    tile: {
      rows: values["rows"]!,
      columns: values["columns"]!,
      rowSegment: values["row_segment_resistance"]!,
      columnSegment: values["column_segment_resistance"]!,
      on: unselectedJunction(kind, values, true),
      off: unselectedJunction(kind, values, false),
    },
    schemes,
    readVoltage: values["array_read_voltage"]!,
    writeVoltage: values["array_write_voltage"]!,
    writeCurrent: values["switch_write_current"]!,
    selected: { on: state(true), off: state(false) },
  };
}

/** `crossbar_solve`: the outputs of the crossbar's contract by solving the whole network. */
export function crossbarSolve(kind: SelectorKind, schemes: SchemePair, work?: Work): Procedure {
  const names = solveInputs(kind);
  return procedure({
    name: "crossbar_solve",
    title: "Far corner of a crossbar, solved",
    about:
      "All wires and junctions of the tile by Newton's method to a Kirchhoff error of 1e-10: " +
      "two reads, each with the data that are worst for it, and the write that gives the far " +
      "corner its voltage. A written cell is the resistance that draws its write current at its " +
      "write voltage. Drivers and sense amplifiers are ideal, one cell of the row is selected.",
    source: "this project",
    inputs: inputsOf(names, OWN, selectorDefaults),
    outputs: Object.fromEntries(
      SOLVED_NAMES.map((name) => {
        const [unit, meaning] = SOLVED_OUTPUTS[name];
        return [name, { unit, meaning }];
      }),
    ),
    run(inputs, outputs) {
      const values = Object.fromEntries(names.map((name, k) => [name, inputs[k]!]));
      const result = solveCorner(cornerCase(kind, schemes, values), work);
      SOLVED_NAMES.forEach((name, k) => {
        outputs[k] = result[name];
      });
    },
  });
}

/** The procedure of a bare junction, which stands for all: selectors add their figures. */
export const bareSolve: Procedure = crossbarSolve("none", { read: "grounded", write: "one-half" });

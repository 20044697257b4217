/** Ladders along the selected row and column, for each question that data and voltages decide. */
import type { FormulaDefinition, Instance, Sheet } from "../../../formulas/sheet.ts";
import { formula, model } from "../../define.ts";
import type { Scheme } from "../contract.ts";
import { type Question, WORST } from "../patterns.ts";
import { lineLadder } from "./ladder.ts";
import { fill, TERMS } from "./levels.ts";

/** Segments and counts that reads and writes share. */
export const crossbarLines: Sheet = model({
  name: "crossbar_lines",
  title: "Lines of a crossbar",
  about: "Wires between two cells, and the unselected junctions of a line.",
  formulas: {
    row_segment_resistance: formula(
      "ohm",
      "cell_width * row_wire_resistance_per_length",
      "row wire between two cells",
      "dic",
    ),
    column_segment_resistance: formula(
      "ohm",
      "cell_height * column_wire_resistance_per_length",
      "column wire between two cells",
      "dic",
    ),
    row_junctions: formula("1", "columns - 1", "unselected junctions of the selected row"),
    column_junctions: formula("1", "rows - 1", "unselected junctions of the selected column"),
  },
});

/** Names of what a view of both lines gives. */
export const viewNames = (view: string) => ({
  share: `${view}_open_share`,
  resistance: `${view}_path_resistance`,
  columnLeak: `${view}_column_leak`,
  rowLeak: `${view}_row_leak`,
});

/**
 * What the far corner sees of the selected row and column, for one question.
 *
 * @param at read or write
 * @returns formulas of `viewNames`, and of what its ladders read
 */
export function viewFormulas(
  scheme: Scheme,
  at: "read" | "write",
  question: Question,
): Record<string, FormulaDefinition> {
  const terms = TERMS[scheme];
  const { row, column } = WORST[scheme][question];
  const voltage = `array_${at}_voltage`;
  const columnAt = terms.columnCurrentAt ?? terms.row;
  const names = viewNames(question);
  const drops =
    `1 - (${terms.column}) * (1 - ${question}_row_ladder_share)` +
    ` - (${terms.row}) * (1 - ${question}_column_ladder_share)`;
  return {
    [`${question}_row_conductance`]: formula(
      "1/ohm",
      `${fill(terms.rowCurrent, at, row)} / ((${terms.column}) * ${voltage})`,
      `conductance of an unselected junction of the selected row, ${row ? "on" : "off"}`,
    ),
    [`${question}_column_conductance`]: formula(
      "1/ohm",
      `${fill(terms.columnCurrent, at, column)} / ((${columnAt}) * ${voltage})`,
      `conductance of an unselected junction of the selected column, ${column ? "on" : "off"}`,
    ),
    [names.share]: formula(
      "1",
      `max(${drops}, 1e-9)`,
      "voltage of the open far corner over the applied one",
      "cross",
      { note: "never zero: an array that gets nothing is refused by its delivery" },
    ),
    [names.resistance]: formula(
      "ohm",
      `${question}_row_ladder_resistance + ${question}_column_ladder_resistance`,
      "resistance of row and column that the far corner sees",
      "cross",
    ),
    [names.rowLeak]: formula(
      "A",
      `(${terms.column}) * ${voltage} * ${question}_row_conductance * ${question}_row_ladder_count`,
      "current of the unselected cells of the selected row",
      "this project",
      { note: "far corner open: an upper bound" },
    ),
    [names.columnLeak]: formula(
      "A",
      `(${terms.row}) * ${voltage} * ${question}_column_conductance * ` +
        `${question}_column_ladder_count`,
      "current of the unselected cells of the selected column",
      "this project",
      { note: "far corner open: an upper bound" },
    ),
  };
}

/** The two ladders of a question. */
export function viewLadders(question: Question): Instance[] {
  return (["row", "column"] as const).map((line) => ({
    of: lineLadder,
    prefix: `${question}_${line}_`,
    bind: {
      ladder_junctions: `${line}_junctions`,
      ladder_segment: `${line}_segment_resistance`,
      ladder_conductance: `${question}_${line}_conductance`,
    },
  }));
}

const LADDER_OUTPUTS: Readonly<Record<string, readonly [unit: string, meaning: string]>> = {
  ladder_share: ["1", "what is left of the voltage at the open far end"],
  ladder_count: ["1", "current of all unselected junctions over that of the one at the driver"],
  ladder_resistance: ["ohm", "resistance that the far corner sees"],
};

/** What sheets read of the ladders of a question. */
export function ladderInputs(question: Question) {
  return Object.fromEntries(
    ["row", "column"].flatMap((line) =>
      Object.entries(LADDER_OUTPUTS).map(([name, [unit, meaning]]) => [
        `${question}_${line}_${name}`,
        { unit, meaning: `${line}: ${meaning}` },
      ]),
    ),
  );
}

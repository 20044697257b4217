/** Closed forms of a read, by bias scheme. */
import type { FormulaDefinition, Sheet } from "../../../formulas/sheet.ts";
import { formula, model } from "../../define.ts";
import type { Scheme } from "../contract.ts";
import { corrected, correctionInputs } from "./corrected.ts";
import { TERMS } from "./levels.ts";
import { ladderInputs, viewFormulas, viewNames } from "./lines.ts";

const on = viewNames("read_on");
const off = viewNames("read_off");

/**
 * Current of the selected cell behind the lines: exact for ohmic cells and for any power law that
 * has its current and slope.
 */
const behind = (state: "on" | "off") => {
  const { share, resistance } = state === "on" ? on : off;
  const current = `read_${state}_full`;
  const slope = `read_${state}_slope`;
  // A junction below its hold voltage carries nothing, and must not divide by that.
  const carried = `max(${current}, 1e-12 * ${slope} * array_read_voltage)`;
  return (
    `${current} * ${share}^(${slope} * array_read_voltage / ${carried})` +
    ` / (1 + ${slope} * ${resistance})`
  );
};

/** What reaches the sense amplifier of a cell's current: the ladder is the same both ways. */
const sensed = (state: "on" | "off") =>
  `closed_cell_${state}_current * read_${state}_column_ladder_share`;

function readFormulas(scheme: Scheme): Record<string, FormulaDefinition> {
  const ladderNote = { note: "a power law through its current and slope, behind the lines" };
  return {
    row_bias_share: formula("1", TERMS[scheme].row, "level of an unselected row, in a read"),
    column_bias_share: formula(
      "1",
      `1 - ${TERMS[scheme].column}`,
      "level of an unselected column, in a read",
    ),
    ...viewFormulas(scheme, "read", "read_on"),
    ...viewFormulas(scheme, "read", "read_off"),
    ...corrected({
      cell_on_current: formula(
        "A",
        behind("on"),
        "current of the far-corner cell, on, worst pattern",
        "this project",
        ladderNote,
      ),
      cell_off_current: formula(
        "A",
        behind("off"),
        "current of the far-corner cell, off, worst pattern",
        "this project",
        ladderNote,
      ),
      read_on_column_current: formula(
        "A",
        `${sensed("on")} + ${on.columnLeak}`,
        "least current of the selected column with its cell on",
      ),
      read_off_column_current: formula(
        "A",
        `${sensed("off")} + ${off.columnLeak}`,
        "largest current of the selected column with its cell off",
      ),
      column_leak_current: formula(
        "A",
        off.columnLeak,
        "largest current of the unselected cells of a column",
      ),
      row_leak_current: formula(
        "A",
        `max(${on.rowLeak}, ${off.rowLeak})`,
        "largest current of the unselected cells of the selected row",
      ),
      read_line_drop: formula(
        "V",
        `array_read_voltage * (1 - ${on.share}) + closed_cell_on_current * ${on.resistance}`,
        "voltage lost on the way to the far corner in a read",
        "cross",
      ),
    }),
    read_margin_current: formula(
      "A",
      "read_on_column_current - read_off_column_current",
      "least difference between the two states",
      "this project",
      { note: "each state read with the other data that are worst for it" },
    ),
  };
}

/** The closed forms of a read. */
export const readForms = Object.fromEntries(
  (Object.keys(TERMS) as Scheme[]).map((scheme) => [
    scheme,
    model({
      name: `crossbar_read_${scheme.replace("-", "_")}`,
      title: `Read of a crossbar, ${scheme} scheme`,
      about:
        "The far corner behind the ladders of its row and column, each state with the data that " +
        "are worst for it; unselected lines, drivers and sense amplifiers are ideal. One cell of " +
        "the row is read at a time, except with grounded lines, where all columns are at the same " +
        "level. Each result is multiplied by its ratio to the full network solve, which is 1 " +
        "where the lines take so little that the closed form holds.",
      inputs: {
        ...ladderInputs("read_on"),
        ...ladderInputs("read_off"),
        ...correctionInputs,
      },
      formulas: readFormulas(scheme),
    }),
  ]),
) as Readonly<Record<Scheme, Sheet>>;

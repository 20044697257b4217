/** Closed forms of a write, by bias scheme. */
import type { FormulaDefinition, Sheet } from "../../../formulas/sheet.ts";
import { formula, model } from "../../define.ts";
import type { Scheme } from "../contract.ts";
import { corrected, correctionInputs } from "./corrected.ts";
import { fill, TERMS } from "./levels.ts";
import { ladderInputs, viewFormulas, viewNames } from "./lines.ts";

const { share, resistance, rowLeak, columnLeak } = viewNames("delivery");
/** Voltage at the driver for a cell at the far corner, over that which the cell needs. */
const RAISED = "(1 + closed_write_line_drop / array_write_voltage)";

/** Power in the junctions on neither selected line, all on. */
const REST: Readonly<Record<Scheme, string>> = {
  floating: "",
  grounded: "",
  "one-half": "",
  "one-third": " + row_junctions * column_junctions * array_write_voltage / 3 * write_on_third",
};

function power(scheme: Scheme): string {
  const { row, column } = TERMS[scheme];
  if (scheme === "floating") {
    return `array_write_voltage * write_sneak_on_sneak_current * ${RAISED}^2`;
  }
  const lines =
    `(${column}) * array_write_voltage * ${rowLeak} + ` +
    `(${row}) * array_write_voltage * ${columnLeak}`;
  return `(${lines}${REST[scheme]}) * ${RAISED}^2`;
}

function writeFormulas(scheme: Scheme): Record<string, FormulaDefinition> {
  return {
    half_select_share: formula(
      "1",
      TERMS[scheme].share,
      "largest voltage of an unselected junction over the selected one's",
    ),
    write_row_bias_share: formula("1", TERMS[scheme].row, "level of an unselected row, in a write"),
    write_column_bias_share: formula(
      "1",
      `1 - ${TERMS[scheme].column}`,
      "level of an unselected column, in a write",
    ),
    disturb_on_current: formula(
      "A",
      fill(TERMS[scheme].shareCurrent, "write", true),
      "current of the unselected junction with the largest voltage, on",
    ),
    disturb_off_current: formula(
      "A",
      fill(TERMS[scheme].shareCurrent, "write", false),
      "current of the unselected junction with the largest voltage, off",
    ),
    ...viewFormulas(scheme, "write", "delivery"),
    ...corrected({
      write_line_drop: formula(
        "V",
        `(array_write_voltage + switch_write_current * ${resistance}) / ${share}` +
          " - array_write_voltage",
        "voltage beyond the cell's own at the driver, for the far corner",
        "cross",
      ),
      write_delivered_voltage: formula(
        "V",
        `array_write_voltage * ${share} / (1 + switch_write_current / array_write_voltage * ` +
          `${resistance})`,
        "junction voltage at the far corner with the cell's own voltage at the driver",
        "this project",
        { note: "the cell is the resistance that draws its write current at its write voltage" },
      ),
      write_leak_current: formula(
        "A",
        `${rowLeak} * ${RAISED}`,
        "current of all half-selected cells of the selected row",
      ),
      half_selected_power: formula(
        "W",
        power(scheme),
        "power in the unselected junctions during a write, all on",
      ),
      disturb_voltage: formula(
        "V",
        "half_select_share * (array_write_voltage + closed_write_line_drop)",
        "largest voltage of an unselected junction in a write",
      ),
    }),
    write_delivery_share: formula(
      "1",
      "write_delivered_voltage / array_write_voltage",
      "share of the write voltage that reaches the far corner",
    ),
    write_delivery_margin: formula(
      "1",
      "write_delivery_share - least_write_delivery",
      "share that reaches the far corner beyond the least that is allowed",
    ),
  };
}

/** The closed forms of a write. */
export const writeForms = Object.fromEntries(
  (Object.keys(TERMS) as Scheme[]).map((scheme) => [
    scheme,
    model({
      name: `crossbar_write_${scheme.replace("-", "_")}`,
      title: `Write of a crossbar, ${scheme} scheme`,
      about:
        "The far corner behind the ladders of its row and column, all other cells on; unselected " +
        "lines and drivers are ideal, and one cell of the row is written at a time. Drivers give " +
        "the far corner what its lines take; leak, power and disturbance are at that voltage. " +
        "Each result is multiplied by its ratio to the full network solve.",
      inputs: {
        ...ladderInputs("delivery"),
        ...correctionInputs,
        row_junctions: { unit: "1", meaning: "unselected junctions of the selected row" },
        column_junctions: { unit: "1", meaning: "unselected junctions of the selected column" },
        least_write_delivery: {
          unit: "1",
          meaning: "least share of the write voltage at the far corner",
        },
      },
      formulas: writeFormulas(scheme),
    }),
  ]),
) as Readonly<Record<Scheme, Sheet>>;

/** What the bias schemes differ in: texts of formulas. */
import type { Scheme } from "../contract.ts";

/** `{at}` stands for read or write, `{s}` for on or off; voltages are shares of the applied one. */
export interface Terms {
  /** Level of an unselected row. */
  readonly row: string;
  /** Voltage between the selected row and an unselected column. */
  readonly column: string;
  /** Current of an unselected junction of the selected row, and of the selected column. */
  readonly rowCurrent: string;
  readonly columnCurrent: string;
  /** The voltage at which that column current flows, if not the level of the rows. */
  readonly columnCurrentAt?: string;
  /** Largest voltage of an unselected junction, and the current that it drives. */
  readonly share: string;
  readonly shareCurrent: string;
}

const ACROSS = "1 / max(columns - 1, 1)";
const DOWN = "1 / max(rows - 1, 1)";
const GROUPS = `(${ACROSS} + ${DOWN} + 1 / (max(rows - 1, 1) * max(columns - 1, 1)))`;

export const TERMS: Readonly<Record<Scheme, Terms>> = {
  floating: {
    row: `${DOWN} / ${GROUPS}`,
    column: `${ACROSS} / ${GROUPS}`,
    rowCurrent: "{at}_sneak_{s}_sneak_current / max(columns - 1, 1)",
    columnCurrent: "{at}_sneak_{s}_sneak_current / max(rows - 1, 1)",
    // Data that leave one group off put the whole voltage there.
    share: "1",
    shareCurrent: "{at}_{s}_unselected",
  },
  grounded: {
    row: "0",
    column: "1",
    rowCurrent: "{at}_{s}_unselected",
    columnCurrent: "{at}_{s}_third",
    columnCurrentAt: "1 / 3",
    share: "1",
    shareCurrent: "{at}_{s}_unselected",
  },
  "one-half": {
    row: "1 / 2",
    column: "1 / 2",
    rowCurrent: "{at}_{s}_half",
    columnCurrent: "{at}_{s}_half",
    share: "1 / 2",
    shareCurrent: "{at}_{s}_half",
  },
  "one-third": {
    row: "1 / 3",
    column: "1 / 3",
    rowCurrent: "{at}_{s}_third",
    columnCurrent: "{at}_{s}_third",
    share: "1 / 3",
    shareCurrent: "{at}_{s}_third",
  },
};

export const fill = (text: string, at: string, on: boolean): string =>
  text.replaceAll("{at}", at).replaceAll("{s}", on ? "on" : "off");

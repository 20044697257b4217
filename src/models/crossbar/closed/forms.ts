/**
 * Closed forms of a crossbar: ideal wires with the leak of each bias scheme, and the first-order
 * drop of the wires.
 */
import type { Instance, Sheet } from "../../../formulas/sheet.ts";
import { formula, model } from "../../define.ts";
import type { Scheme } from "../contract.ts";
import { sneakPath } from "./sneak.ts";

/**
 * What differs between the schemes: texts of formulas. `{at}` stands for read or write, `{s}` for
 * on or off.
 */
interface Terms {
  /** Current of one unselected junction of the selected row, and of the selected column. */
  readonly row: string;
  readonly column: string;
  readonly share: string;
  readonly rowShare: string;
  readonly columnShare: string;
  /** Power in the unselected junctions during a write. */
  readonly power: string;
}

const FLOATING_SHARE =
  "max(1 / max(rows - 1, 1), 1 / max(columns - 1, 1)) / (1 / max(rows - 1, 1) + 1 / " +
  "max(columns - 1, 1) + 1 / (max(rows - 1, 1) * max(columns - 1, 1)))";

const TERMS: Readonly<Record<Scheme, Terms>> = {
  floating: {
    row: "{at}_sneak_{s}_sneak_current / max(columns - 1, 1)",
    column: "{at}_sneak_{s}_sneak_current / max(rows - 1, 1)",
    share: FLOATING_SHARE,
    rowShare: "1 / 2",
    columnShare: "1 / 2",
    power: "array_write_voltage * write_sneak_on_sneak_current",
  },
  grounded: {
    row: "{at}_{s}_unselected",
    column: "0",
    share: "1",
    rowShare: "0",
    columnShare: "0",
    power: "array_write_voltage * (columns - 1) * write_on_unselected",
  },
  "one-half": {
    row: "{at}_{s}_half",
    column: "{at}_{s}_half",
    share: "1 / 2",
    rowShare: "1 / 2",
    columnShare: "1 / 2",
    power: "array_write_voltage / 2 * (rows + columns - 2) * write_on_half",
  },
  "one-third": {
    row: "{at}_{s}_third",
    column: "{at}_{s}_third",
    share: "1 / 3",
    rowShare: "1 / 3",
    columnShare: "2 / 3",
    power: "array_write_voltage / 3 * (rows * columns - 1) * write_on_third",
  },
};

const fill = (text: string, at: string, s: string) =>
  text.replaceAll("{at}", at).replaceAll("{s}", s);

function drop(at: "read" | "write", current: string): string {
  const line = (wire: string, count: string) =>
    `${wire}_segment_resistance * ((${count} - 1) * ${current}` +
    ` + (${count} - 1) * (${count} - 2) / 2 * ${at}_${wire}_leak)`;
  return `${line("row", "columns")} + ${line("column", "rows")}`;
}

function closedSheet(scheme: Scheme): Sheet {
  const terms = TERMS[scheme];
  return model({
    name: `crossbar_${scheme.replace("-", "_")}`,
    title: `Crossbar, ${scheme} scheme, closed forms`,
    about:
      "Ideal wires for the leak of unselected junctions; first-order drop of row and column " +
      "to the far corner, with every unselected junction on and drawing its ideal current all " +
      "along. The far-corner current so errs by less than the square of the drop over the " +
      "voltage (measured against the exact solve); the off current is that without drop. " +
      "Driver resistance is not part of it. Margins take the worst pattern for each state.",
    formulas: {
      half_select_share: formula(
        "1",
        terms.share,
        "largest voltage of an unselected junction over the selected one's",
      ),
      row_bias_share: formula(
        "1",
        terms.rowShare,
        "voltage of an unselected row over that of the selected row",
        "common practice",
      ),
      column_bias_share: formula(
        "1",
        terms.columnShare,
        "voltage of an unselected column over that of the selected row",
        "common practice",
      ),
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
      read_row_leak: formula(
        "A",
        fill(terms.row, "read", "on"),
        "current of an unselected cell of the selected row, on",
      ),
      read_column_leak: formula(
        "A",
        fill(terms.column, "read", "on"),
        "current of an unselected cell of the selected column, on",
      ),
      read_column_leak_off: formula(
        "A",
        fill(terms.column, "read", "off"),
        "current of an unselected cell of the selected column, off",
      ),
      write_row_leak: formula(
        "A",
        fill(terms.row, "write", "on"),
        "current of an unselected cell of the selected row in a write, on",
      ),
      write_column_leak: formula(
        "A",
        fill(terms.column, "write", "on"),
        "current of an unselected cell of the selected column in a write, on",
      ),
      read_line_drop: formula(
        "V",
        drop("read", "read_on_full"),
        "voltage lost on the way to the far corner in a read",
        "cross",
        {
          note: "the cell's current through n - 1 segments and equal sinks at all other junctions",
        },
      ),
      cell_on_current: formula(
        "A",
        "read_on_full / (1 + read_on_slope * read_line_drop / read_on_full)",
        "current of the far-corner cell, on, worst pattern",
        "this project",
        { note: "exact for an ohmic cell in series with the wires" },
      ),
      cell_off_current: formula(
        "A",
        "read_off_full",
        "current of the far-corner cell, off, worst pattern",
        "this project",
        { note: "no drop is the worse case" },
      ),
      column_leak_current: formula(
        "A",
        "(rows - 1) * read_column_leak",
        "largest current of the unselected cells of a column",
      ),
      row_leak_current: formula(
        "A",
        "(columns - 1) * read_row_leak",
        "largest current of the unselected cells of the selected row",
      ),
      read_margin_current: formula(
        "A",
        "cell_on_current - cell_off_current - (rows - 1) * (read_column_leak - " +
          "read_column_leak_off)",
        "least difference between the two states",
        "this project",
        { note: "reading on with all others off, reading off with all others on" },
      ),
      write_line_drop: formula(
        "V",
        drop("write", "switch_write_current"),
        "voltage lost on the way to the far corner in a write",
        "cross",
      ),
      write_delivered_voltage: formula(
        "V",
        "array_write_voltage - write_line_drop",
        "junction voltage at the far corner with that voltage at the edge",
        "this project",
        { note: "negative where the first order is far outside its range" },
      ),
      write_leak_current: formula(
        "A",
        "(columns - 1) * write_row_leak",
        "current of all half-selected cells of the selected row",
      ),
      half_selected_power: formula(
        "W",
        terms.power,
        "power in the unselected junctions during a write, all on",
      ),
      disturb_voltage: formula(
        "V",
        "half_select_share * array_write_voltage",
        "largest voltage of an unselected junction in a write",
      ),
    },
  });
}

export const crossbarForms: Readonly<Record<Scheme, Sheet>> = {
  floating: closedSheet("floating"),
  grounded: closedSheet("grounded"),
  "one-half": closedSheet("one-half"),
  "one-third": closedSheet("one-third"),
};

/** The closed forms of a scheme, with the sneak paths that floating lines need. */
export function closedCrossbar(scheme: Scheme): Instance[] {
  const sheets: Instance[] = [{ of: crossbarForms[scheme] }];
  if (scheme !== "floating") return sheets;
  for (const at of ["read", "write"]) {
    for (const state of ["on", "off"]) {
      if (at === "write" && state === "off") continue;
      sheets.push({
        of: sneakPath,
        prefix: `${at}_sneak_${state}_`,
        bind: {
          path_voltage: `array_${at}_voltage`,
          path_full: `${at}_${state}_unselected`,
          path_half: `${at}_${state}_half`,
        },
      });
    }
  }
  return sheets;
}

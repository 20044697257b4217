import type { Sheet } from "../../formulas/sheet.ts";
import { formula, model } from "../define.ts";
import { cellDefaults } from "./defaults.ts";

function dynamicCell(embedded: boolean): Sheet {
  return model({
    parameters: cellDefaults,
    name: embedded ? "cell_embedded_dram" : "cell_dram",
    title: embedded
      ? "One transistor and one capacitor beside logic"
      : "One transistor and one capacitor",
    about:
      "Columns rest at half of the supply; the cell shares its charge with one of them and " +
      "the amplifier restores both. " +
      (embedded
        ? "The area is a share of the node's 6T cell. "
        : "The area is given in squares of the half pitch of its own process. ") +
      "Signal current is the mean current while the charge is shared, so that a sense time " +
      "can be formed as for the others.",
    formulas: {
      cell_area: embedded
        ? formula(
            "m^2",
            "cell_area_to_sram_6t * sram_6t_area",
            "area of the cell",
            "edram-cell-22nm",
            { symbol: "A_c" },
          )
        : formula(
            "m^2",
            "cell_area_in_feature_squared * feature^2",
            "area of the cell",
            "dram-175nm-1gb",
            { symbol: "A_c" },
          ),
      cell_width: formula(
        "m",
        "sqrt(cell_area * dynamic_aspect)",
        "outline along the row",
        "common practice",
      ),
      cell_height: formula(
        "m",
        "sqrt(cell_area / dynamic_aspect)",
        "outline along the column",
        "common practice",
      ),
      cell_transistors: formula("1", "1", "transistors of the cell", "dic"),
      cell_switches: formula("1", "0", "switches of the cell"),
      column_lines: formula("1", "1", "column wires of the cell", "dic"),
      row_lines: formula("1", "1", "row wires of the cell", "dic"),
      dynamic_access_width: formula(
        "m",
        embedded ? "minimum_width" : "feature",
        "width of the access device",
        "common practice",
      ),
      dynamic_access_resistance: formula(
        "ohm",
        "dynamic_resistance_ratio * unit_resistance_n / dynamic_access_width",
        "resistance of the access device",
        "common practice",
        { note: "its threshold is high so that it holds the charge" },
      ),
      row_load: formula(
        "F",
        "gate_capacitance * dynamic_access_width",
        "load on the row",
        "cmosvlsi",
      ),
      column_load: formula(
        "F",
        "drain_capacitance * dynamic_access_width * shared_drain_share",
        "load on the column",
        "cmosvlsi",
      ),
      row_swing: formula("V", "dynamic_boost * supply", "swing of the row", "common practice", {
        note: "boosted, so that the whole level is restored",
      }),
      write_row_swing: formula("V", "row_swing", "swing of the row in a write", "common practice"),
      column_swing: formula("V", "supply / 2", "by how much a column moves in a read", "dic", {
        note: "the amplifier restores the whole level",
      }),
      write_column_swing: formula(
        "V",
        "supply / 2",
        "by how much a column moves in a write",
        "dic",
      ),
      signal_voltage: formula(
        "V",
        "supply / 2 * storage_capacitance / (storage_capacitance + column_capacitance)",
        "signal on the column after charge sharing",
        "dic",
        { symbol: "\\Delta V" },
      ),
      sharing_time: formula(
        "s",
        "log(10) * dynamic_access_resistance * storage_capacitance * column_capacitance / " +
          "(storage_capacitance + column_capacitance)",
        "time until nine tenths of the charge is shared",
        "dic",
      ),
      cell_on_current: formula(
        "A",
        "signal_voltage * column_capacitance / sharing_time",
        "mean current of charge sharing",
        "dic",
      ),
      cell_off_current: formula("A", "0", "current of the reference state", "this project", {
        note: "the column at half of the supply is the reference",
      }),
      column_leak_current: formula(
        "A",
        "(rows - 1) * storage_capacitance * supply / (2 * retention_time)",
        "current of the unselected cells of a column",
        "this project",
        { note: "at most half of the charge per retention time each" },
      ),
      signal_current: formula("A", "cell_on_current", "current that moves the column"),
      read_static_current: formula("A", "0", "current of a sensed column", "this project", {
        note: "none after the charge is shared",
      }),
      cell_standby_power: formula("W", "0", "power beside refresh", "this project", {
        note: "none",
      }),
      write_current: formula(
        "A",
        "supply / (2 * dynamic_access_resistance)",
        "current at the driver",
        "dic",
      ),
      write_voltage: formula(
        "V",
        "supply",
        "voltage of the columns while a cell is written",
        "dic",
        {
          note: "the row is boosted beyond it, but carries no current: see its swing",
        },
      ),
      write_time: formula(
        "s",
        "3 * dynamic_access_resistance * storage_capacitance",
        "time to write the cell",
        "dic",
        { note: "three time constants" },
      ),
      write_cell_energy: formula(
        "J",
        "data_flip_share * storage_capacitance * supply^2",
        "energy in the cell per written bit",
        "dic",
      ),
      stored_energy: formula(
        "J",
        "storage_capacitance * supply^2 / 2",
        "energy that restores the cell",
        "dic",
      ),
      restore_swing: formula("V", "supply / 2", "swing of the column in a refresh", "dic"),
      read_is_destructive: formula("1", "1", "1 where a read needs a write back", "dic"),
      erase_time: formula("s", "0", "time to erase a block", "this project", { note: "none" }),
    },
  });
}

export const dram = dynamicCell(false);
export const embeddedDram = dynamicCell(true);

import { formula, model } from "../define.ts";
import { cellDefaults } from "./defaults.ts";

/** The floating-gate cell of a common-source array. */
export const floatingGate = model({
  parameters: cellDefaults,
  name: "cell_floating_gate",
  title: "Floating-gate cell, common-source array",
  about:
    "One device per cell, read by its current at a gate voltage between the two thresholds; " +
    "programmed cell by cell, erased by the block. Voltages and times are typical figures, " +
    "not laws. The load of a row is the series of the insulator between the gates and the " +
    "tunnel oxide.",
  formulas: {
    cell_area: formula(
      "m^2",
      "cell_area_in_feature_squared * feature^2",
      "area of the cell",
      "typical-classes",
      { symbol: "A_c" },
    ),
    cell_width: formula(
      "m",
      "sqrt(cell_area / flash_aspect)",
      "outline along the row",
      "common practice",
    ),
    cell_height: formula(
      "m",
      "sqrt(cell_area * flash_aspect)",
      "outline along the column",
      "common practice",
    ),
    cell_transistors: formula("1", "1", "transistors of the cell", "dic"),
    cell_switches: formula("1", "0", "switches of the cell"),
    column_lines: formula("1", "1", "column wires of the cell", "dic"),
    row_lines: formula("1", "1", "row wires of the cell", "dic"),
    row_load: formula(
      "F",
      "gate_coupling * vacuum_permittivity * oxide_permittivity * feature^2 / " +
        "tunnel_oxide_thickness",
      "load on the row",
      "dic",
      { note: "coupling times the tunnel oxide's capacitance" },
    ),
    column_load: formula(
      "F",
      "drain_capacitance * feature * shared_drain_share",
      "load on the column",
      "cmosvlsi",
    ),
    row_swing: formula("V", "read_gate_voltage", "swing of the row in a read", "typical-classes"),
    write_row_swing: formula(
      "V",
      "program_voltage",
      "swing of the row in a write",
      "typical-classes",
    ),
    column_swing: formula(
      "V",
      "read_drain_voltage",
      "by how much a column moves in a read",
      "common practice",
    ),
    write_column_swing: formula(
      "V",
      "drain_voltage",
      "by how much a column moves in a write",
      "typical-classes",
    ),
    cell_on_current: formula("A", "read_current", "current of an erased cell", "typical-classes"),
    cell_off_current: formula(
      "A",
      "flash_off_ratio * read_current",
      "current of a programmed cell",
      "common practice",
    ),
    column_leak_current: formula(
      "A",
      "(rows - 1) * flash_off_ratio * read_current",
      "current of the unselected cells of a column",
      "common practice",
    ),
    signal_current: formula(
      "A",
      "cell_on_current - cell_off_current - column_leak_current",
      "difference that the sense amplifier can use",
    ),
    read_static_current: formula(
      "A",
      "(cell_on_current + cell_off_current) / 2",
      "mean current of a sensed column",
    ),
    cell_standby_power: formula("W", "0", "power that keeps the data", "this project", {
      note: "none",
    }),
    write_current: formula("A", "program_current", "current at the driver", "typical-classes"),
    write_voltage: formula(
      "V",
      "drain_voltage",
      "voltage of the columns while a cell is written",
      "typical-classes",
      { note: "gate and erase voltages are higher, but carry no current: see the row's swing" },
    ),
    write_time: formula(
      "s",
      "program_time",
      "program pulses of one cell, verify included",
      "typical-classes",
    ),
    write_cell_energy: formula(
      "J",
      "drain_voltage * program_current * program_time / bits_per_cell",
      "energy in the cell per written bit",
      "dic",
    ),
    refresh_power: formula("W", "0", "power of refresh", "this project", { note: "none" }),
    read_is_destructive: formula("1", "0", "1 where a read needs a write back"),
  },
});

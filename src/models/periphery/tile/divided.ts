/** Lines that tiles share: main row lines along a row of tiles, global columns along a column of them. */
import type { Sheet } from "../../../formulas/sheet.ts";
import { given, part } from "../define.ts";
import { chain } from "../effort.ts";
import { layoutArea } from "./layout.ts";

/** How tiles of a bank stand, and how many lines they share. Instantiated once, without a prefix. */
export const dividedLines = part({
  name: "divided_lines",
  title: "Lines that tiles share",
  about:
    "The tiles of a bank stand in a square of rows and columns. A main row line over a row of " +
    "tiles selects a few rows in each of them; a select line says which of these.",
  formulas: {
    tiles_along_row: given(
      "max(1, floor(sqrt(tiles_per_bank)))",
      "1",
      "tiles of a bank that stand beside each other along the rows",
    ),
    tiles_along_column: given(
      "ceil(tiles_per_bank / tiles_along_row)",
      "1",
      "tiles of a bank that stand above each other along the columns",
    ),
    row_groups: given("ceil(tiles_per_bank / tiles_along_row)", "1", "rows of tiles in a bank"),
    column_groups: given(
      "ceil(tiles_per_bank / tiles_along_column)",
      "1",
      "columns of tiles in a bank",
    ),
    main_rows: given(
      "ceil(decoded_rows / rows_per_main_line)",
      "1",
      "main row lines over a row of tiles",
    ),
    main_row_length: given("tiles_along_row * row_length", "m", "length of a main row line"),
    global_column_length: given(
      "tiles_along_column * column_length",
      "m",
      "length of a global column line",
    ),
  },
});

/** Twice a half-crossing is three quarters of the way, where a row counts as up. */
const PULL =
  "max(thick_gate_length, row_time > 0 ? 2 * log(2) * thick_unit_resistance / p_to_n_current * " +
  "row_capacitance / row_time : row_capacitance / (local_drive_effort * thick_gate_capacitance))";

/** The driver of one row in one tile, which a main line and a select line open. */
const localDriver = (sinks: boolean) =>
  part({
    name: sinks ? "sinking_row_driver" : "local_row_driver",
    title: sinks ? "Local row driver that carries its cells' current" : "Local row driver",
    about:
      (sinks
        ? "The device that pulls a selected row down carries the current of the cells that are written " +
          "on it, at the drop that one switch of the write path may have. "
        : "") +
      "Three thick-oxide devices: one pulls the row up to its select line, one pulls it down, a small " +
      "one holds it there while the select line rests. At the pitch of the rows they are as small as " +
      "a row that rises in a nanosecond or two allows, or in the time that is stated for it.",
    formulas: {
      transistors: given("3", "1", "transistors of one local row driver", "dic"),
      pull_width: given(PULL, "m", "width of the device that pulls up", "logical-effort"),
      sink_width: given(
        sinks
          ? "max(pull_width * p_to_n_current, thick_unit_linear_resistance * row_sink_current * " +
              "row_cells_written / (drop_share * max(supply, write_voltage)))"
          : "pull_width * p_to_n_current",
        "m",
        sinks
          ? "width of the device that pulls down and carries the current"
          : "width of the device that pulls down as fast",
        "dic",
      ),
      width: given(
        "pull_width + sink_width + thick_gate_length",
        "m",
        "device widths of one local row driver",
      ),
      load: given(
        "(pull_width + sink_width) * thick_gate_capacitance",
        "F",
        "load on the main row line",
      ),
      area: given(
        layoutArea("width", "transistors", "thick_device_area_per_width", "wide_layout_share"),
        "m^2",
        "area of one local row driver",
      ),
      leakage: given(
        "width / 2 * thick_leakage_power_per_width",
        "W",
        "leakage of one local row driver: one of its two wide devices has a voltage across it",
      ),
      read_energy: given(
        "width * (thick_gate_capacitance + drain_capacitance) * max(supply, row_swing) ^ 2",
        "J",
        "energy of the driver's own capacitance, at the level of a read",
        "dic",
      ),
      write_energy: given(
        "width * (thick_gate_capacitance + drain_capacitance) * max(supply, write_row_swing) ^ 2",
        "J",
        "energy of the driver's own capacitance, at the level of a write",
        "dic",
      ),
      delay: given(
        "log(2) * thick_unit_resistance / (p_to_n_current * pull_width) * (row_capacitance + " +
          "2 * pull_width * drain_capacitance)",
        "s",
        "delay of the row, its own resistance left out",
        "cmosvlsi",
      ),
    },
  });

export const localRowDriver = localDriver(false);
export const sinkingRowDriver = localDriver(true);

/** The driver of a main row line. */
export const mainRowDriver = part({
  name: "main_row_driver",
  title: "Main row driver",
  about:
    "A level shifter and a chain of thick-oxide inverters that drive a main row line over a row of " +
    "tiles: its wire, and the local drivers that hang on it in each tile.",
  inputs: {
    local_load: { unit: "F", meaning: "load of one local row driver on the main row line" },
  },
  formulas: {
    wire_capacitance: given(
      "route_wire_capacitance_per_length * main_row_length",
      "F",
      "capacitance of the wire of a main row line",
    ),
    load: given(
      "wire_capacitance + tiles_along_row * rows_per_main_line * local_load",
      "F",
      "whole load of a main row line",
    ),
    ...chain({ name: "chain", load: "load", thick: true }),
    transistors: given(
      "level_shifter_transistors + 2 * chain_stages",
      "1",
      "transistors of one main row driver",
    ),
    width: given(
      "chain_width + level_shifter_transistors * thick_gate_length",
      "m",
      "device widths of one main row driver",
    ),
    area: given(
      layoutArea("width", "transistors", "thick_device_area_per_width", "wide_layout_share"),
      "m^2",
      "area of one main row driver",
    ),
    leakage: given(
      "width / 2 * thick_leakage_power_per_width",
      "W",
      "leakage of one main row driver",
    ),
    read_energy: given(
      "(load + width * (thick_gate_capacitance + drain_capacitance)) * max(supply, row_swing) ^ 2",
      "J",
      "energy of the line, of what hangs on it and of its driver",
      "dic",
    ),
    write_energy: given(
      "(load + width * (thick_gate_capacitance + drain_capacitance)) * max(supply, row_swing, " +
        "write_row_swing) ^ 2",
      "J",
      "energy of the line, of what hangs on it and of its driver",
      "dic",
    ),
    delay: given(
      "level_shifter_effort * thick_tau + chain_delay + route_wire_resistance_per_length * " +
        "main_row_length * (0.377 * wire_capacitance + log(2) * (load - wire_capacitance) / 2)",
      "s",
      "delay to the far end of the line",
      "wiring1983",
      "the local drivers are spread over the line, which counts them half",
    ),
  },
});

/** A global column: the wire over a column of tiles to what they share at its end. */
function globalColumn(by: "current" | "voltage"): Sheet {
  const current = by === "current";
  const shared =
    "A wire over a column of tiles; the switches of a tile connect one of its columns to it. Lies " +
    "above the arrays and has no transistors of its own. ";
  return part({
    name: `global_column_by_${by}`,
    title: current ? "Global column" : "Global data line",
    about:
      shared +
      (current
        ? "It is held at the read voltage like the columns, and settles through clamp and switch."
        : "The amplifier of a column moves it by a share of the supply, which another amplifier at " +
          "its end restores."),
    inputs: current
      ? { column_series_resistance: { unit: "ohm", meaning: "clamp and switch of a column" } }
      : { latch_device_width: { unit: "m", meaning: "width of one device of an amplifier" } },
    formulas: {
      transistors: given("0", "1", "transistors of the wire"),
      area: given("0", "m^2", "area: the wire lies above the arrays"),
      leakage: given("0", "W", "leakage of the wire"),
      capacitance: given(
        "route_wire_capacitance_per_length * global_column_length",
        "F",
        "capacitance of a global line",
      ),
      resistance: given(
        "route_wire_resistance_per_length * global_column_length",
        "ohm",
        "resistance of a global line",
      ),
      swing: given(
        current ? "column_swing" : "global_swing_share * supply",
        "V",
        "by how much a global line moves",
      ),
      read_energy: given(
        "capacitance * swing * max(supply, swing)",
        "J",
        "energy that charges one global line in a read",
        "dic",
      ),
      write_energy: given(
        "capacitance * write_column_swing ^ 2",
        "J",
        "energy that charges one global line in a write",
        "dic",
      ),
      delay: given(
        current
          ? "log(10) * (column_series_resistance + resistance / 2) * capacitance"
          : "log(2) * 2 * unit_resistance_n / latch_device_width * capacitance * " +
              "global_swing_share + 0.377 * resistance * capacitance",
        "s",
        current ? "nine tenths of the current have come" : "delay of the line's swing",
        "wiring1983",
      ),
    },
  });
}
export const globalColumnByCurrent = globalColumn("current");
export const globalDataLine = globalColumn("voltage");

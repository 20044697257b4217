/** The far ends of bipolar cells: switches between source lines and the write driver. */
import type { Sheet } from "../../../formulas/sheet.ts";
import { given, part } from "../define.ts";
import { chain } from "../effort.ts";
import { layoutArea, selectSwing } from "./layout.ts";

function sourceLineSwitches(raised: boolean): Sheet {
  const linear = raised ? "thick_unit_linear_resistance" : "unit_linear_resistance";
  const gate = raised ? "thick_gate_capacitance" : "gate_capacitance";
  const layout = raised ? "thick_device_area_per_width" : "device_area_per_width";
  const leak = raised ? "thick_leakage_power_per_width" : "leakage_power_per_width";
  const shifter = raised ? " + level_shifter_transistors" : "";
  return part({
    name: `${raised ? "raised_" : ""}source_line_switches`,
    title: `Source line switches${raised ? " for a raised write voltage" : ""}`,
    about:
      "A write of two polarities drives either end of a cell, so that each column has a source " +
      "line beside its bit line. At its end stand a switch to the write driver's other half " +
      "bridge, for the write current at the drop that any switch of the write path may have, and " +
      "a device that holds the line at ground, for the current of a read. Select lines run along " +
      "them, each with its driver. One instance has all of a tile; none where all pulses have " +
      "one polarity, whose cells share a grounded plate.",
    formulas: {
      bipolar: given("write_polarities > 1.5 ? 1 : 0", "1", "1 where a write drives both ends"),
      lines: given(
        "bipolar * driven_columns * source_lines_per_cell",
        "1",
        "source lines of a tile",
        "source-lines",
      ),
      switch_width: given(
        `max(gate_width, ${linear} * write_current / (drop_share * max(supply, write_voltage)))`,
        "m",
        "width of one transistor of a switch",
        "dic",
      ),
      hold_width: given(
        `max(gate_width, ${linear} * cell_on_current / (drop_share * column_swing))`,
        "m",
        "width of the device that holds a line at ground in a read",
        "dic",
      ),
      line_width: given(
        "column_switch_transistors * switch_width + hold_width",
        "m",
        "device widths at one source line",
      ),
      load: given(
        "route_wire_capacitance_per_length * row_length + " +
          `bipolar * data_ports * column_lines * source_lines_per_cell * line_width * ${gate}`,
        "F",
        "whole load of a select line",
      ),
      ...chain({ name: "chain", load: "load", thick: raised }),
      line_transistors: given(
        "lines * (column_switch_transistors + 1)",
        "1",
        "transistors at all source lines",
      ),
      select_transistors: given(
        `bipolar * selected_columns * (2 * chain_stages${shifter})`,
        "1",
        "transistors of the drivers of the select lines",
      ),
      transistors: given(
        "line_transistors + select_transistors",
        "1",
        "transistors of a tile's source lines",
      ),
      line_area: given(
        layoutArea("lines * line_width", "line_transistors", layout, "pitch_layout_share"),
        "m^2",
        "area of all switches",
      ),
      select_area: given(
        layoutArea(
          "bipolar * selected_columns * chain_width",
          "select_transistors",
          layout,
          "wide_layout_share",
        ),
        "m^2",
        "area of the drivers of the select lines",
      ),
      area: given("line_area + select_area", "m^2", "area of a tile's source lines"),
      leakage: given(
        `(lines * line_width + bipolar * selected_columns * chain_width) / 2 * ${leak}`,
        "W",
        "leakage of a tile's source lines",
        "this project",
        "half of the devices are off",
      ),
      read_energy: given("0", "J", "the lines are held at ground in a read"),
      write_energy: given(
        `bipolar * (load + chain_width * (${gate} + drain_capacitance)) * ` +
          `${selectSwing("write", raised)} ^ 2`,
        "J",
        "energy of one select line, its driver and the gates on it",
        "dic",
        "the line itself swings in the place of a bit line and is counted as one",
      ),
    },
  });
}

const PLAIN = sourceLineSwitches(false);
const RAISED = sourceLineSwitches(true);

/** All source line switches of a tile. `raised`: the write voltage exceeds the core supply. */
export function sourceLinesFor(raised: boolean): Sheet {
  return raised ? RAISED : PLAIN;
}

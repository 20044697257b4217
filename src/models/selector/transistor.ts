import type { FormulaDefinition } from "../../formulas/sheet.ts";
import { formula, model } from "../define.ts";
import { selectorDefaults } from "./defaults.ts";

/** What any access transistor gives to its cell once its width and voltage class are known. */
const electrical: Readonly<Record<string, FormulaDefinition>> = {
  access_thick: formula(
    "1",
    "switch_write_voltage > core_overdrive * supply ? 1 : 0",
    "1 where the access transistor has thick oxide",
    "common practice",
  ),
  access_on_current: formula(
    "A/m",
    "access_thick > 0.5 ? thick_on_current : nmos_on_current",
    "saturation current per width",
  ),
  access_saturation: formula(
    "V",
    "access_thick > 0.5 ? thick_drain_saturation_voltage : drain_saturation_voltage",
    "drain voltage at which it saturates",
  ),
  access_load_share: formula(
    "1",
    "min(1, switch_write_current / (access_width * access_on_current))",
    "write current over saturation current",
    "this project",
    { note: "at 1 the transistor limits the current: a narrow device in a memory process may" },
  ),
  access_drop: formula(
    "V",
    "access_saturation * (1 - sqrt(1 - access_load_share))",
    "drain voltage at the write current",
    "dic",
    { note: "I = I_on (2 - V/V_D0) V/V_D0 solved for V" },
  ),
  access_resistance: formula(
    "ohm",
    "(access_thick > 0.5 ? thick_unit_linear_resistance : unit_linear_resistance) / access_width",
    "resistance in a read",
    "dic",
  ),
  access_gate_load: formula(
    "F",
    "(access_thick > 0.5 ? thick_gate_capacitance : gate_capacitance) * access_width",
    "gate capacitance",
    "cmosvlsi",
  ),
  access_drain_load: formula(
    "F",
    "drain_capacitance * access_width",
    "drain capacitance",
    "cmosvlsi",
  ),
  access_off_current: formula(
    "A",
    "(access_thick > 0.5 ? thick_off_current * off_current / nmos_off_current : off_current) " +
      "* access_width",
    "current when off",
    "cmosvlsi",
  ),
  access_gate_voltage: formula(
    "V",
    "access_thick > 0.5 ? io_supply : supply",
    "gate voltage in a read",
  ),
  access_write_gate_voltage: formula(
    "V",
    "max(access_gate_voltage, access_thick > 0.5 ? io_supply : min(core_overdrive * supply, " +
      "switch_write_voltage + threshold_voltage))",
    "gate voltage in a write",
    "common practice",
    { note: "boosted as far as the device stands, so that the worse polarity is not starved" },
  ),
};

/** The access transistor of a logic process: as wide as the write current asks for. */
export const accessTransistor = model({
  parameters: selectorDefaults,
  name: "access_transistor",
  title: "Access transistor",
  about:
    "Sized to carry the worse write current at a share of its saturation current, which " +
    "leaves drain voltage over and covers body effect in the worse polarity. Thick oxide " +
    "where the write voltage exceeds what a core device stands in pulses. One gate per cell " +
    "needs an isolation gap between neighbouring drains (1.5 gate pitches); two parallel " +
    "gates share all source contacts (2 pitches of half the width): the smaller of both is " +
    "taken. The cell is at least as wide as its bit line and its part of the source line, and " +
    "as tall as one line.",
  formulas: {
    ...electrical,
    access_least_width: formula(
      "m",
      "access_thick > 0.5 ? thick_width_ratio * thick_gate_length : minimum_width",
      "smallest width",
      "common practice",
    ),
    access_wanted_width: formula(
      "m",
      "max(access_least_width, switch_write_current / (access_drive_share * access_on_current))",
      "width that the write current asks for",
    ),
    access_width: formula(
      "m",
      "layout_width_ratio < 1 ? ceil(access_wanted_width / access_least_width) * " +
        "access_least_width : access_wanted_width",
      "effective width: whole fins where devices have fins",
      "this project",
      { symbol: "W" },
    ),
    access_layout_width: formula(
      "m",
      "access_width * (access_thick > 0.5 ? 1 : layout_width_ratio)",
      "width on the layout",
    ),
    access_pitch: formula(
      "m",
      "access_thick > 0.5 ? thick_contacted_pitch : contacted_gate_pitch",
      "gate pitch",
    ),
    active_spacing: formula(
      "m",
      "active_spacing_ratio * metal_half_pitch",
      "isolation beside a device",
      "common practice",
    ),
    line_room: formula(
      "m",
      "2 * feature * (1 + source_lines_per_cell)",
      "room for bit line and source line beside each other",
      "common practice",
    ),
    one_gate_height: formula(
      "m",
      "max(1.5 * access_pitch, 2 * feature)",
      "outline along the column with one gate",
    ),
    one_gate_width: formula(
      "m",
      "max(access_layout_width + active_spacing, line_room)",
      "outline along the row with one gate",
    ),
    two_gate_height: formula(
      "m",
      "max(2 * access_pitch, 2 * feature)",
      "outline along the column with two gates",
    ),
    two_gate_width: formula(
      "m",
      "max(access_layout_width / 2 + active_spacing, line_room)",
      "outline along the row with two gates",
    ),
    access_gates: formula(
      "1",
      "two_gate_height * two_gate_width < one_gate_height * one_gate_width ? 2 : 1",
      "gates of the access transistor",
    ),
    access_cell_height: formula(
      "m",
      "access_gates > 1.5 ? two_gate_height : one_gate_height",
      "outline along the column",
    ),
    access_cell_width: formula(
      "m",
      "access_gates > 1.5 ? two_gate_width : one_gate_width",
      "outline along the row",
    ),
  },
});

/** The access transistor of a memory process: the cell is given, and its device is what fits. */
export const denseTransistor = model({
  parameters: selectorDefaults,
  name: "dense_transistor",
  title: "Access transistor of a memory process",
  about:
    "A recessed or vertical device in a cell of a stated number of squared half pitches, two " +
    "of them along the row; all source lines are one plate or lie buried. It carries what it " +
    "can: the load share tells how near the write current comes to that.",
  formulas: {
    ...electrical,
    access_width: formula(
      "m",
      "dense_width_ratio * feature",
      "effective width",
      "common practice",
      { symbol: "W" },
    ),
    access_cell_width: formula("m", "2 * feature", "outline along the row", "common practice"),
    access_cell_height: formula(
      "m",
      "dense_cell_squares * feature / 2",
      "outline along the column",
      "common practice",
    ),
  },
});

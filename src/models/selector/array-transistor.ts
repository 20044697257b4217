import { formula, model } from "../define.ts";
import { selectorDefaults } from "./defaults.ts";

/** The access transistor of a memory process: the least cell, or the width that a write needs. */
export const arrayTransistor = model({
  parameters: selectorDefaults,
  name: "array_transistor",
  title: "Access transistor of a memory process",
  about:
    "A recessed, buried or saddle-shaped device whose gate is the row itself, with self-aligned " +
    "contacts: its cell has a stated least number of squared half pitches, two of them along the " +
    "row. Where the write current of the worst junction at the slow corner asks for more width, " +
    "the cell grows along the row by that width. The row is boosted, so that the worse polarity " +
    "is not starved. All source lines are one plate or lie buried.",
  formulas: {
    worst_write_current: formula(
      "A",
      "write_current_margin * switch_write_current",
      "write current of the worst junction",
      "this project",
    ),
    access_width: formula(
      "m",
      "max(selector_width_ratio * feature, worst_write_current / (array_drive_share * " +
        "selector_on_current))",
      "effective width: that of a device as wide as a line, or what the write current needs",
      "this project",
      { symbol: "W" },
    ),
    access_layout_width: formula(
      "m",
      "access_width / selector_width_ratio",
      "width on the layout",
      "common practice",
    ),
    access_cell_width: formula(
      "m",
      "max(2 * feature, access_layout_width + feature)",
      "outline along the row: the device and the isolation beside it",
      "common practice",
    ),
    access_cell_height: formula(
      "m",
      "selector_least_cell_squares * feature / 2",
      "outline along the column",
      "common practice",
    ),
    largest_element_area: formula(
      "m^2",
      "pi / 4 * feature^2",
      "area of the largest round element at the least pitch of two half pitches",
      "common practice",
      { note: "a half pitch between neighbours" },
    ),
    access_saturation: formula(
      "V",
      "thick_drain_saturation_voltage * selector_gate_voltage / io_supply",
      "drain voltage at which it saturates",
      "dic",
      { note: "as that of a thick-oxide device, in proportion to the gate voltage" },
    ),
    access_load_share: formula(
      "1",
      "min(1, switch_write_current / (access_width * selector_on_current))",
      "write current over saturation current",
      "this project",
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
      "access_saturation / (2 * selector_on_current * access_width)",
      "resistance in a read",
      "dic",
    ),
    access_gate_load: formula(
      "F",
      "thick_gate_capacitance * access_width * min(1, 2 * feature / thick_gate_length)",
      "gate capacitance: the channel around the recess is as long as two half pitches",
      "common practice",
    ),
    access_drain_load: formula(
      "F",
      "drain_capacitance * access_layout_width",
      "drain capacitance",
      "cmosvlsi",
    ),
    access_off_current: formula(
      "A",
      "selector_closed_current * off_current / nmos_off_current",
      "current when off",
      "this project",
      { note: "with the temperature law of the core device" },
    ),
    access_gate_voltage: formula("V", "selector_gate_voltage", "gate voltage in a read"),
    access_write_gate_voltage: formula("V", "selector_gate_voltage", "gate voltage in a write"),
  },
});

import { formula, model } from "../define.ts";
import { selectorDefaults } from "./defaults.ts";

/** A diode or bipolar transistor of a memory process under each cell. */
export const arrayDiode = model({
  parameters: selectorDefaults,
  name: "array_diode",
  title: "Junction diode or bipolar transistor of a memory process",
  about:
    "A vertical junction in silicon under each cell; its base is the row, a doped line with a metal " +
    "strap every few cells. All unselected rows rest at the high level, so that their junctions are " +
    "biased backwards whatever they store, and only the selected row is pulled down: it carries the " +
    "current of the cells that are written on it, or with a bipolar transistor its base current.",
  formulas: {
    access_cell_width: formula(
      "m",
      "2 * feature * (1 + 1 / selector_strap_cells)",
      "outline along the row, with its share of the strap's contact",
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
    access_drop: formula(
      "V",
      "selector_emission_voltage * log(1 + switch_write_current / selector_saturation_current) + " +
        "switch_write_current * selector_on_resistance",
      "voltage of the junction at the write current",
      "dic",
    ),
    access_resistance: formula(
      "ohm",
      "selector_on_resistance + selector_emission_voltage * on_resistance / read_voltage",
      "resistance of the junction at the read current of the on state",
      "dic",
    ),
    read_junction_voltage: formula(
      "V",
      "selector_emission_voltage * log(1 + read_voltage / (on_resistance * " +
        "selector_saturation_current)) + read_voltage / on_resistance * selector_on_resistance",
      "voltage of the junction at the on current of a read",
      "dic",
    ),
    access_gate_load: formula(
      "F",
      "junction_area_capacitance * feature^2",
      "capacitance of the junction on the row",
      "common practice",
    ),
    access_drain_load: formula("F", "access_gate_load", "the same on the column"),
    access_off_current: formula(
      "A",
      "selector_closed_current * off_current / nmos_off_current",
      "current of a junction that is biased backwards",
      "this project",
      { note: "with the temperature law of the core device" },
    ),
    access_gate_voltage: formula(
      "V",
      "read_voltage + read_junction_voltage",
      "level at which unselected rows rest in a read",
    ),
    access_write_gate_voltage: formula(
      "V",
      "switch_write_voltage + access_drop",
      "level at which unselected rows rest in a write",
    ),
    row_sink_share: formula(
      "1",
      "1 / (1 + selector_current_gain)",
      "share of a cell's current that its row carries",
      "dic",
    ),
  },
});

import { formula, model } from "../define.ts";
import { selectorDefaults } from "./defaults.ts";

/** The read transistor of a cell that the field of two wires writes, and what sets its outline. */
export const fieldTransistor = model({
  parameters: selectorDefaults,
  name: "field_transistor",
  title: "Read transistor of a field-written cell",
  about:
    "The current of a write flows in two crossing wires above and below the magnetic element and " +
    "not in the cell, so that the transistor is the smallest one. The outline is that of the " +
    "magnetic layer: along the row the bit line, which covers the element's length, and a space; " +
    "along the column the digit line, which covers its width, a space, the landing of the via " +
    "beside it and another space.",
  formulas: {
    access_width: formula("m", "minimum_width", "width of the read transistor", "common practice"),
    line_enclosure: formula(
      "m",
      "line_enclosure_ratio * metal_half_pitch",
      "by how much a line that makes a field is wider than the element on each side",
      "common practice",
    ),
    digit_line_width: formula(
      "m",
      "max(feature, element_width + 2 * line_enclosure)",
      "width of the digit line, along the row",
      "common practice",
    ),
    bit_line_width: formula(
      "m",
      "max(feature, element_length + 2 * line_enclosure)",
      "width of the bit line, along the column",
      "common practice",
    ),
    largest_element_area: formula(
      "m^2",
      "element_width * element_length",
      "area of the element, which the outline follows",
      "common practice",
    ),
    access_cell_width: formula(
      "m",
      "max(bit_line_width + feature, access_width + active_spacing_ratio * metal_half_pitch)",
      "outline along the row",
      "common practice",
    ),
    access_cell_height: formula(
      "m",
      "max(digit_line_width + 2 * feature + feature + 2 * line_enclosure, 1.5 * " +
        "contacted_gate_pitch)",
      "outline along the column: digit line, space, landing, space",
      "common practice",
    ),
    access_resistance: formula("ohm", "unit_linear_resistance / access_width", "resistance", "dic"),
    access_gate_load: formula("F", "gate_capacitance * access_width", "gate capacitance", "dic"),
    access_drain_load: formula("F", "drain_capacitance * access_width", "drain capacitance", "dic"),
    access_off_current: formula("A", "off_current * access_width", "current when off", "cmosvlsi"),
    access_gate_voltage: formula("V", "supply", "gate voltage in a read"),
  },
});

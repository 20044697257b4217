import { formula, model } from "../define.ts";
import { wireDefaults } from "./defaults.ts";

/** Resistance and capacitance per length of one wire between two neighbours. */
export const wire = model({
  parameters: wireDefaults,
  name: "wire",
  title: "Wire per length",
  about:
    "Effective resistivity has barrier and size effect folded in; only the bulk part changes " +
    "with temperature. The capacitance is the empirical three-line formula, quoted within 10 " +
    "% for 0.3 < w/h < 10, 0.3 < t/h < 10, 0.5 < s/h < 10; a second plane adds its plate part " +
    "and half of the fringe (this project), which lies between the formula for one plane and " +
    "twice it.",
  inputs: {
    width: { unit: "m", meaning: "width of the wire", symbol: "w" },
    spacing: { unit: "m", meaning: "gap to each neighbour", symbol: "s" },
    thickness: { unit: "m", meaning: "thickness of the wire", symbol: "t" },
    permittivity: {
      unit: "1",
      meaning: "relative permittivity of the dielectric",
      symbol: "\\varepsilon_r",
    },
    resistivity: {
      unit: "ohm m",
      meaning: "effective resistivity at the reference temperature",
      symbol: "\\rho",
    },
  },
  formulas: {
    plane_distance: formula(
      "m",
      "plane_distance_ratio * thickness",
      "distance to the next plane",
      "common practice",
      { symbol: "h" },
    ),
    resistivity_at_temperature: formula(
      "ohm m",
      "resistivity + metal_temperature_slope * (temperature - reference_temperature)",
      "effective resistivity at the temperature",
      "annrev2009",
    ),
    resistance_per_length: formula(
      "ohm/m",
      "resistivity_at_temperature / (width * thickness)",
      "resistance per length",
      "cmosvlsi",
      { symbol: "r" },
    ),
    plane_part: formula(
      "1",
      "1.15 * width / plane_distance * planes + 2.80 * (thickness / plane_distance)^0.222 * " +
        "(1 + planes) / 2",
      "capacitance to the planes over the permittivity",
      "cap1983",
    ),
    neighbour_part: formula(
      "1",
      "(0.03 * width / plane_distance + 0.83 * thickness / plane_distance - 0.07 * (thickness " +
        "/ plane_distance)^0.222) * (spacing / plane_distance)^(-1.34)",
      "capacitance to one neighbour over the permittivity",
      "cap1983",
    ),
    capacitance_per_length: formula(
      "F/m",
      "vacuum_permittivity * permittivity * (plane_part + 2 * neighbour_part) * " +
        "capacitance_formula_factor",
      "capacitance per length, neighbours at rest",
      "cap1983",
      { symbol: "c" },
    ),
    time_constant_per_square_length: formula(
      "s/m^2",
      "resistance_per_length * capacitance_per_length",
      "resistance times capacitance per length squared",
      "dic",
    ),
  },
});

import { formula, model } from "../define.ts";
import { wireDefaults } from "./defaults.ts";

/**
 * The delay of word lines, bit lines and any other driven wire: THE place of that formula. An
 * estimate uses it with the prefix `row_line_` for word lines and `column_line_` for bit lines.
 */
export const lineDelay = model({
  parameters: wireDefaults,
  name: "line_delay",
  title: "Delay of a driven wire (word line, bit line)",
  about:
    "A step through the driver's resistance into a uniform RC line with a load at its end. " +
    "Within about 3 % of the exact response at the half crossing; the driver is a resistance, " +
    "not a transistor that slews.",
  inputs: {
    driver_resistance: { unit: "ohm", meaning: "resistance of the driver", symbol: "R_d" },
    line_resistance: { unit: "ohm", meaning: "resistance of the whole line", symbol: "R" },
    line_capacitance: {
      unit: "F",
      meaning: "capacitance of the whole line with all that hangs on it",
      symbol: "C",
    },
    load_capacitance: { unit: "F", meaning: "capacitance at the far end", symbol: "C_L" },
  },
  formulas: {
    delay: formula(
      "s",
      "0.377 * line_resistance * line_capacitance + 0.693 * (driver_resistance * " +
        "(line_capacitance + load_capacitance) + line_resistance * load_capacitance)",
      "time until the far end has half of the step",
      "wiring1983",
      {
        symbol: "t_{50}",
        note: "the fit of the source at one half: 0.1 + ln 2 times 0.4 is 0.377",
      },
    ),
    delay_90: formula(
      "s",
      "0.1 * line_resistance * line_capacitance + log(10) * (driver_resistance * " +
        "(line_capacitance + load_capacitance) + line_resistance * load_capacitance + 0.4 * " +
        "line_resistance * line_capacitance)",
      "time until the far end has nine tenths of the step",
      "wiring1983",
      { symbol: "t_{90}" },
    ),
    mean_delay: formula(
      "s",
      "line_resistance * line_capacitance / 2 + driver_resistance * (line_capacitance + " +
        "load_capacitance) + line_resistance * load_capacitance",
      "first moment of the response",
      "transient1948",
      { symbol: "T_E" },
    ),
  },
});

/** A driven wire until all but a stated share of the step has come through. */
export const lineSettling = model({
  parameters: wireDefaults,
  name: "line_settling",
  title: "Settling of a driven wire",
  about: "The same step response, to any share of the step. Within about 4 % of the exact one.",
  inputs: {
    driver_resistance: { unit: "ohm", meaning: "resistance of the driver", symbol: "R_d" },
    line_resistance: { unit: "ohm", meaning: "resistance of the whole line", symbol: "R" },
    line_capacitance: {
      unit: "F",
      meaning: "capacitance of the whole line with all that hangs on it",
      symbol: "C",
    },
    load_capacitance: { unit: "F", meaning: "capacitance at the far end", symbol: "C_L" },
    settling_error: { unit: "1", meaning: "share of the step that is left", symbol: "e" },
  },
  formulas: {
    settling_delay: formula(
      "s",
      "0.1 * line_resistance * line_capacitance - log(settling_error) * (driver_resistance * " +
        "(line_capacitance + load_capacitance) + line_resistance * load_capacitance + 0.4 * " +
        "line_resistance * line_capacitance)",
      "time until the far end lacks no more than the stated share",
      "wiring1983",
      { symbol: "t_e" },
    ),
  },
});

/** One resistance and one capacitance. */
export const lumpedDelay = model({
  parameters: wireDefaults,
  name: "lumped_delay",
  title: "Delay of one resistance and one capacitance",
  about: "Exact response of a first-order circuit to a step.",
  inputs: {
    lumped_resistance: { unit: "ohm", meaning: "resistance", symbol: "R" },
    lumped_capacitance: { unit: "F", meaning: "capacitance", symbol: "C" },
  },
  formulas: {
    half_time: formula(
      "s",
      "log(2) * lumped_resistance * lumped_capacitance",
      "time to half of the step",
      "dic",
      { symbol: "t_{50}" },
    ),
    rise_time: formula(
      "s",
      "log(9) * lumped_resistance * lumped_capacitance",
      "time from one tenth to nine tenths",
      "dic",
      { symbol: "t_r" },
    ),
  },
});

/** A line of N equal lumps, as a small array is. */
export const ladderDelay = model({
  parameters: wireDefaults,
  name: "ladder_delay",
  title: "Line of a few equal sections",
  about: "N sections, each a resistance followed by a capacitance, driven by an ideal step.",
  inputs: {
    sections: { unit: "1", meaning: "sections of the line", symbol: "N" },
    line_resistance: { unit: "ohm", meaning: "resistance of the whole line", symbol: "R" },
    line_capacitance: { unit: "F", meaning: "capacitance of the whole line", symbol: "C" },
  },
  formulas: {
    ladder_mean_delay: formula(
      "s",
      "line_resistance * line_capacitance * (sections + 1) / (2 * sections)",
      "first moment of the far end's response",
      "transient1948",
      { symbol: "T_E" },
    ),
    line_half_time: formula(
      "s",
      "0.37874784 * line_resistance * line_capacitance",
      "time to half at the open end of the continuous line",
      "heat",
      { symbol: "t_{50}" },
    ),
  },
});

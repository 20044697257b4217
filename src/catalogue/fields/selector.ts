import { chosen, type FieldTable, practice, typical } from "./field.ts";

/** What is in series with a switch to isolate it. */
export const SELECTOR_VARIANTS = [
  "none",
  "transistor",
  "array-transistor",
  "array-diode",
  "diode",
  "threshold",
  "nonlinear",
  "complementary",
] as const;

const SERIES = ["diode", "array-diode", "threshold", "nonlinear"];
const ARRAY = ["array-transistor", "array-diode"];

export const SELECTOR_FIELDS: FieldTable = {
  threshold_voltage: {
    unit: "V",
    meaning: "voltage across the selector at which it snaps on",
    symbol: "V_{th}",
    variants: ["threshold"],
    default: typical("1.5 V", "0.9 V", "3 V"),
  },
  hold_voltage: {
    unit: "V",
    meaning: "voltage across the selector below which it falls back to off",
    symbol: "V_{hold}",
    variants: ["threshold"],
    default: typical("0.9 V", "0.5 V", "1.3 V"),
  },
  off_current: {
    unit: "A",
    meaning: "current at half of the threshold voltage, or at half of the nonlinearity voltage",
    symbol: "I_{off}",
    variants: ["threshold", "nonlinear"],
    default: typical("1e-9 A", "1e-11 A", "1e-8 A"),
  },
  on_resistance: {
    unit: "ohm",
    meaning: "series resistance of the selector when it is on",
    symbol: "R_{s}",
    variants: SERIES,
    default: typical("3 kohm", "0.5 kohm", "10 kohm"),
  },
  turn_on_time: {
    unit: "s",
    meaning: "time from the voltage to the current",
    symbol: "t_{on}",
    variants: SERIES,
    default: typical("5 ns", "1 ns", "50 ns"),
  },
  current_limit: {
    unit: "A",
    meaning: "largest current after which the selector still turns off",
    symbol: "I_{max}",
    variants: SERIES,
  },
  saturation_current: {
    unit: "A",
    meaning: "saturation current of the diode",
    symbol: "I_s",
    variants: ["diode", "array-diode"],
    default: typical("1e-12 A", "1e-14 A", "1e-10 A", "per junction of about 40 nm"),
  },
  emission_voltage: {
    unit: "V",
    meaning: "voltage in which the current grows by a factor e",
    symbol: "n V_T",
    variants: ["diode", "array-diode", "nonlinear"],
    default: typical("0.06 V", "0.035 V", "0.1 V"),
    unless: ["nonlinearity"],
  },
  scale_voltage: {
    unit: "V",
    meaning: "scale voltage of the sinh law of the current",
    symbol: "V_s",
    variants: ["nonlinear"],
  },
  nonlinearity: {
    unit: "1",
    meaning: "current at the nonlinearity voltage divided by the current at half of it",
    symbol: "K_s",
    variants: ["nonlinear"],
  },
  nonlinearity_voltage: {
    unit: "V",
    meaning: "voltage at which the nonlinearity is stated, usually the write voltage",
    symbol: "V_K",
    variants: ["nonlinear"],
    default: typical("1.5 V", "1 V", "3 V"),
  },
  least_cell_squares: {
    unit: "1",
    meaning: "least area of the cell in squares of the half pitch, by lithography",
    variants: ARRAY,
    default: practice("6", "4", "9", "6 with contacts that two cells share, 8 folded, 4 upright"),
  },
  width_ratio: {
    unit: "1",
    meaning: "effective width of the transistor over its width on the layout",
    variants: ["array-transistor"],
    default: practice("2", "1", "3", "the sides of a fin or saddle conduct too; 1 is planar"),
  },
  on_current: {
    unit: "A/m",
    meaning: "saturation current per effective width, row boosted",
    symbol: "I_{on}",
    variants: ["array-transistor"],
    default: practice(
      "400 uA/um",
      "250 uA/um",
      "600 uA/um",
      "some 20 to 40 uA of a device as wide as a line at 30 to 50 nm",
    ),
  },
  closed_current: {
    unit: "A",
    meaning: "current of the transistor of a closed cell at the reference temperature",
    variants: ARRAY,
    default: practice("1 fA", "0.1 fA", "100 fA", "retention of a dynamic cell needs this"),
  },
  strap_cells: {
    unit: "1",
    meaning: "cells of a row between two contacts of its metal strap",
    variants: ["array-diode"],
    default: practice("8", "4", "16", "the resistance of the doped row asks for them"),
  },
  current_gain: {
    unit: "1",
    meaning: "collector current over base current; 0 is a diode",
    shape: "signed",
    variants: ["array-diode"],
    default: chosen("0", "a diode"),
  },
  gate_voltage: {
    unit: "V",
    meaning: "boosted voltage of a row that opens the transistor",
    variants: ["array-transistor"],
    default: practice("2.8 V", "2.2 V", "3.3 V", "of processes at 1.2 to 1.8 V"),
  },
  endurance: {
    unit: "1",
    meaning: "switching cycles before the selector fails",
    variants: SERIES,
    default: typical("1e9", "1e7", "1e12"),
  },
};

// Capacitance per length of the local wires of eleven nodes as worked out in the reference
// collection of process figures ("three-line empirical formula, height = thickness; low one plane,
// high two planes", each with 10 % more), printed to four digits in fF/um. Formula: "Simple
// formulas for two- and three-dimensional capacitances", IEEE Transactions on Electron Devices
// 30(2), 1983, doi 10.1109/T-ED.1983.21093.
import { expect, test } from "vitest";
import { wireInstance } from "../../src/models/registry.ts";
import { evaluate, technology } from "../models/evaluate.ts";

const ROWS = [
  ["cmos-180", 0.2803],
  ["cmos-130", 0.2391],
  ["cmos-90", 0.1832],
  ["cmos-65", 0.1868],
  ["cmos-45", 0.1778],
  ["cmos-32", 0.1699],
  ["cmos-28", 0.1782],
  ["cmos-22", 0.1733],
  ["cmos-16", 0.1776],
  ["cmos-7", 0.1908],
  ["cmos-5", 0.1981],
] as const;

test.each(ROWS)("the local wire of %s has the worked capacitance per length", (name, printed) => {
  const got = evaluate([wireInstance("row_wire_", "local")], technology(name));
  const femto = got["row_wire_capacitance_per_length"]! * 1e9;
  expect(Math.abs(femto - printed)).toBeLessThanOrEqual(0.5e-4 * (1 + 1e-9));
});

test("the published resistance per length is resistivity over the section", () => {
  // ohm/um, same collection, four digits.
  const printed = { "cmos-180": 0.275, "cmos-65": 1.681, "cmos-28": 10.46, "cmos-7": 87.5 };
  for (const [name, value] of Object.entries(printed)) {
    const got = evaluate([wireInstance("row_wire_", "local")], technology(name));
    const perMicron = got["row_wire_resistance_per_length"]! * 1e-6;
    expect(Math.abs(perMicron / value - 1)).toBeLessThan(5e-4);
  }
});

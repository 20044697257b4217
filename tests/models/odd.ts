import type { Sheet } from "../../src/formulas/index.ts";
import { evaluateOne } from "./evaluate.ts";

export type Values = Readonly<Record<string, number>>;

const TYPICAL: Readonly<Record<string, number>> = {
  m: 0.3e-6,
  "m^2": 0.4e-12,
  F: 3e-15,
  "F/m": 0.7e-9,
  A: 30e-6,
  "A/m": 600,
  V: 0.8,
  ohm: 5e3,
  "ohm m": 2e-3,
  s: 20e-12,
  J: 2e-15,
  W: 1e-6,
  "W/m": 0.04,
  K: 330,
  "1": 0.6,
};

/** A number in [0.8, 1.3) of a name, so that no two inputs are alike and none is a one. */
function odd(name: string): number {
  let h = 11;
  for (const letter of name) h = (h * 37 + letter.charCodeAt(0)) % 997;
  return 0.8 + h / 1994;
}

/** All inputs and results of one sheet: inputs that are not given are odd figures of a usual size. */
export function oddValues(sheet: Sheet, given: Values = {}): Values {
  const inputs = Object.fromEntries(
    Object.entries(sheet.inputs).map(([name, { unit }]) => [
      name,
      given[name] ?? (TYPICAL[unit] ?? Number.NaN) * odd(name),
    ]),
  );
  return { ...inputs, ...evaluateOne(sheet, inputs) };
}

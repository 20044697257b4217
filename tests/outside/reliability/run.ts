/** Runs one sheet or procedure on SI values, through the engine that every study uses. */
import {
  assemble,
  type Procedure,
  parseFormula,
  type Sheet,
  valuesOf,
} from "../../../src/formulas/index.ts";

export type Given = Readonly<Record<string, number>>;

/** All quantities of the model; inputs that are not given are 0.5 and must not matter. */
export function run(model: Sheet | Procedure, given: Given): Record<string, number> {
  const units = Object.entries(model.inputs).map(([name, { unit }]) => ({ name, unit }));
  const unknown = Object.keys(given).filter((name) => model.inputs[name] === undefined);
  if (unknown.length > 0) throw new Error(`${model.name} does not read ${unknown}`);
  const program = assemble([{ of: model }], units, parseFormula);
  const values = new Map(units.map(({ name }) => [name, given[name] ?? 0.5]));
  return Object.fromEntries(valuesOf(program, values));
}

/** One expected value of a check, with what it is for. */
export interface Case {
  readonly name: string;
  /** Inputs of this value. */
  readonly at: Readonly<Record<string, number>>;
  /** Inputs of the whole check. */
  readonly inputs: Readonly<Record<string, { readonly value: never }>>;
}

export type Answer = number | readonly number[] | string;
export type Solver = (given: Case) => Answer;

/** Electronvolt [J], year [s], hour [s], zero of the Celsius scale [K]. */
export const EV = 1.602176634e-19;
export const YEAR = 365.25 * 86400;
export const DAY = 86400;
export const HOUR = 3600;
export const CELSIUS = 273.15;

/** The first word of a value's name. */
export function firstWord(name: string): string {
  return name.split(" ")[0]!;
}

/** One minus the decimal that a number shows: 0.999999 gives 1e-6, not 1.00000000002876e-6. */
export function complement(share: number): number {
  const places = String(share).split(".")[1]?.length ?? 0;
  return Math.round((1 - share) * 10 ** places) / 10 ** places;
}

/** Figures of the periphery that are no laws: each with its range, source and basis. */
import type { Basis } from "../../quantities/parameter.ts";
import { COUNTS } from "./figures/counts.ts";
import { ACTIVITY, SUPPLY } from "./figures/operation.ts";
import { SIZES } from "./figures/sizes.ts";

/**
 * A parameter that every design has unless its study says otherwise. SI units; low = high for a
 * choice of design.
 */
export interface Default {
  readonly name: string;
  readonly unit: string;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly source: string;
  readonly basis: Basis;
  readonly meaning: string;
}

/** One row of a table of defaults. */
export type DefaultRow = readonly [
  name: string,
  unit: string,
  value: number,
  low: number,
  high: number,
  source: string,
  basis: Basis,
  meaning: string,
];

/** Every parameter of the periphery. A test fails on a blank. */
export const defaults: readonly Default[] = [...COUNTS, ...SIZES, ...ACTIVITY, ...SUPPLY].map(
  ([name, unit, value, low, high, source, basis, meaning]) => ({
    name,
    unit,
    value,
    low,
    high,
    source,
    basis,
    meaning,
  }),
);

/** Figures of the periphery that are no laws: each with its range, source and basis. */
import { defaultsOf, type ParameterDefault } from "../define.ts";
import { COUNTS } from "./figures/counts.ts";
import { DIE } from "./figures/die.ts";
import { ACTIVITY, SUPPLY, WRITES } from "./figures/operation.ts";
import { SIZES } from "./figures/sizes.ts";

/** Every parameter of the periphery. A test fails on a blank. */
export const defaults: readonly ParameterDefault[] = defaultsOf([
  ...COUNTS,
  ...SIZES,
  ...ACTIVITY,
  ...SUPPLY,
  ...WRITES,
  ...DIE,
]);

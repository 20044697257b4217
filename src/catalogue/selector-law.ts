/**
 * Which law a selector follows: the word `nonlinear` covers two, told apart by what is known of the
 * device.
 */

import type { Resolved } from "./resolve.ts";

export type SelectorLaw =
  | "none"
  | "transistor"
  | "array-transistor"
  | "array-diode"
  | "diode"
  | "threshold"
  | "tunnel"
  | "mixed_conductor"
  | "complementary";

/**
 * The law of a resolved selector. A nonlinear one that is known by its nonlinearity is a tunnel
 * barrier; one that is known by its emission or scale voltage is exponential through its off
 * current.
 */
export function selectorLaw(selector: Resolved): SelectorLaw {
  const { variant, parameters } = selector;
  if (variant !== "nonlinear") return (variant ?? "none") as SelectorLaw;
  return parameters["nonlinearity"] === undefined ? "mixed_conductor" : "tunnel";
}

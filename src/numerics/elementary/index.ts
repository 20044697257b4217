/** The elementary functions, made of operations that the floating-point standard defines to the bit. */

export { atan } from "./arctangent.ts";
export { exp, expm1 } from "./exponential.ts";
export { acosh, asinh, cosh, sinh, tanh } from "./hyperbolic.ts";
export { log, log1p, log2, log10 } from "./logarithm.ts";
export { cbrt, hypot, pow } from "./power.ts";
export { cos, sin, tan } from "./trigonometric.ts";

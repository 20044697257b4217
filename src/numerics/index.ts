export * from "./quantile.ts";
export * from "./sampling/random.ts";
export * from "./sampling/sobol.ts";
export * from "./special/erf.ts";
export * from "./special/normal.ts";
export * from "./sum.ts";

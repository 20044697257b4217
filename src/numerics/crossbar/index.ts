/** The crossbar solver. */
export { effectiveResistances } from "./ports.ts";
export * from "./problem.ts";
export * from "./reads.ts";
export { solveCrossbar } from "./solve.ts";

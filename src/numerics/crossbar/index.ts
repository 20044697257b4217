/** The crossbar solver. */
export * from "./branches.ts";
export { effectiveResistances } from "./ports.ts";
export * from "./problem.ts";
export * from "./reads.ts";
export { solveCrossbar } from "./solve.ts";

/** The crossbar solver. */
export * from "./problem.ts";
export { solveCrossbar } from "./solve.ts";

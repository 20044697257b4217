/** The library. It runs in a browser as it does in node; `node.ts` adds what reads and writes files. */
export { type Place, type Problem, TenfoldError } from "./errors/problem.ts";
export * as models from "./models/registry.ts";

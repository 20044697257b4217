/** The library with node's readers and writers. */
export * from "./index.ts";

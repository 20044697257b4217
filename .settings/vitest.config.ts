import { availableParallelism } from "node:os";
import { defineConfig } from "vitest/config";

// A worker per core: left to itself the runner keeps one core free, which on two cores means one test after the other.
const maxWorkers = availableParallelism();

/** Tests that time themselves against a bare node: alone, and after all others. */
const TIMED = "tests/cli/start.test.ts";

// Pure tests share a worker's modules (isolation costs about 0.1 s a file); the others start the built program.
export default defineConfig({
  test: {
    root: new URL("..", import.meta.url).pathname,
    projects: [
      {
        test: {
          name: "pure",
          include: ["tests/**/*.test.ts"],
          exclude: ["tests/cli/**", "tests/bench/**"],
          isolate: false,
          maxWorkers,
          testTimeout: 60_000,
        },
      },
      {
        test: {
          name: "cli",
          include: ["tests/cli/**/*.test.ts"],
          exclude: [TIMED],
          maxWorkers,
          testTimeout: 120_000,
        },
      },
      {
        test: {
          name: "timed",
          include: [TIMED],
          fileParallelism: false,
          sequence: { groupOrder: 1 },
          testTimeout: 120_000,
        },
      },
    ],
  },
});

import { defineConfig } from "vitest/config";

// Pure tests share one worker each (isolation costs about 0.1 s a file); tests that start the built program run one
// file at a time, because they time themselves against a bare node.
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
          testTimeout: 60_000,
        },
      },
      {
        test: {
          name: "cli",
          include: ["tests/cli/**/*.test.ts"],
          fileParallelism: false,
          testTimeout: 120_000,
        },
      },
    ],
  },
});

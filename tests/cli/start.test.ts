import { spawnSync } from "node:child_process";
import { expect, test } from "vitest";
import { PROGRAM, ROOT } from "./run.ts";

const PAIRS = 9;

function seconds(args: readonly string[]): number {
  const from = performance.now();
  const { status } = spawnSync(process.execPath, args, { cwd: ROOT, stdio: "ignore" });
  expect(status).toBe(0);
  return performance.now() - from;
}

/** The median ratio of runs to a bare node right before each, so that a busy machine slows both. */
function timesBareNode(args: readonly string[]): number {
  const ratios = Array.from({ length: PAIRS }, () => {
    const bare = seconds(["-e", "0"]);
    return seconds([PROGRAM, ...args]) / bare;
  });
  return ratios.sort((a, b) => a - b)[(PAIRS - 1) / 2]!;
}

test.each([
  [["--version"], 2],
  [["--help"], 2],
  [["list", "switch"], 4],
])("tenfold %j takes at most %f times a bare node", (args, most) => {
  const ratio = timesBareNode(args);
  console.info(`tenfold ${args.join(" ")}: ${ratio.toFixed(2)} × node -e 0`);
  expect(ratio).toBeLessThan(most);
});

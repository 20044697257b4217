// From the shell to the result, in times of a bare `node -e 0`: medians of paired runs.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

export const name = "start";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const PAIRS = 9;

function milliseconds(args) {
  const from = performance.now();
  const { status } = spawnSync(process.execPath, args, { cwd: ROOT, stdio: "ignore" });
  if (status !== 0) throw new Error(`${args.join(" ")} ended with ${status}`);
  return performance.now() - from;
}

export async function run(report) {
  const study = "configs/tarn-working-memory.yaml";
  for (const [args, aim] of [
    [["--version"], "at most 2"],
    [["--help"], "at most 2"],
    [["check", study], "at most 3"],
    [["compare", study], "at most 6"],
  ]) {
    const ratios = Array.from({ length: PAIRS }, () => {
      const bare = milliseconds(["-e", "0"]);
      return milliseconds(["dist/tenfold.js", ...args]) / bare;
    });
    const median = ratios.sort((a, b) => a - b)[(PAIRS - 1) / 2];
    report(`tenfold ${args[0]}`, median, "× node -e 0", aim);
  }
}

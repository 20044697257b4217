// From the shell to the result, in times of a bare `node -e 0`: medians of paired runs.
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
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

/** The median over runs, each paired with a bare one of its own. */
function ratio(args) {
  const ratios = Array.from({ length: PAIRS }, () => {
    const bare = milliseconds(["-e", "0"]);
    return milliseconds(["dist/tenfold.js", ...args]) / bare;
  });
  return ratios.sort((a, b) => a - b)[(PAIRS - 1) / 2];
}

export async function run(report) {
  const demo = "configs/tarn-working-memory.yaml";
  const folder = mkdtempSync(join(tmpdir(), "tenfold-bench-"));
  try {
    milliseconds(["dist/tenfold.js", "new", join(folder, "small")]);
    const small = join(folder, "small", "study.yaml");
    for (const [label, args, aim] of [
      ["--version", ["--version"], "at most 2"],
      ["--help", ["--help"], "at most 2"],
      ["check, starter study", ["check", small], "at most 3"],
      ["estimate, starter study", ["estimate", small], "at most 4"],
      ["check, demo", ["check", demo], ""],
      ["compare, demo", ["compare", demo], "at most 6"],
    ]) {
      report(`tenfold ${label}`, ratio(args), "× node -e 0", aim);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

// Sweeps: estimates a second against the same formulas in NumPy, two workers against one, memory against points.
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { availableParallelism, loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { estimateStudy, parseFormula, planOf } from "../../dist/node.js";
import { numpyProgram } from "./numpy.mjs";

export const name = "sweep";

const PROGRAM = fileURLToPath(new URL("../../dist/tenfold.js", import.meta.url));
const POINTS = 20_000;
const VARIED = ["temperature", "on_resistance", "drive_effort"];
const QUANTITIES = ["macro_area", "read_latency", "read_energy_per_bit", "standby_power"];

const study = (points, designs = "") => `title: Bench
technology: cmos-65-low-power
defaults: {capacity: 1 Mib, word: 32 bit}
designs:
  one-transistor:
    cell: {switch: oxide-bilayer, selector: transistor}
    tile: {rows: 512, columns: 512, column_share: 16}
${designs}sweep:
  designs: [one-transistor]
  vary:
    drive_effort: {from: 4, to: 8, points: 10}
    on_resistance: {from: 4 kohm, to: 10 kohm, points: 10}
    temperature: {from: 270 K, to: 320 K, points: ${points / 100}}
  quantities: [${QUANTITIES.join(", ")}]
`;

function againstNumpy(report) {
  const source = { named: { text: study(POINTS), file: "bench.yaml" }, set: [], entries: [] };
  const plan = planOf(source);
  const family = plan.families([]).get("one-transistor");
  const { study: read } = plan;
  const columns = VARIED.map(() => new Float64Array(POINTS));
  for (let i = 0; i < POINTS; i++) {
    columns[0][i] = 270 + (50 * i) / POINTS;
    columns[1][i] = 4000 + 3 * (i % 2000);
    columns[2][i] = 4 + (i % 9) / 2;
  }
  // The family takes its columns in the order of the plan's axes.
  const inputs = [columns[2], columns[1], columns[0]];
  const outputs = QUANTITIES.map(() => new Float64Array(POINTS));
  const once = () => {
    const from = performance.now();
    family.evaluate(inputs, POINTS, outputs);
    return performance.now() - from;
  };
  // The shortest of many, as NumPy's: what else the machine does makes runs longer, never shorter.
  const ours = Math.min(...Array.from({ length: 60 }, once));
  const { model } = estimateStudy({ ...read, samples: 16 }, openCatalogue(), parseFormula)
    .designs[0];
  const folder = mkdtempSync(join(tmpdir(), "tenfold-numpy-"));
  try {
    const file = join(folder, "sweep.py");
    writeFileSync(file, numpyProgram(model.program, model.nominal(), VARIED, QUANTITIES, POINTS));
    const env = { ...process.env, OMP_NUM_THREADS: "1", OPENBLAS_NUM_THREADS: "1" };
    const { seconds, sums } = JSON.parse(
      execFileSync("python3", [file], { env, encoding: "utf8" }),
    );
    for (const [k, sum] of sums.entries()) {
      const own = outputs[k].reduce((a, b) => a + b, 0);
      if (!(Math.abs(own / sum - 1) < 1e-9))
        throw new Error(`${QUANTITIES[k]}: ${own} is not NumPy's ${sum}`);
    }
    report("estimates, one thread", (1000 * POINTS) / ours, "/s");
    report("the same formulas in NumPy", POINTS / seconds, "/s");
    report("ours / NumPy", (1000 * seconds) / ours, "", "at least 1");
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

let openCatalogue;

/** Seconds of a sweep by the program, and the most memory that it took [MiB]. */
function sweep(folder, points, workers, ending = "csv") {
  const file = join(folder, `bench-${points}.yaml`);
  writeFileSync(file, study(points));
  const out = join(folder, `out.${ending}`);
  const code = `process.on("exit",()=>{require("fs").writeSync(2,"RSS "+process.resourceUsage().maxRSS+"\\n")});import(${JSON.stringify(PROGRAM)})`;
  const args = ["sweep", file, "--out", out, "--force", "--quiet", "--workers", String(workers)];
  const from = performance.now();
  const { status, stderr } = spawnSync(process.execPath, ["-e", code, "tenfold", ...args], {
    encoding: "utf8",
  });
  if (status !== 0) throw new Error(stderr);
  return {
    seconds: (performance.now() - from) / 1000,
    memory: Number(/RSS (\d+)/.exec(stderr)[1]) / 1024,
  };
}

export async function run(report) {
  const { openText } = await import("../../dist/node.js");
  const { catalogue } = await openText({ text: study(POINTS), file: "bench.yaml" }, "bench.yaml");
  openCatalogue = () => catalogue;
  const numpy = spawnSync("python3", ["-c", "import numpy"]).status === 0;
  if (numpy) againstNumpy(report);
  else report("SKIPPED: python3 has no numpy");
  const folder = mkdtempSync(join(tmpdir(), "tenfold-sweep-"));
  try {
    // The least of several, one after the other: what else runs on the machine only adds.
    const pairs = Array.from({ length: 2 }, () =>
      [1, 2].map((workers) => sweep(folder, 4_000_000, workers).seconds),
    );
    const [one, two] = [0, 1].map((k) => Math.min(...pairs.map((pair) => pair[k])));
    report(
      `two workers / one, ${availableParallelism()} processors, load ${loadavg()[0].toFixed(1)}`,
      one / two,
      "",
      "at least 1.8 on idle ones",
    );
    for (const ending of ["csv", "jsonl", "parquet"]) {
      const [few, some, many] = [10_000, 100_000, 1_000_000].map(
        (points) => sweep(folder, points, 1, ending).memory,
      );
      report(`${ending}: memory at 10^4 points`, few, "MiB");
      report(`${ending}: memory at 10^5 / at 10^4`, some / few, "", "1");
      report(`${ending}: memory at 10^6 / at 10^4`, many / few, "", "1");
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

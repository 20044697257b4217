// The crossbar solver against general sparse direct solvers, one thread each: CHOLMOD by a small C driver and scipy by
// a child process. Ours is timed at the accuracy that passes the oracle, theirs as they come.
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { allReads, solveCrossbar } from "../../dist/numerics.js";
import { problemOf, writeEquations } from "./crossbar-cases.mjs";

export const name = "crossbar";

const here = (file) => fileURLToPath(new URL(file, import.meta.url));
const env = { ...process.env, OPENBLAS_NUM_THREADS: "1", OMP_NUM_THREADS: "1" };

// pattern, rows, columns, segment, grounded or floating, aim, direct solvers (false: ours alone)
const CASES = [
  ["log", 64, 64, 10, "g", "at least 1"],
  ["log", 256, 256, 10, "g", "at least 12"],
  ["log", 512, 512, 10, "g", "at least 25"],
  ["log", 512, 512, 10, "f", "at least 25"],
  ["checkerboard", 512, 512, 10, "f", "at least 12"],
  ["1k", 512, 512, 10, "f", "at least 12"],
  ["log", 1024, 1024, 10, "g", "at least 20"],
  ["log", 1024, 1024, 1, "g", "at least 8"],
  ["1k", 1024, 1024, 10, "f", "at least 8"],
  ["checkerboard", 1024, 1024, 10, "f", "at least 8"],
];
const ALONE = [
  ["50", 1024, 1024, 20, "f", "under 5 s"],
  ["log", 2048, 2048, 10, "g", "solves"],
  ["log", 16, 2048, 10, "g", "solves"],
  ["log", 2048, 16, 10, "g", "solves"],
  ["log", 1, 64, 10, "g", "solves"],
  ["wide", 256, 256, 20, "f", "solves"],
];

function json(command, args) {
  return JSON.parse(
    execFileSync(command, args, { env, encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] }),
  );
}

/** Compiles the driver; undefined with the reason said when it cannot be had. */
function cholmod(folder, report) {
  const program = join(folder, "crossbar-direct");
  const include = ["-I/usr/include/suitesparse"];
  const built = spawnSync("cc", [
    "-O2",
    ...include,
    here("crossbar-direct.c"),
    "-o",
    program,
    "-lcholmod",
  ]);
  if (built.status === 0) return (file, repeats) => json(program, [file, String(repeats)]);
  report("CHOLMOD is not here: needs a C compiler and libsuitesparse-dev (with an optimised BLAS)");
  return undefined;
}

function scipy(report) {
  const there = spawnSync("python3", ["-c", "import scipy.sparse.linalg"], { env });
  if (there.status === 0) {
    return (file, repeats) => json("python3", [here("crossbar-direct.py"), file, String(repeats)]);
  }
  report("scipy is not here: needs python3 with scipy");
  return undefined;
}

const title = ([pattern, m, n, r, lines]) =>
  `${pattern} ${m} x ${n}, ${r} ohm, ${lines === "f" ? "floating" : "grounded"}`;
const ours = (one) =>
  json(process.execPath, [here("crossbar-ours.mjs"), ...one.slice(0, 5).map(String)]);

function against(one, solvers, folder, report) {
  const [pattern, m, n, r, lines, aim] = one;
  const file = join(folder, "case.bin");
  writeEquations(problemOf(pattern, m, n, r, lines === "f"), file);
  const mine = ours(one);
  const cells = m * n;
  const theirs = solvers
    // The slower of the two is left out where it would take minutes.
    .filter(({ most }) => cells <= most)
    .map(({ label, solve }) => ({ label, ...solve(file, cells > 3e5 ? 1 : 3) }));
  if (theirs.length === 0) return report(title(one), mine.seconds, "s (nothing to compare with)");
  const best = theirs.reduce((a, b) => (a.seconds < b.seconds ? a : b));
  report(title(one), best.seconds / mine.seconds, `× faster than ${best.label}`, aim);
  report(
    `  memory of the process, ${mine.iterations} iterations`,
    best.megabytes / mine.megabytes,
    "× less",
  );
  if (cells === 1024 * 1024) report("  megabytes", mine.megabytes, "MB", "at most 300");
}

function many(report) {
  const { terminals: _none, ...array } = problemOf("log", 128, 128, 10, false);
  const others = { rows: 0, columns: 0 };
  const scheme = { voltage: 1, rowTerminal: 100, columnTerminal: 100, others };
  const problem = problemOf("log", 128, 128, 10, false);
  const time = (f) => {
    const from = performance.now();
    f();
    return performance.now() - from;
  };
  for (let k = 0; k < 20; k++) solveCrossbar(problem);
  const one = Math.min(...Array.from({ length: 20 }, () => time(() => solveCrossbar(problem))));
  const all = time(() => allReads(array, scheme));
  report("all reads of 128 x 128", all / one, "× one solve", "at most 512");
}

function growth(report) {
  const times = [256, 512, 1024, 2048].map((n) => ours(["log", n, n, 10, "g"]).seconds);
  const exponent = Math.log(times[3] / times[0]) / Math.log(64);
  report("growth, unknowns to the power", exponent, "", "at most 1.15");
}

function newton(report) {
  const linear = problemOf("log", 256, 256, 10, false);
  const kinds = [0, 1, 2, 3].map((k) => ({
    element: { law: "sinh", resistance: 1e6 * 4 ** k, scaleVoltage: 0.25 },
  }));
  const kindOf = Uint8Array.from({ length: 65536 }, (_, k) => ((k * 7) % 11) % 4);
  const threshold = {
    onResistance: 1e4,
    offResistance: 1e7,
    thresholdVoltage: 0.6,
    widthVoltage: 0.03,
  };
  const families = {
    sinh: kinds,
    diode: kinds.map(({ element }) => ({
      element: { law: "ohmic", resistance: element.resistance },
      selector: { law: "diode", saturationCurrent: 1e-10, emissionVoltage: 0.05 },
    })),
    threshold: kinds.map(() => ({ element: { law: "threshold", ...threshold } })),
  };
  const best = (problem) => {
    let least = Infinity;
    let solution;
    for (let k = 0; k < 8; k++) {
      const from = performance.now();
      solution = solveCrossbar(problem);
      least = Math.min(least, performance.now() - from);
    }
    return { least, solution };
  };
  const one = best(linear).least;
  for (const [label, list] of Object.entries(families)) {
    const { least, solution } = best({ ...linear, junctions: { kinds: list, kindOf } });
    const aim = label === "sinh" ? "at most 4" : "";
    report(
      `256 x 256 ${label}: ${solution.linearSolves} linear solves`,
      least / one,
      "× linear",
      aim,
    );
  }
}

export async function run(report) {
  const folder = mkdtempSync(join(tmpdir(), "crossbar-"));
  try {
    const solvers = [
      { label: "CHOLMOD", solve: cholmod(folder, report), most: Infinity },
      { label: "scipy", solve: scipy(report), most: 7e4 },
    ].filter(({ solve }) => solve !== undefined);
    for (const one of CASES) against(one, solvers, folder, report);
    for (const one of ALONE) {
      const { seconds, megabytes } = ours(one);
      report(title(one), seconds, `s, ${megabytes.toFixed(0)} MB`, one[5]);
    }
    growth(report);
    many(report);
    newton(report);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

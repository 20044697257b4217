// How many deliberate breakages the tests notice: a sample of the mutants of some folders, with an interval.
//   node .settings/mutants.mjs --folders formulas,numerics --tests formulas,numerics --lines 100 --seed 1
// All of them would take days on two cores. The tool is no dependency of the project: it is installed, at these versions,
// into a copy of the checkout that is thrown away.
import { execFileSync } from "node:child_process";
import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { parseArgs } from "node:util";
import { root } from "./fingerprint.mjs";

const TOOL = ["@stryker-mutator/core@9.6.1", "@stryker-mutator/vitest-runner@9.6.1"];
const { values } = parseArgs({
  options: {
    folders: { type: "string", default: "formulas,models,numerics" },
    tests: { type: "string", default: "formulas,models,numerics,outside,estimate" },
    lines: { type: "string", default: "100" },
    seed: { type: "string", default: "1" },
  },
});

const copy = join(root, `.bench/mutants-${process.pid}`);
const run = (command, args) => execFileSync(command, args, { cwd: copy, stdio: ["ignore", "inherit", "inherit"] });
try {
  for (const file of execFileSync("git", ["ls-files"], { cwd: root, encoding: "utf8" }).trim().split("\n")) {
    mkdirSync(dirname(join(copy, file)), { recursive: true });
    cpSync(join(root, file), join(copy, file));
  }
  run("npm", ["ci", "--silent"]);
  run("npm", ["install", "--silent", "--no-save", ...TOOL]);
  writeFileSync(join(copy, ".settings/mutants.json"), JSON.stringify(settings(), null, 1));
  writeFileSync(join(copy, ".settings/vitest.mutants.config.ts"), testSettings());
  run("npx", ["stryker", "run", ".settings/mutants.json"]);
  tell(JSON.parse(readFileSync(join(copy, ".bench/mutants.json"), "utf8")));
} finally {
  rmSync(copy, { recursive: true, force: true });
}

function settings() {
  return {
    testRunner: "vitest",
    vitest: { configFile: ".settings/vitest.mutants.config.ts", related: false },
    reporters: ["clear-text", "json"],
    jsonReporter: { fileName: ".bench/mutants.json" },
    tempDirName: ".bench/stryker",
    coverageAnalysis: "perTest",
    // The compiler of this project has no programming interface that the tool knows.
    tsconfigFile: "none.json",
    timeoutMS: 30_000,
    mutate: sampledLines(),
  };
}

function testSettings() {
  const include = values.tests.split(",").map((name) => `tests/${name}/**/*.test.ts`);
  return `import { defineConfig } from "vitest/config";
export default defineConfig({
  test: { root: ${JSON.stringify(copy)}, include: ${JSON.stringify(include)}, isolate: false, testTimeout: 120_000 },
});
`;
}

/** Lines of code, drawn alike from all files: comments, types and imports have no mutants. */
function sampledLines() {
  const lines = values.folders.split(",").flatMap((folder) =>
    filesIn(`src/${folder}`).flatMap((file) =>
      readFileSync(join(root, file), "utf8")
        .split("\n")
        .flatMap((line, i) =>
          /^\s*(\/\/|\/?\*|import|export (type|interface)|[})\]]|$)/.test(line) ? [] : [`${file}:${i + 1}-${i + 1}`],
        ),
    ),
  );
  let state = Number(values.seed) >>> 0;
  const next = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  const chosen = new Set();
  const wanted = Math.min(Number(values.lines), lines.length);
  while (chosen.size < wanted) chosen.add(lines[Math.floor(next() * lines.length)]);
  return [...chosen];
}

function filesIn(folder) {
  return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(".ts"))
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name).slice(root.length).replace(/^[\\/]/, ""))
    .sort();
}

/** Share that was noticed, with the interval of Wilson's score at 95 %. */
function tell({ files }) {
  const mutants = Object.values(files).flatMap(({ mutants: own }) => own);
  const of = (...kinds) => mutants.filter(({ status }) => kinds.includes(status)).length;
  const noticed = of("Killed", "Timeout");
  const counted = noticed + of("Survived", "NoCoverage");
  const z = 1.96;
  const share = noticed / counted;
  const middle = (share + z ** 2 / (2 * counted)) / (1 + z ** 2 / counted);
  const half = (z / (1 + z ** 2 / counted)) * Math.sqrt((share * (1 - share)) / counted + z ** 2 / (4 * counted ** 2));
  const percent = (x) => `${(100 * x).toFixed(0)} %`;
  console.log(
    `${noticed} of ${counted} sampled mutants noticed: ${percent(share)}, 95 % interval ` +
      `${percent(middle - half)} to ${percent(middle + half)}; ${of("NoCoverage")} in code that these tests do not reach`,
  );
}

// How many deliberate breakages the tests notice: a random sample of the mutants of some folders, with an interval.
//   node .settings/mutants.mjs --folders formulas --tests formulas --count 250 --seed 1
// All of them would take days on two cores. The tool is no dependency of the project: it is installed, at these versions,
// into a copy of the checkout that is thrown away. Survivors that have a reason stand in tests/mutants/*.yaml.
import { execFileSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join, relative, resolve } from "node:path";
import { parseArgs } from "node:util";
import { pathToFileURL } from "node:url";
import { root } from "./fingerprint.mjs";

const TOOL = ["@stryker-mutator/core@9.6.1", "@stryker-mutator/vitest-runner@9.6.1"];
const { values } = parseArgs({
  options: {
    folders: { type: "string", default: "formulas,models,numerics" },
    tests: { type: "string" },
    count: { type: "string", default: "100" },
    seed: { type: "string", default: "1" },
    /** The share of mutants that is asked for: fails where even the upper end of the interval is below. */
    least: { type: "string", default: "0" },
    /** A folder for the copy that stays, so that the next run need not install everything again. */
    copy: { type: "string" },
  },
});
const folders = values.folders.split(",");
const testFolders = (values.tests ?? values.folders).split(",");

const copy = values.copy === undefined ? join(root, `.bench/mutants-${process.pid}`) : resolve(values.copy);
const run = (command, args) => execFileSync(command, args, { cwd: copy, stdio: ["ignore", "inherit", "inherit"] });
try {
  copyTracked();
  if (!existsSync(join(copy, "node_modules/@stryker-mutator"))) {
    run("npm", ["ci", "--silent"]);
    run("npm", ["install", "--silent", "--no-save", ...TOOL]);
  }
  const all = await mutantsOf(folders.flatMap((folder) => filesIn(`src/${folder}`)));
  const chosen = sample(all, Number(values.count), Number(values.seed));
  console.log(`${chosen.length} of the ${all.length} mutants of ${folders.join(", ")}, seed ${values.seed}`);
  mkdirSync(join(copy, ".bench"), { recursive: true });
  writeFileSync(join(copy, ".bench/chosen.json"), JSON.stringify(chosen.map(keyOf)));
  writeFileSync(join(copy, ".settings/mutants.json"), JSON.stringify(settings(chosen), null, 1));
  writeFileSync(join(copy, ".settings/vitest.mutants.config.ts"), testSettings());
  run("npx", ["stryker", "run", ".settings/mutants.json"]);
  tell(JSON.parse(readFileSync(join(copy, ".bench/mutants.json"), "utf8")));
} finally {
  if (values.copy === undefined) rmSync(copy, { recursive: true, force: true });
}

function copyTracked() {
  for (const old of ["src", "tests", ".bench"]) rmSync(join(copy, old), { recursive: true, force: true });
  for (const file of execFileSync("git", ["ls-files"], { cwd: root, encoding: "utf8" }).trim().split("\n")) {
    if (!existsSync(join(root, file))) continue;
    mkdirSync(dirname(join(copy, file)), { recursive: true });
    cpSync(join(root, file), join(copy, file));
  }
}

function filesIn(folder) {
  return readdirSync(join(copy, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(".ts"))
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
    .sort();
}

/** Every mutant that the tool would make, without running one. */
async function mutantsOf(files) {
  const tool = createRequire(createRequire(join(copy, "package.json")).resolve("@stryker-mutator/core"));
  const { Instrumenter } = await import(pathToFileURL(tool.resolve("@stryker-mutator/instrumenter")).href);
  const logger = { debug: () => {}, info: () => {}, isDebugEnabled: () => false };
  const inputs = files.map((name) => ({ name, mutate: true, content: readFileSync(name, "utf8") }));
  const options = { plugins: null, excludedMutations: [], ignorers: [] };
  return (await new Instrumenter(logger).instrument(inputs, options)).mutants;
}

/** Every mutant with the same chance, none twice: the first of a shuffle by a small generator of 32 bits. */
function sample(all, count, seed) {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let bits = Math.imul(state ^ (state >>> 15), state | 1);
    bits ^= bits + Math.imul(bits ^ (bits >>> 7), bits | 61);
    return ((bits ^ (bits >>> 14)) >>> 0) / 2 ** 32;
  };
  const rest = [...all];
  const wanted = Math.min(count, rest.length);
  return Array.from({ length: wanted }, () => rest.splice(Math.floor(next() * rest.length), 1)[0]);
}

function keyOf({ fileName, location: { start, end }, mutatorName, replacement }) {
  return [relative(copy, fileName), start.line, start.column, end.line, end.column, mutatorName, replacement].join(" ");
}

/** Only the code about the chosen mutants is prepared for breaking, which makes it slow. */
function settings(chosen) {
  return {
    testRunner: "vitest",
    vitest: { configFile: ".settings/vitest.mutants.config.ts", related: false },
    plugins: ["@stryker-mutator/vitest-runner", "./.settings/mutants-chosen.mjs"],
    checkers: ["chosen"],
    reporters: ["json", "chosen"],
    jsonReporter: { fileName: ".bench/mutants.json" },
    inPlace: true,
    concurrency: 1,
    coverageAnalysis: "perTest",
    // The compiler of this project has no programming interface that the tool knows.
    tsconfigFile: "none.json",
    dryRunTimeoutMinutes: 60,
    // What a machine that does other work as well needs: a mutant that is only slow must not count as noticed.
    timeoutMS: 10_000,
    timeoutFactor: 1.5,
    allowEmpty: true,
    mutate: [
      ...new Set(
        chosen.map(({ fileName, location: { start, end } }) => {
          const place = `${start.line + 1}:${start.column}-${end.line + 1}:${end.column}`;
          return `${relative(copy, fileName)}:${place}`;
        }),
      ),
    ],
  };
}

/**
 * The tests that lie nearest to a mutant first, and quick ones before slow ones: most mutants then cost little. Isolated,
 * since what a module keeps would otherwise count as reached by the one test that had it made.
 */
function testSettings() {
  const include = testFolders.map((name) => `tests/${name}/**/*.test.ts`);
  return `import { existsSync, readFileSync } from "node:fs";
import { basename, dirname } from "node:path";
import { BaseSequencer } from "vitest/node";
import { defineConfig } from "vitest/config";
const root = ${JSON.stringify(copy)};
let places;
function placeOf(id) {
  if (places === undefined && existsSync(root + "/.bench/places.json"))
    places = JSON.parse(readFileSync(root + "/.bench/places.json", "utf8"));
  return places?.[id] ?? "";
}
class NearestFirst extends BaseSequencer {
  async sort(files) {
    const place = placeOf(this.ctx.getRootProject().getProvidedContext().activeMutant).replace(/^src/, "tests");
    const cost = ({ project, moduleId }) => {
      const path = moduleId.slice(root.length);
      const near = "/" + dirname(place) === dirname(path);
      const named = basename(path).startsWith(basename(place, ".ts") + ".");
      const took = this.ctx.cache.getFileTestResults(project.name + ":" + path)?.duration ?? 0;
      return took - (named ? 2e9 : 0) - (near ? 1e9 : 0);
    };
    return [...files].sort((a, b) => cost(a) - cost(b) || (a.moduleId < b.moduleId ? -1 : 1));
  }
}
export default defineConfig({
  test: {
    root,
    include: ${JSON.stringify(include)},
    isolate: true,
    testTimeout: 3_600_000,
    sequence: { sequencer: NearestFirst },
  },
});
`;
}

/** Share that was noticed, with the interval of Wilson's score at 95 %, and what nothing noticed. */
function tell({ files }) {
  const mutants = Object.entries(files).flatMap(([file, { source, mutants: own }]) =>
    own.map((mutant) => ({
      ...mutant,
      file,
      line: source.split("\n")[mutant.location.start.line - 1],
      original: textAt(source, mutant.location),
    })),
  );
  const of = (...kinds) => mutants.filter(({ status }) => kinds.includes(status));
  const noticed = of("Killed", "Timeout").length;
  const known = reasons();
  const missed = of("Survived", "NoCoverage");
  const counted = noticed + missed.length;
  for (const mutant of of("Timeout")) console.log(`noticed by time: ${describe(mutant)}`);
  let explained = 0;
  for (const mutant of missed) {
    const reason = known.get(listed(mutant));
    if (reason !== undefined) explained++;
    console.log(`${mutant.status === "Survived" ? "survived" : "not reached"}: ${describe(mutant)}`);
    if (reason !== undefined) console.log(`  ${reason.trim()}`);
  }
  const z = 1.96;
  const share = noticed / counted;
  const middle = (share + z ** 2 / (2 * counted)) / (1 + z ** 2 / counted);
  const half = (z / (1 + z ** 2 / counted)) * Math.sqrt((share * (1 - share)) / counted + z ** 2 / (4 * counted ** 2));
  const percent = (x) => `${(100 * x).toFixed(0)} %`;
  console.log(
    `${noticed} of ${counted} sampled mutants noticed: ${percent(share)}, 95 % interval ` +
      `${percent(middle - half)} to ${percent(middle + half)}; of the others ${of("NoCoverage").length} are in code ` +
      `that these tests do not reach and ${explained} have a reason in tests/mutants`,
  );
  if (middle + half < Number(values.least)) process.exitCode = 1;
}

/** The text between two places; lines and columns from 1. */
function textAt(source, { start, end }) {
  const lines = source.split("\n").slice(start.line - 1, end.line);
  lines[lines.length - 1] = lines.at(-1).slice(0, end.column - 1);
  return lines.join("\n").slice(start.column - 1);
}

function describe({ file, location, original, replacement }) {
  const short = (text) => JSON.stringify(text.replace(/\s+/g, " ").slice(0, 160));
  return `${file}:${location.start.line}:${location.start.column} ${short(original)} -> ${short(replacement)}`;
}

/** What a mutant is known by, wherever its line has moved to. */
function listed({ file, line, original, replacement }) {
  return JSON.stringify([file, line, original, replacement].map((text) => text.replace(/\s+/g, " ").trim()));
}

/** Survivors with a reason: the file, its line, the text and what it was replaced by, why no test can tell. */
function reasons() {
  const folder = join(root, "tests/mutants");
  if (!existsSync(folder)) return new Map();
  const { load } = createRequire(join(copy, "package.json"))("js-yaml");
  return new Map(
    readdirSync(folder)
      .filter((name) => name.endsWith(".yaml"))
      .flatMap((name) => load(readFileSync(join(folder, name), "utf8")))
      .map((entry) => [listed(entry), entry.reason]),
  );
}

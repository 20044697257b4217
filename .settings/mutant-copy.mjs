// What the two samples of mutants of src/models share: a copy of the project, its tests in a process that may be ended,
// which test file reaches what, and the share that was noticed.
import { execFileSync, fork } from "node:child_process";
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { load } from "js-yaml";
import { root } from "./fingerprint.mjs";

/** The names of all test files, in a copy. */
const LIST = "tests.tmp.json";

/** Tests that belong to src/models, in the order in which they run. */
const FOLDERS = ["tests/models", "tests/outside", "tests/estimate"];

/** Test files that take longer than what they notice is worth here, or await while they load. */
const LEFT_OUT = new RegExp(
  "^tests/estimate/(recipes|family|conservation|metamorphic|crossbar/(worst-patterns|intervals|closed-forms|largest))",
);

/** Test files of seconds, and the folders of src/models for whose mutants they run. */
const SLOW = {
  "tests/models/cells/draws.test.ts": ["cells"],
  "tests/models/switch/fit-times.test.ts": ["switch/fit"],
  "tests/models/switch/fit-loop.test.ts": ["switch/fit"],
  "tests/models/switch/geometry-transients.test.ts": ["switch/geometry"],
  "tests/models/switch/geometry-pulse.test.ts": ["switch/geometry"],
  "tests/models/reliability/pair-reads.test.ts": ["reliability", "registry"],
  "tests/models/reliability/tile-repair.test.ts": ["reliability"],
  "tests/outside/claims.test.ts": ["functions"],
  "tests/outside/reliability.test.ts": ["reliability"],
  "tests/estimate/reliability-aging.test.ts": ["reliability"],
  "tests/estimate/ledger.test.ts": ["periphery", "cells"],
  "tests/outside/crossbar-oracle.test.ts": ["crossbar/margin", "crossbar/patterns", "junction"],
  "tests/outside/crossbar-dense.test.ts": ["crossbar/margin", "crossbar/patterns", "junction"],
};

/** Copies what is tracked; the packages are those of the checkout. */
export function makeCopy(name) {
  const copy = join(root, `.bench/${name}-${process.pid}`);
  for (const file of execFileSync("git", ["ls-files"], { cwd: root, encoding: "utf8" }).trim().split("\n")) {
    if (!existsSync(join(root, file))) continue;
    mkdirSync(dirname(join(copy, file)), { recursive: true });
    cpSync(join(root, file), join(copy, file));
  }
  symlinkSync(join(root, "node_modules"), join(copy, "node_modules"));
  writeFileSync(join(copy, LIST), JSON.stringify(testFiles(copy)));
  return copy;
}

function testFiles(copy) {
  return FOLDERS.flatMap((folder) =>
    readdirSync(join(copy, folder), { recursive: true, withFileTypes: true })
      .filter((entry) => entry.name.endsWith(".test.ts"))
      .map((entry) => join(entry.parentPath ?? entry.path, entry.name).slice(copy.length + 1))
      .filter((file) => !LEFT_OUT.test(file)),
  ).sort();
}

/** The tests of a copy. `run` answers with what failed first; a process that takes too long is ended. */
export class Host {
  constructor(copy) {
    this.copy = copy;
  }

  async #start() {
    const options = { stdio: ["ignore", "ignore", "inherit", "ipc"] };
    this.child = fork(join(root, ".settings/mutant-host.mjs"), [this.copy, join(this.copy, LIST)], options);
    await this.#answer(120);
  }

  #answer(seconds) {
    const { child } = this;
    return new Promise((resolve) => {
      const done = (result) => {
        clearTimeout(timer);
        child.off("message", done);
        child.off("exit", ended);
        resolve(result);
      };
      const ended = () => done({ failed: true, by: "the tests' process ended", lost: true });
      const timer = setTimeout(() => done({ failed: true, by: `more than ${seconds} s`, lost: true }), seconds * 1000);
      child.on("message", done);
      child.on("exit", ended);
    });
  }

  async run(files, mutant, seconds, coverage) {
    if (this.child === undefined) await this.#start();
    this.child.send({ files, mutant, coverage });
    const result = await this.#answer(seconds);
    if (result.lost) this.end();
    return result;
  }

  end() {
    const { child } = this;
    this.child = undefined;
    child?.kill("SIGKILL");
  }
}

/** What a slow test file is taken to reach in the folders for which it runs. */
const EVERYTHING = { has: () => true };

/** Each test file by itself: seconds, and what it reaches. */
export async function coverageOf(copy, host) {
  const out = join(copy, "coverage.json");
  const files = testFiles(copy);
  const list = [];
  for (const file of files) {
    if (SLOW[file] !== undefined) {
      list.push({ file, seconds: 30, formulas: EVERYTHING, mutants: EVERYTHING });
      continue;
    }
    rmSync(out, { force: true });
    const { failed, by, seconds } = await host.run([file], {}, 300, out);
    if (failed) throw new Error(`tests fail without a mutant: ${by}`);
    const { formulas, mutants } = JSON.parse(readFileSync(out, "utf8"));
    list.push({ file, seconds, formulas: new Set(formulas), mutants: new Set(mutants) });
  }
  return list.sort((a, b) => a.seconds - b.seconds);
}

/** Files that reach something of a source file, those beside its folder first, then the quickest. */
export function testsFor(source, covering) {
  const place = source.replace("src/models/", "");
  const belongs = ({ file }) => SLOW[file] === undefined || SLOW[file].some((start) => place.startsWith(start));
  const near = ({ file }) => (file.startsWith(`tests/models/${place.split("/")[0]}/`) ? 0 : 1);
  const quick = ({ file }) => (SLOW[file] === undefined ? 0 : 2);
  const kept = covering.filter(belongs);
  return kept.sort((a, b) => near(a) + quick(a) - near(b) - quick(b) || a.seconds - b.seconds);
}

/** Numbers in [0, 1), the same for a seed on every machine. */
export function generator(seed) {
  let state = Number(seed) >>> 0;
  return () => {
    // Weyl steps through a mixing of bits: low bits are as good as high ones.
    state = (state + 0x9e3779b9) >>> 0;
    let x = state;
    x = Math.imul(x ^ (x >>> 16), 0x21f0aaad);
    x = Math.imul(x ^ (x >>> 15), 0x735a2d97);
    return ((x ^ (x >>> 15)) >>> 0) / 2 ** 32;
  };
}

/** `wanted` entries, each as likely as any other. */
export function sampleOf(list, wanted, next) {
  const left = [...list];
  const chosen = [];
  while (left.length > 0 && chosen.length < wanted) {
    chosen.push(...left.splice(Math.floor(next() * left.length), 1));
  }
  return chosen;
}

/** Share with the interval of Wilson's score at 95 %. */
export function share(noticed, counted) {
  if (counted === 0) return "none";
  const z = 1.96;
  const p = noticed / counted;
  const middle = (p + z ** 2 / (2 * counted)) / (1 + z ** 2 / counted);
  const half = (z / (1 + z ** 2 / counted)) * Math.sqrt((p * (1 - p)) / counted + z ** 2 / (4 * counted ** 2));
  const percent = (x) => (100 * x).toFixed(1);
  return `${noticed} of ${counted}, ${percent(p)} % (${percent(middle - half)} to ${percent(middle + half)} %)`;
}

/** Shares by folder of src/models, and of all; survivors that have a reason still count as not noticed. */
export function tell(results) {
  const folderOf = ({ source }) => source.match(/^src\/models\/(.*)\/[^/]*$/)?.[1].split("/")[0] ?? "(files)";
  for (const folder of [...new Set(results.map(folderOf))].sort()) {
    const own = results.filter((one) => folderOf(one) === folder);
    console.log(`${folder.padEnd(12)} ${share(own.filter((one) => one.failed).length, own.length)}`);
  }
  console.log(`${"all".padEnd(12)} ${share(results.filter((one) => one.failed).length, results.length)}`);
}

/** Why no test can tell a survivor, where tests/mutants has a reason: by its file and its two texts. */
export function reasons() {
  const folder = join(root, "tests/mutants");
  if (!existsSync(folder)) return () => undefined;
  const lists = readdirSync(folder).filter((name) => name.endsWith(".yaml"));
  const entries = lists.flatMap((name) => load(readFileSync(join(folder, name), "utf8")));
  const plain = (text) => text.replace(/\s+/g, " ").trim();
  const keyOf = (file, original, mutation) => JSON.stringify([file, plain(original), plain(mutation)]);
  const known = new Map(
    entries.map(({ file, original, replacement, mutation = replacement, reason }) => [
      keyOf(file, original, mutation),
      reason.trim(),
    ]),
  );
  return (file, original, mutation) => known.get(keyOf(file, original, mutation));
}

/** Runs what is left of a sample, one mutant after the other, and says what each met. */
export async function runAll(mutants, host, testsOf, keyOf, print) {
  const results = [];
  for (const mutant of mutants) {
    const tests = testsOf(mutant);
    const limit = 30 + 4 * tests.reduce((sum, { seconds }) => sum + seconds, 0);
    const result =
      tests.length === 0
        ? { failed: false, by: "no test reaches it" }
        : await host.run(
            tests.map(({ file }) => file),
            keyOf(mutant),
            limit,
          );
    results.push({ ...mutant, ...result });
    print({ ...mutant, ...result }, results.length);
  }
  // What a mutant left behind in the process must not have noticed others.
  const reached = new Set(mutants.flatMap(testsOf).map(({ file }) => file));
  const sound = await host.run([...reached], {}, 1200);
  if (sound.failed) throw new Error(`after the sample, without a mutant: ${sound.by}`);
  return results;
}

// Generated studies against the whole program: `npm run fuzz -- --cases 100000 --seed 1`. Each finding is printed with
// its text and ends the run with 1; put the text into `tests/fuzz/findings/`, which every test run reads again.
import { spawnSync } from "node:child_process";
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { availableParallelism } from "node:os";
import { parseArgs } from "node:util";
import { Worker } from "node:worker_threads";
import { build } from "esbuild";
import { load } from "js-yaml";

const root = new URL("../..", import.meta.url).pathname;
const { values } = parseArgs({
  options: {
    cases: { type: "string", default: "100000" },
    seed: { type: "string", default: "1" },
    workers: { type: "string", default: String(availableParallelism()) },
    reasons: { type: "boolean", default: false },
    seconds: { type: "string", default: "2" },
    keep: { type: "string" },
    how: { type: "string" },
  },
});
const total = Number(values.cases);
const seed = Number(values.seed);
const workers = Math.min(Number(values.workers), total);

/** Of processor time, so that a busy machine accuses nobody. */
const LONGEST_SECONDS = Number(values.seconds);
/**
 * Tiles of more than 100 lines, whose networks take seconds where cells are a crossbar, the search for a tile, and what
 * carries uncertainty: computations that take long, and may.
 */
const LARGE = /^uncertainty:|tile: ["']?auto|(?:rows|columns): ["']?(?:\d{3}|auto)/m;
const FOR_LARGE = 15;
/** Networks of tens of thousands of lines, up to the most that is solved, take minutes. */
const HUGE = /(?:rows|columns): ["']?\d{5}/m;
const FOR_HUGE = 90;
/** Of the clock, for what never ends. */
const LONGEST_WAIT = 180_000;
const MOST_FINDINGS = 20;
const LONG_RUN = 20_000;
/** Share of the generated networks that the solver may give up, or a number of them where they are few. */
const MOST_UNSOLVED = 0.001;
const FEW_UNSOLVED = 2;
/** Cases leave much behind at once: a larger young heap is swept less often. */
const YOUNG = { maxYoungGenerationSizeMb: 128 };
const NONE = { figures: 0, broken: 0, refused: 0, unsolved: 0, finding: 0, seconds: 0 };

const dist = `${root}.bench/fuzz-${process.pid}`;
mkdirSync(dist, { recursive: true });
let findings = 0;
let judged = 0;
const outcomes = { figures: 0, broken: 0, refused: 0, unsolved: 0 };
const slowest = [];
const reasons = new Map();
/** By how a case was made: outcomes and processor time. */
const ways = new Map();

try {
  await build({
    entryPoints: [`${root}tests/fuzz/worker.ts`],
    outfile: `${dist}/worker.mjs`,
    bundle: true,
    format: "esm",
    platform: "node",
    target: "node20",
    logLevel: "error",
    banner: {
      js: "import{createRequire as __cr}from'node:module';const require=__cr(import.meta.url);",
    },
    define: { TENFOLD_VERSION: '"fuzz"' },
  });
  const material = materialOf();
  const share = Math.ceil(total / workers);
  await Promise.all(
    Array.from({ length: workers }, (_, w) =>
      runCases({
        material,
        seed,
        how: values.how,
        first: w * share,
        count: Math.min(share, total - w * share),
      }),
    ),
  );
} finally {
  rmSync(dist, { recursive: true, force: true });
}
const done = Object.values(outcomes).reduce((sum, one) => sum + one, 0);
const crossbars = ways.get("crossbar");
const solvable = crossbars === undefined ? 0 : crossbars.figures + crossbars.unsolved;
if (outcomes.unsolved > Math.max(MOST_UNSOLVED * solvable, FEW_UNSOLVED)) {
  findings += 1;
  console.log(`finding ${findings}: ${outcomes.unsolved} of ${solvable} networks were not solved`);
}
console.log(
  `${done + findings} cases: ${outcomes.figures} with figures, ${outcomes.broken} told why nothing works, ` +
    `${outcomes.refused} refused in place, ${outcomes.unsolved} networks not solved, ${findings} findings (seed ${seed}); ` +
    `slowest ${slowest.map(({ number, seconds }) => `${seconds.toFixed(2)} s (${number})`).join(", ")}`,
);
if (values.reasons) {
  for (const [how, way] of ways) {
    console.log(
      `${how}: ${way.figures} with figures, ${way.broken} broken, ${way.refused} refused, ` +
        `${way.finding} findings, ${way.seconds.toFixed(1)} s`,
    );
  }
  for (const [what, times] of [...reasons].sort((a, b) => b[1] - a[1]).slice(0, 60)) {
    console.log(`${String(times).padStart(6)} ${what}`);
  }
}
process.exitCode = findings === 0 && (done === total || values.how) ? 0 : 1;

/** The schema that `tenfold schema` prints, the catalogue's names, and the demo studies. */
function materialOf() {
  // Sorted: the order of a folder is the file system's, and the cases of a seed must be the same everywhere.
  const inFolder = (folder) => readdirSync(`${root}${folder}`).sort();
  const namesIn = (folder) =>
    inFolder(`shared/${folder}`).map((file) => file.replace(/\.yaml$/, ""));
  const demos = inFolder("configs").map((file) => readFileSync(`${root}configs/${file}`, "utf8"));
  const printed = spawnSync(process.execPath, [`${root}dist/tenfold.js`, "schema"], {
    encoding: "utf8",
    maxBuffer: 64e6,
  });
  if (printed.status !== 0)
    throw new Error(
      `\`tenfold schema\` does not run; \`npm run build\` comes first: ${printed.stderr}`,
    );
  const schema = JSON.parse(printed.stdout);
  const { designs, claims } = schema.properties;
  const functions = claims.additionalProperties.properties.function.oneOf.map((one) => one.const);
  const known = {
    technology: valuesIn("technology"),
    switch: valuesIn("switches"),
    selector: valuesIn("selectors"),
    baseline: valuesIn("baselines"),
  };
  const fields = Object.assign({}, ...Object.values(known));
  const overridden = Object.keys(designs.additionalProperties.properties.overrides.properties);
  return {
    schema,
    names: {
      technology: namesIn("technology"),
      switch: namesIn("switches"),
      selector: namesIn("selectors"),
      baseline: namesIn("baselines"),
    },
    known: {
      ...known,
      override: Object.fromEntries(
        overridden.filter((name) => fields[name]).map((name) => [name, fields[name]]),
      ),
    },
    functions: functions.filter((name) => name !== "all"),
    demos,
  };
}

/** The values that the entries of a folder give to each field. */
function valuesIn(folder) {
  const found = {};
  for (const file of readdirSync(`${root}shared/${folder}`).sort()) {
    const { values: fields = {} } = load(readFileSync(`${root}shared/${folder}/${file}`, "utf8"));
    for (const [name, given] of Object.entries(fields)) {
      const text = String(given?.value ?? given);
      if (/^[-+]?[\d.]/.test(text)) found[name] = [...(found[name] ?? []), text];
    }
  }
  return found;
}

/** A line for every twentieth of a long run. */
function progress() {
  judged += 1;
  if (total >= LONG_RUN && judged % Math.round(total / 20) === 0)
    console.log(`${judged} of ${total}, ${findings} findings`);
}

function patienceFor(text) {
  if (HUGE.test(text)) return FOR_HUGE;
  return LARGE.test(text) ? FOR_LARGE : 1;
}

/** One worker to its end. A case that does not come back ends its worker, and the rest goes on in a new one. */
function runCases(task) {
  if (task.count <= 0) return Promise.resolve();
  return new Promise((resolve, reject) => {
    const worker = new Worker(`${dist}/worker.mjs`, { workerData: task, resourceLimits: YOUNG });
    let current;
    let watch;
    let replaced = false;
    const next = () => {
      clearTimeout(watch);
      if (findings >= MOST_FINDINGS) return worker.terminate().then(() => resolve());
      watch = setTimeout(async () => {
        replaced = true;
        report(current, `does not come back within ${LONGEST_WAIT / 1000} s`);
        await worker.terminate();
        const from = current.number + 1;
        resolve(runCases({ ...task, first: from, count: task.first + task.count - from }));
      }, LONGEST_WAIT);
    };
    worker.on("message", (message) => {
      if (message.text !== undefined) {
        current = message;
        return next();
      }
      const { number, how, outcome, why, seconds, codes = [] } = message;
      const way = ways.get(how) ?? { ...NONE };
      ways.set(how, { ...way, [outcome]: way[outcome] + 1, seconds: way.seconds + seconds });
      if (values.reasons) for (const code of codes) reasons.set(code, (reasons.get(code) ?? 0) + 1);
      if (outcome === "finding") report(current, why);
      else if (seconds > LONGEST_SECONDS * patienceFor(current.text))
        report(current, `takes ${seconds.toFixed(1)} s`);
      else outcomes[outcome] += 1;
      progress();
      slowest.push({ number, seconds });
      slowest.sort((a, b) => b.seconds - a.seconds).splice(3);
    });
    worker.on("error", (error) => {
      clearTimeout(watch);
      if (current === undefined) return reject(error);
      replaced = true;
      report(current, `the worker dies: ${error.stack ?? error}`);
      const from = current.number + 1;
      resolve(runCases({ ...task, first: from, count: task.first + task.count - from }));
    });
    worker.on("exit", () => {
      clearTimeout(watch);
      if (!replaced) resolve();
    });
    next();
  });
}

function report({ number, kind, how, text }, why) {
  findings += 1;
  console.log(
    `finding ${findings}: case ${number} (${kind}, ${how}): ${why}\n${text.replace(/^/gm, "  | ")}`,
  );
  if (values.keep !== undefined)
    writeFileSync(`${values.keep}/${seed}-${number}-${kind}.yaml`, text);
}

// The tests of one copy of the project, again and again for one mutant after the other, in a process that may be ended:
// a mutant may never stop by itself. All tests and sources are one bundle that is evaluated afresh for each mutant, in
// a tenth of a second; the test runner takes three for the same. Each message names test files, first to last, and the
// mutant; the answer is the first test that failed, if any.
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { Script } from "node:vm";
import { build } from "esbuild";
import { beginFile, runFile, shim } from "./mutant-tests.mjs";

const [copy, list] = process.argv.slice(2);
const files = JSON.parse(readFileSync(list, "utf8"));
const outfile = join(copy, "tests.tmp.cjs");
await build({
  absWorkingDir: copy,
  stdin: {
    resolveDir: copy,
    contents: files.map((file) => `exports[${JSON.stringify(file)}] = () => require("./${file}");`).join("\n"),
  },
  outfile,
  bundle: true,
  format: "cjs",
  platform: "node",
  packages: "external",
  plugins: [ownUrls()],
  logLevel: "error",
});
const script = new Script(`(function (require, exports, module) {${readFileSync(outfile, "utf8")}\n})`, {
  filename: outfile,
});
const packages = createRequire(join(copy, "package.json"));
const requireFor = (name) => (name === "vitest" ? shim : packages(name));

process.on("message", async ({ files: wanted, mutant, coverage }) => {
  const started = performance.now();
  globalThis.__stryker__ = { activeMutant: mutant.id };
  globalThis.formulaMutant = mutant;
  globalThis.formulasRead = new Set();
  let by;
  try {
    const tests = {};
    script.runInThisContext()(requireFor, tests, { exports: tests });
    for (const file of wanted) {
      by = await testsOf(file, tests[file]);
      if (by !== undefined) break;
    }
  } catch (error) {
    by = `while loading: ${error?.message}`;
  }
  if (coverage) writeFileSync(coverage, JSON.stringify(reached()));
  process.send({ failed: by !== undefined, by, seconds: (performance.now() - started) / 1000 });
});
process.send({ ready: true });

async function testsOf(file, load) {
  const tests = beginFile();
  try {
    load();
  } catch (error) {
    return `${file}: while loading: ${error?.message}`;
  }
  const failed = await runFile(tests);
  return failed === undefined ? undefined : `${file}: ${failed}`;
}

function reached() {
  const seen = globalThis.__stryker__.mutantCoverage ?? { static: {}, perTest: {} };
  return { formulas: [...globalThis.formulasRead], mutants: Object.keys(seen.static) };
}

/** Tests find data beside themselves: each module's own place is written into it. */
function ownUrls() {
  return {
    name: "own-urls",
    setup(builder) {
      builder.onLoad({ filter: /[\\/](src|tests)[\\/].*\.ts$/ }, ({ path }) => ({
        loader: "ts",
        contents: readFileSync(path, "utf8").replaceAll("import.meta.url", JSON.stringify(`file://${path}`)),
      }));
    },
  };
}

// How many deliberate breakages of the code of src/models the tests notice: a seeded sample of the mutants that the
// tool of mutants.mjs makes, run by our own host.
//   node .settings/model-mutants.mjs --count 300 --seed 1 [--folder reliability] [--out FILE] [--tool FOLDER]
// Models are constants of modules: for such mutants the tool loads and runs all tests anew, which takes minutes each.
// Words for people are no behaviour and are left out: titles, meanings, notes, sources, symbols, messages. Units,
// names, formulas, codes and everything that computes are kept.
import { execFileSync } from "node:child_process";
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { parseArgs } from "node:util";
import { coverageOf, generator, Host, makeCopy, reasons, runAll, sampleOf, tell, testsFor } from "./mutant-copy.mjs";
import { wordsOf } from "./mutant-words.mjs";

const { values } = parseArgs({
  options: {
    count: { type: "string", default: "300" },
    seed: { type: "string", default: "1" },
    folder: { type: "string", default: "" },
    out: { type: "string" },
    /** A folder in which the tool is installed and stays. */
    tool: { type: "string" },
  },
});

const copy = makeCopy("model-mutants");
const host = new Host(copy);
const reasonOf = reasons();
try {
  const tool = values.tool ?? installed();
  const all = (await instrument(tool)).filter(({ words }) => !words);
  console.log(`${all.length} mutants, words for people left out`);
  const coverage = await coverageOf(copy, host);
  const tests = ({ id, source }) =>
    testsFor(
      source,
      coverage.filter(({ mutants }) => mutants.has(id)),
    );
  const wanted = all.filter(({ source }) => source.startsWith(`src/models/${values.folder}`));
  const chosen = sampleOf(wanted, Number(values.count), generator(values.seed));
  const results = await runAll(chosen, host, tests, ({ id }) => ({ id }), print);
  tell(results);
  if (values.out) writeFileSync(values.out, JSON.stringify(results, null, 1));
} finally {
  host.end();
  rmSync(copy, { recursive: true, force: true });
}

function installed() {
  const folder = join(copy, "tool");
  mkdirSync(folder);
  const packages = ["@stryker-mutator/instrumenter@9.6.1"];
  execFileSync("npm", ["install", "--silent", "--no-save", "--prefix", folder, ...packages]);
  return folder;
}

/** Puts switches for all mutants into the copy's models. @returns {id, source, line, kind, from, to, words} */
async function instrument(tool) {
  const packages = createRequire(join(tool, "package.json"));
  const entry = packages.resolve("@stryker-mutator/instrumenter");
  const { Instrumenter } = await import(pathToFileURL(entry).href);
  const files = readdirSync(join(copy, "src/models"), { recursive: true, withFileTypes: true })
    .filter((file) => file.isFile() && file.name.endsWith(".ts"))
    .map((file) => join(file.parentPath ?? file.path, file.name))
    .sort();
  const inputs = files.map((name) => ({ name, mutate: true, content: readFileSync(name, "utf8") }));
  const logger = { debug: () => {}, info: () => {}, isDebugEnabled: () => false };
  const options = { plugins: null, excludedMutations: [], ignorers: [] };
  const made = await new Instrumenter(logger).instrument(inputs, options);
  const babel = createRequire(createRequire(entry).resolve("@babel/core"))("@babel/parser");
  const words = new Map(inputs.map(({ name, content }) => [name, wordsOf(babel, content)]));
  for (const { name, content } of made.files) writeFileSync(name, `// @ts-nocheck\n${content}`);
  return made.mutants.map(({ id, fileName, mutatorName, replacement, location: { start, end } }) => ({
    id,
    source: fileName.slice(copy.length + 1),
    line: start.line + 1,
    kind: mutatorName,
    from: textBetween(inputs.find(({ name }) => name === fileName).content, start, end),
    to: replacement,
    words: /^(String|Object)Literal$/.test(mutatorName) && words.get(fileName).has(`${start.line + 1}:${start.column}`),
  }));
}

function textBetween(content, start, end) {
  const lines = content.split("\n").slice(start.line, end.line + 1);
  lines[lines.length - 1] = lines.at(-1).slice(0, end.column);
  lines[0] = lines[0].slice(start.column);
  return lines.join("\n");
}

function print({ failed, source, line, kind, from, to, by, seconds }, index) {
  const short = (text) => text.replace(/\s+/g, " ").slice(0, 150);
  console.log(
    `${index} ${failed ? "noticed" : "SURVIVED"} ${source}:${line} ${kind} ${(seconds ?? 0).toFixed(1)} s by ${by}`,
  );
  if (failed) return;
  console.log(`    - ${short(from)}\n    + ${short(to)}`);
  const reason = reasonOf(source, from, to);
  if (reason !== undefined) console.log(`    ${reason}`);
}

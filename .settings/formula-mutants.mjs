// How many changes of formulas the tests notice: a seeded sample of one-step changes of the texts in sheets.
//   node .settings/formula-mutants.mjs --count 300 --seed 1 [--folder reliability] [--out FILE]
// A tool that changes code only empties such a text, which any test of dimensions sees. What a person gets wrong keeps
// the dimension: a sign, a factor of one, a wrong symbol of the right unit. Those are counted by themselves, too.
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { mutationsOf } from "./formula-changes.mjs";
import { declaredFormulas } from "./formula-list.mjs";
import {
  coverageOf,
  generator,
  Host,
  makeCopy,
  reasons,
  runAll,
  sampleOf,
  share,
  tell,
  testsFor,
} from "./mutant-copy.mjs";

const { values } = parseArgs({
  options: {
    count: { type: "string", default: "300" },
    seed: { type: "string", default: "1" },
    folder: { type: "string", default: "" },
    out: { type: "string" },
  },
});

const copy = makeCopy("formula-mutants");
const host = new Host(copy);
const reasonOf = reasons();
try {
  const { formulas, tools } = await declaredFormulas(copy);
  const next = generator(values.seed);
  const all = formulas
    .filter(({ source }) => source.startsWith(`src/models/${values.folder}`))
    .flatMap((one) => mutationsOf(one, tools).map((change) => ({ ...one, ...change })));
  console.log(`${formulas.length} formulas, ${all.length} mutants that change a value`);
  watchSheets();
  const coverage = await coverageOf(copy, host);
  const tests = ({ source, sheets, name }) =>
    testsFor(
      source,
      coverage.filter((one) => sheets.some((sheet) => one.formulas.has(`${sheet}.${name}`))),
    );
  const key = ({ sheets, name, from, to }) => ({ sheets, name, from, to });
  const results = await runAll(sampleOf(all, Number(values.count), next), host, tests, key, print);
  tell(results);
  const kept = results.filter(({ dimension }) => dimension);
  console.log(`of the right dimension: ${share(kept.filter((one) => one.failed).length, kept.length)}`);
  if (values.out)
    writeFileSync(
      values.out,
      JSON.stringify(
        results.map(({ units: _, ...one }) => one),
        null,
        1,
      ),
    );
} finally {
  host.end();
  rmSync(copy, { recursive: true, force: true });
}

function print({ failed, source, sheets, name, kind, dimension, from, to, by, seconds }, index) {
  const what = `${source} ${sheets[0]}.${name} [${kind}${dimension ? "" : ", dimension"}]`;
  console.log(
    `${index} ${failed ? "noticed" : "SURVIVED"} ${what} ${(seconds ?? 0).toFixed(1)} s ${failed ? `by ${by}` : ""}`,
  );
  if (failed) return;
  console.log(`    - ${from}\n    + ${to}`);
  const reason = reasonOf(source, from, to);
  if (reason !== undefined) console.log(`    ${reason}`);
}

/** Makes `sheet(…)` of the copy put the mutant in, and note which formulas are read. */
function watchSheets() {
  const file = join(copy, "src/formulas/sheet.ts");
  const text = readFileSync(file, "utf8");
  const renamed = text.replace("export function sheet(", "function declare(");
  if (renamed === text) throw new Error("formulas/sheet.ts has no function `sheet` to watch");
  writeFileSync(
    file,
    `${renamed}
export function sheet(definition: Omit<Sheet, "kind">): Sheet {
  const made: any = declare(definition);
  const { formulaMutant: mutant = {}, formulasRead: read = new Set() } = globalThis as any;
  const watched = Object.entries<any>(made.formulas).map(([name, { formula, ...rest }]) => {
    const hit = mutant.sheets?.includes(made.name) && mutant.name === name && mutant.from === formula;
    const get = () => {
      read.add(\`\${made.name}.\${name}\`);
      return hit ? mutant.to : formula;
    };
    return [name, Object.defineProperty({ ...rest }, "formula", { get, enumerable: true })];
  });
  return { ...made, formulas: Object.fromEntries(watched) };
}
`,
  );
}

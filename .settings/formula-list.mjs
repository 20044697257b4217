// Every formula of every sheet that the library can reach, with the file that declares it.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";

/** Formulas {source, sheets, name, from, units}, and what reads and prints them. @param copy a copy of the project */
export async function declaredFormulas(copy) {
  const outfile = join(copy, "formulas.tmp.mjs");
  await build({
    absWorkingDir: copy,
    stdin: {
      resolveDir: copy,
      contents: [
        'import "./src/index.ts";',
        'export { parseFormula } from "./src/formulas/parse.ts";',
        'export { formulaText } from "./src/formulas/print.ts";',
        'export { dimensionOfTree } from "./src/formulas/dimensions.ts";',
        'export { interpret } from "./src/formulas/interpret.ts";',
        'export { constantOf } from "./src/formulas/constants.ts";',
        'import { everyExtraText } from "./src/estimate/every.ts";',
        'export { declared } from "./src/formulas/sheet.ts";',
        "everyExtraText();",
      ].join("\n"),
    },
    outfile,
    bundle: true,
    format: "esm",
    platform: "node",
    plugins: [noteSheets],
    logLevel: "warning",
  });
  const { declared, ...tools } = await import(pathToFileURL(outfile).href);
  const moduleAt = modulesOf(readFileSync(outfile, "utf8"));
  const found = new Map();
  for (const { made, stack } of declared) {
    const source = stack.map(moduleAt).find((file) => /^src\/models\/(?!.*define\.ts)/.test(file));
    if (source === undefined) continue;
    const units = Object.fromEntries(
      [...Object.entries(made.inputs), ...Object.entries(made.formulas)].map(([name, { unit }]) => [name, unit]),
    );
    for (const [name, { formula }] of Object.entries(made.formulas)) {
      // One text of one file may stand in several sheets, as of each bias scheme: it is one formula.
      const key = `${source} ${name} ${formula}`;
      const before = found.get(key);
      if (before === undefined) found.set(key, { source, sheets: [made.name], name, from: formula, units });
      else before.sheets = [...new Set([...before.sheets, made.name])];
    }
  }
  const order = (a, b) => (a[0] < b[0] ? -1 : 1);
  return { formulas: [...found].sort(order).map(([, one]) => one), tools };
}

/** From a line of the bundle to the module that it came from, which a comment names. */
function modulesOf(text) {
  const lines = text.split("\n");
  return (line) => {
    for (let i = Math.min(line, lines.length) - 1; i >= 0; i--) {
      const file = lines[i].match(/^\/\/ ((?:src|node_modules)\/\S+\.\w+)$/)?.[1];
      if (file !== undefined) return file;
    }
    return "";
  };
}

/** Makes `sheet(…)` keep what it declared and the lines from which it was called. */
const noteSheets = {
  name: "note-sheets",
  setup(builder) {
    builder.onLoad({ filter: /[\\/]src[\\/]formulas[\\/]sheet\.ts$/ }, ({ path }) => ({
      loader: "ts",
      contents: `${readFileSync(path, "utf8").replace("export function sheet(", "function declare(")}
        export const declared = [];
        export function sheet(definition) {
          const made = declare(definition);
          const stack = [...new Error().stack.matchAll(/formulas\\.tmp\\.mjs:(\\d+):/g)].map((hit) => Number(hit[1]));
          declared.push({ made, stack });
          return made;
        }`,
    }));
  },
};

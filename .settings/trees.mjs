// The formulas of all shipped sheets, parsed while building, so that the program starts without the parser (mathjs).
//
// Step one bundles the library, notes each sheet that it declares and writes the table of trees. Step two is the real
// bundle: in it `formulas/parse.ts` is a look-up in the table, and what the table lacks goes to the parser, which lies
// beside as `parser.cjs` and is loaded when it is first needed.
import { readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { root } from "./fingerprint.mjs";

/** Bundles the parser by itself; nothing else holds mathjs. */
export async function buildParser(file) {
  await build({
    absWorkingDir: root,
    entryPoints: ["src/formulas/parse.ts"],
    outfile: file,
    bundle: true,
    format: "cjs",
    platform: "node",
    target: "node20",
    minifySyntax: true,
    minifyWhitespace: true,
    legalComments: "external",
    logLevel: "warning",
  });
}

/** The esbuild plug-in that puts the table in the parser's place. */
export async function shippedTrees() {
  const table = JSON.stringify(await collect());
  return {
    name: "shipped-trees",
    setup(build) {
      build.onLoad({ filter: /[\\/]src[\\/]formulas[\\/]parse\.ts$/ }, () => ({
        loader: "ts",
        resolveDir: join(root, "src/formulas"),
        contents: `
          import { TenfoldError } from "../errors/problem.ts";
          import { parserFrom } from "./preparsed.ts";
          let file = "formula";
          const look = parserFrom(JSON.parse(${JSON.stringify(table)}), (text) => {
            try {
              return require("./parser.cjs").parseFormula(text, file);
            } catch (error) {
              // The parser's bundle has an error class of its own.
              if (error?.name !== "TenfoldError") throw error;
              throw new TenfoldError(error.problems, error.exitCode);
            }
          });
          export function parseFormula(text, from = "formula") {
            file = from;
            return look(text);
          }`,
      }));
      build.onResolve({ filter: /^\.\/parser\.cjs$/ }, ({ path }) => ({ path, external: true }));
    },
  };
}

/** Formula text → tree, of every sheet that the library declares. */
async function collect() {
  const outfile = join(root, `trees.${process.pid}.tmp`, "trees.mjs");
  try {
    await build({
      absWorkingDir: root,
      stdin: {
        resolveDir: root,
        contents: [
          // The library reaches every model; what it can't reach is no part of the program.
          'import "./src/index.ts";',
          'import { collectTrees } from "./src/formulas/preparsed.ts";',
          'import { parseFormula } from "./src/formulas/parse.ts";',
          'import { declared } from "./src/formulas/sheet.ts";',
          'import { everyExtraText } from "./src/estimate/every.ts";',
          // Walking every structure declares the sheets that are made for a structure, too.
          "const extra = [...everyExtraText()].map((text) => [text, parseFormula(text)]);",
          "export const trees = { ...collectTrees(declared, parseFormula), ...Object.fromEntries(extra) };",
        ].join("\n"),
      },
      outfile,
      bundle: true,
      format: "esm",
      platform: "node",
      plugins: [noteSheets],
      logLevel: "warning",
    });
    return (await import(pathToFileURL(outfile).href)).trees;
  } finally {
    rmSync(join(root, `trees.${process.pid}.tmp`), { recursive: true, force: true });
  }
}

/** Makes `sheet(…)` keep a list of what it declared. */
const noteSheets = {
  name: "note-sheets",
  setup(build) {
    build.onLoad({ filter: /[\\/]src[\\/]formulas[\\/]sheet\.ts$/ }, ({ path }) => {
      const text = readFileSync(path, "utf8");
      const noted = text.replace("export function sheet(", "function declare(");
      if (noted === text) throw new Error("formulas/sheet.ts has no function `sheet` to watch");
      return {
        loader: "ts",
        contents: `${noted}
          export const declared = [];
          export function sheet(definition) {
            const made = declare(definition);
            declared.push(made);
            return made;
          }`,
      };
    });
  },
};

// The formulas of all shipped sheets, parsed while building, so that the program starts without the parser (mathjs).
//
// Step one bundles the library, notes each sheet that it declares and writes the table of trees. Step two is the real
// bundle: in it `formulas/parse.ts` is a look-up in the table, and what the table lacks goes to the parser, which lies
// beside as `parser.cjs` and is loaded when it is first needed.
import { deepStrictEqual } from "node:assert";
import { readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { root } from "./fingerprint.mjs";

/** Bundles the parser by itself; nothing else holds mathjs. */
export async function buildParser(file) {
  return build({
    metafile: true,
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

/** The esbuild plug-in that puts the table in the parser's place. @param shipped from `collectFormulas` */
export function shippedTrees(shipped) {
  const trees = Object.entries(shipped).map(([text, tree]) => {
    const code = encode(tree);
    // The kinds of nodes are told here anew: a new one must not get lost.
    deepStrictEqual(decode(code), tree);
    return [text, code];
  });
  const table = JSON.stringify(Object.fromEntries(trees));
  return {
    name: "shipped-trees",
    setup(build) {
      build.onLoad({ filter: /[\\/]src[\\/]formulas[\\/]parse\.ts$/ }, () => ({
        loader: "js",
        resolveDir: join(root, "src/formulas"),
        contents: `
          import { TenfoldError } from "../errors/problem.ts";
          let table;
          const known = new Map();
          ${decode}
          export function parseFormula(text, file = "formula") {
            const before = known.get(text);
            if (before !== undefined) return before;
            table ??= JSON.parse(${JSON.stringify(table)});
            const tree = Object.hasOwn(table, text) ? decode(table[text]) : parse(text, file);
            known.set(text, tree);
            return tree;
          }
          function parse(text, file) {
            try {
              return require("./parser.cjs").parseFormula(text, file);
            } catch (error) {
              // The parser's bundle has an error class of its own.
              if (error?.name !== "TenfoldError") throw error;
              throw new TenfoldError(error.problems, error.exitCode);
            }
          }`,
      }));
      build.onResolve({ filter: /^\.\/parser\.cjs$/ }, ({ path }) => ({ path, external: true }));
    },
  };
}

/** A tree as nested arrays, a fifth as long: a number, a name, or an operator with what it joins. */
function encode(tree) {
  switch (tree.kind) {
    case "number":
      return tree.value;
    case "symbol":
      return tree.name;
    case "negate":
      return ["negate", encode(tree.of)];
    case "binary":
      return [tree.operator, encode(tree.left), encode(tree.right)];
    case "call":
      return ["call", tree.name, ...tree.of.map(encode)];
    case "choose": {
      const { operator, left, right } = tree.when;
      const parts = [left, right, tree.chosen, tree.otherwise].map(encode);
      return ["choose", operator, ...parts];
    }
    default:
      throw new Error(`a tree of kind ${tree.kind} can't be stored`);
  }
}

/** The way back; its text goes into the bundle. */
function decode(code) {
  if (typeof code === "number") return { kind: "number", value: code };
  if (typeof code === "string") return { kind: "symbol", name: code };
  const [kind, ...rest] = code;
  if (kind === "negate") return { kind, of: decode(rest[0]) };
  if (kind === "call") return { kind, name: rest[0], of: rest.slice(1).map(decode) };
  if (kind === "choose") {
    const [left, right, chosen, otherwise] = rest.slice(1).map(decode);
    return { kind, when: { operator: rest[0], left, right }, chosen, otherwise };
  }
  return { kind: "binary", operator: kind, left: decode(rest[0]), right: decode(rest[1]) };
}

/** Formula text → tree, of every sheet that the library declares. */
export async function collectFormulas() {
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

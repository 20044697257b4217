// The build for browsers: `tenfold.js`, the library with the catalogue in it, and the parts of the explorer page. Nothing in
// them loads anything of node's or makes code from text, so that a page with a strict content-security policy can run them.
import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { deflateRawSync } from "node:zlib";
import { build } from "esbuild";
import { root } from "./fingerprint.mjs";
import { noticesOf } from "./notices.mjs";
import { shippedTrees } from "./trees.mjs";

const COMMON = {
  absWorkingDir: root,
  bundle: true,
  platform: "browser",
  target: "es2022",
  charset: "utf8",
  minify: true,
  logLevel: "warning",
};

/** Writes the folder. @param formulas from `collectFormulas`; @returns what esbuild says of the library */
export async function buildForBrowsers(folder, formulas, version) {
  mkdirSync(folder);
  const { functions, catalogue } = await collected(formulas);
  const plugins = [bundledParser, drawingPage, shippedTrees(formulas), puts(functions, catalogue)];
  const define = { TENFOLD_VERSION: JSON.stringify(version) };
  const library = await build({
    ...COMMON,
    metafile: true,
    entryPoints: { tenfold: "src/browser.ts" },
    outdir: folder,
    format: "esm",
    legalComments: "external",
    plugins,
    define,
  });
  const [engine, script] = await Promise.all([
    textOf("src/explorer/worker/worker.ts", { plugins, define }),
    textOf("src/explorer/page/main.ts", { plugins: [], define }),
  ]);
  for (const text of [engine, script]) refuseForbidden(text);
  const { STYLE } = await moduleOf('export { STYLE } from "./src/explorer/style.ts";');
  const hash = (text) => `sha256-${createHash("sha256").update(text).digest("base64")}`;
  const parts = {
    script,
    scriptHash: hash(script),
    style: STYLE,
    styleHash: hash(STYLE),
    engine: deflateRawSync(engine, { level: 9 }).toString("base64"),
  };
  writeFileSync(join(folder, "explorer.json"), JSON.stringify(parts));
  return library;
}

/** One script as text. */
async function textOf(entry, options) {
  const { outputFiles, metafile } = await build({
    ...COMMON,
    metafile: true,
    ...options,
    entryPoints: [entry],
    format: "iife",
    legalComments: "eof",
    write: false,
  });
  // What a page carries of others is named in the page, with the texts of the licences.
  const carried = noticesOf([metafile]);
  const notices = carried === "" ? "" : `/*\n${carried.replaceAll("*/", "* /")}*/\n`;
  return notices + outputFiles[0].text;
}

/** What would need node, or a policy that lets text become code. */
function refuseForbidden(text) {
  for (const word of ["createRequire", 'from"node:', "new Function(", "</script"]) {
    if (text.includes(word)) throw new Error(`the explorer's script holds ${word}`);
  }
}

/** The parser lies in the bundle, and is only set up when a formula needs it. */
const bundledParser = {
  name: "bundled-parser",
  setup(build) {
    build.onResolve({ filter: /^\.\/parser\.cjs$/ }, () => ({
      path: join(root, "src/formulas/parse.ts"),
      namespace: "parser",
    }));
    build.onLoad({ filter: /.*/, namespace: "parser" }, ({ path }) => ({
      contents: readFileSync(path, "utf8"),
      loader: "ts",
      resolveDir: join(root, "src/formulas"),
    }));
  },
};

/** Charts are drawn in a page of their own, smaller and faster than the package that the program draws with. */
const drawingPage = {
  name: "drawing-page",
  setup(build) {
    build.onResolve({ filter: /^linkedom$/ }, () => ({
      path: join(root, "src/explorer/engine/drawing.ts"),
    }));
  },
};

/** Puts made functions and the catalogue in the places that the source keeps for them. */
function puts(functions, catalogue) {
  const table = functions
    .map(({ parameters, body }) => `[${JSON.stringify(keyOf(parameters, body))},function(${parameters}){${body}}]`)
    .join(",\n");
  return {
    name: "puts",
    setup(build) {
      build.onLoad({ filter: /[\\/]src[\\/]formulas[\\/]generated\.ts$/ }, () => ({
        loader: "js",
        contents: `
          export const GENERATES = false;
          const made = new Map([${table}]);
          export function functionFrom(parameters, body) {
            const found = made.get(parameters + "\\n" + body);
            if (found === undefined) throw new Error("the build has not made this function: " + body);
            return found;
          }`,
      }));
      build.onLoad({ filter: /[\\/]src[\\/]catalogue[\\/]bundled\.ts$/ }, () => ({
        loader: "js",
        contents: `export const BUNDLED = JSON.parse(${JSON.stringify(JSON.stringify(catalogue))});`,
      }));
    },
  };
}

const keyOf = (parameters, body) => `${parameters}\n${body}`;

/** The functions that the shipped formulas need, noted while they are asked for; and the catalogue. */
async function collected(formulas) {
  const { notedFunctions, packed } = await moduleOf(
    `
    import { packCatalogue } from "./src/catalogue/bundle.ts";
    import { Columns } from "./src/formulas/columns.ts";
    import { noted } from "./src/formulas/generated.ts";
    import { folderLoader } from "./src/io/catalogue.ts";
    export const packed = (folder) => packCatalogue(folderLoader(folder));
    export function notedFunctions(trees) {
      for (const tree of trees) new Columns([{ kind: "formula", name: "out", tree }], 1);
      return [...noted.values()];
    }`,
    [noteFunctions],
  );
  return {
    functions: notedFunctions(Object.values(formulas)),
    catalogue: packed(join(root, "shared")),
  };
}

const noteFunctions = {
  name: "note-functions",
  setup(build) {
    build.onLoad({ filter: /[\\/]src[\\/]formulas[\\/]generated\.ts$/ }, () => ({
      loader: "js",
      contents: `
        export const GENERATES = true;
        export const noted = new Map();
        export function functionFrom(parameters, body) {
          noted.set(parameters + body, { parameters, body });
          return new Function(parameters, body);
        }`,
    }));
  },
};

/** What a piece of source exports, run here. */
async function moduleOf(contents, plugins = []) {
  const folder = join(root, `browser.${process.pid}.tmp`);
  const outfile = join(folder, `${createHash("sha256").update(contents).digest("hex")}.mjs`);
  try {
    await build({
      absWorkingDir: root,
      stdin: { resolveDir: root, contents },
      outfile,
      plugins,
      bundle: true,
      format: "esm",
      platform: "node",
      logLevel: "warning",
    });
    return await import(pathToFileURL(outfile).href);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

// Bundles the program and the library into dist/: `tenfold.js` (the program), `index.js` and `node.js` (the library),
// two inner parts that the benchmark times on their own, the formula parser, which few runs need, and the entries of the catalogue.
// Type declarations: `npm run types`.
import {
  chmodSync,
  existsSync,
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { build } from "esbuild";
import { buildForBrowsers } from "./browser.mjs";
import { fingerprint, root } from "./fingerprint.mjs";
import { noticesOf } from "./notices.mjs";
import { prepareCatalogue } from "./prepared.mjs";
import { buildParser, collectFormulas, shippedTrees } from "./trees.mjs";

/** What shares its parts. The program is apart: entries that it doesn't need would cut it into small files. */
const GROUPS = [
  { tenfold: "src/cli/main.ts" },
  {
    index: "src/index.ts",
    node: "src/node.ts",
    "sweep-worker": "src/io/sweep/worker.ts",
  numerics: "src/numerics/index.ts",
    formulas: "src/formulas/index.ts",
  },
];

/** The packages that lay out help text measure it without Unicode segmentation; tables of results keep the real thing. */
const plainHelpWidth = {
  name: "plain-help-width",
  setup(build) {
    build.onResolve({ filter: /^string-width$/ }, ({ importer }) =>
      /node_modules[\\/](yargs|cliui|wrap-ansi)[\\/]/.test(importer)
        ? { path: join(root, ".settings/plain-width.mjs") }
        : undefined,
    );
  },
};

const stamp = fingerprint();
const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));

function bundle(entryPoints, outdir, plugins) {
  return build({
    absWorkingDir: root,
    entryPoints,
    outdir,
    plugins,
    bundle: true,
    metafile: true,
    splitting: true,
    format: "esm",
    platform: "node",
    target: "node20",
    minifySyntax: true,
    minifyWhitespace: true,
    legalComments: "external",
    // Beside the entries, so that the parser is `./parser.cjs` from everywhere.
    chunkNames: "part-[hash]",
    // Bundled CommonJS packages still call `require` for node's own modules.
    banner: {
      js: "import{createRequire as __cr}from'node:module';const require=__cr(import.meta.url);",
    },
    define: { TENFOLD_VERSION: JSON.stringify(version) },
    logLevel: "warning",
  });
}

// Built beside and swapped in, so that a program that starts meanwhile finds the old or the new one, never half of one.
const fresh = join(root, `dist.${process.pid}.tmp`);
const target = join(root, "dist");
rmSync(fresh, { recursive: true, force: true });
mkdirSync(fresh);
try {
  const formulas = await collectFormulas();
  const plugins = [shippedTrees(formulas), plainHelpWidth];
  const bundles = [];
  for (const entries of GROUPS) bundles.push(await bundle(entries, fresh, plugins));
  const others = [await buildParser(join(fresh, "parser.cjs"))];
  await prepareCatalogue(join(fresh, "catalogue"));
  others.push(await buildForBrowsers(join(fresh, "browser"), formulas, version));
  const notices = noticesOf([...bundles, ...others].map(({ metafile }) => metafile));
  writeFileSync(join(fresh, "NOTICES.txt"), notices);
  const program = join(fresh, "tenfold.js");
  writeFileSync(program, `#!/usr/bin/env node\n${readFileSync(program, "utf8")}`);
  chmodSync(program, 0o755);
  const types = join(target, "types");
  if (existsSync(types)) renameSync(types, join(fresh, "types"));
  writeFileSync(join(fresh, ".stamp"), `${stamp}\n`);
  const old = join(root, `dist.${process.pid}.old.tmp`);
  if (existsSync(target)) renameSync(target, old);
  renameSync(fresh, target);
  rmSync(old, { recursive: true, force: true });
} finally {
  rmSync(fresh, { recursive: true, force: true });
}

import { runInNewContext } from "node:vm";
import { build } from "esbuild";
import { expect, test } from "vitest";
import { packCatalogue } from "../../src/catalogue/bundle.ts";
import { folderLoader } from "../../src/io/catalogue.ts";
import { planOf } from "../../src/io/sweep/open.ts";
import { sweepRows } from "../../src/studies/sweep/chunk.ts";
import { ROOT } from "./run.ts";

const STUDY = `title: In a page
samples: 64
defaults: {capacity: 64 Kib, word: 32 bit}
designs:
  static: {cell: sram-6t}
  one: {cell: {switch: oxide-bilayer, selector: transistor}}
sweep:
  vary: {rows: [64, 128], temperature: [280 K, 300 K]}
  quantities: [macro_area, read_latency]
organise:
  design: one
  vary: {rows: [64, 128, 256], column_share: [2, 4]}
  minimise: [macro_area]
`;
/** What a page would run. */
const PAGE = `
import { bundleLoader, organiseStudy, parseFormula, planSweep, studyReader, sweepRows } from "./src/index.ts";
const read = studyReader(bundleLoader(catalogue));
const reopen = (set) => read(text, { set });
globalThis.done = (async () => {
  const rows = [];
  for await (const row of sweepRows(planSweep(reopen, parseFormula))) rows.push(row);
  const { found, winner } = organiseStudy(reopen, parseFormula);
  return JSON.stringify({ rows, best: found[winner].values });
})();
`;

test("the library bundles for a browser without anything of node, and sweeps and searches there alike", async () => {
  const { outputFiles, metafile } = await build({
    absWorkingDir: ROOT,
    stdin: { contents: PAGE, resolveDir: ROOT },
    bundle: true,
    write: false,
    metafile: true,
    format: "iife",
    platform: "browser",
    external: ["node:*"],
    define: { TENFOLD_VERSION: '"0"' },
  });
  const imported = Object.values(metafile.outputs).flatMap(({ imports }) => imports);
  expect(imported.map(({ path }) => path)).toEqual([]);
  // A page has no `process` and no `require`; what is here besides the language every page has.
  const page: { done?: Promise<string> } & Record<string, unknown> = {
    text: STUDY,
    catalogue: JSON.parse(JSON.stringify(packCatalogue(folderLoader()))),
    TextEncoder,
    TextDecoder,
    setTimeout,
    WebAssembly,
    performance,
  };
  runInNewContext(outputFiles[0]!.text, page);
  const { rows, best } = JSON.parse(await page.done!);
  const named = { text: STUDY, file: "study.yaml" };
  const here = [];
  for await (const row of sweepRows(planOf({ named, set: [], entries: [] }))) here.push(row);
  expect(rows).toEqual(JSON.parse(JSON.stringify(here)));
  expect(rows).toHaveLength(8);
  expect(best).toHaveLength(2);
}, 120_000);

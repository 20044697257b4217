import { execFileSync } from "node:child_process";
import { existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build, type Plugin } from "esbuild";
import { chromium } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { ROOT } from "./run.ts";
import { programOf, withProgram } from "./tools.ts";

/** Where `.settings/ci-tools.sh` puts engines of other versions. */
const ENGINES = process.env["TENFOLD_ENGINES"] ?? join(tmpdir(), "tenfold-engines");
const VERSIONS = [20, 22, 24];
const SCRIPT = join(ROOT, `engines.${process.pid}.tmp.cjs`);
const STUDY = readFileSync(join(ROOT, "configs/tarn-working-memory.yaml"), "utf8");
const RUN = `engine.digests(${JSON.stringify(STUDY)})`;

type Digests = Readonly<Record<string, string>>;

/** The library as the build leaves it, with the catalogue in it. */
const builtLibrary: Plugin = {
  name: "built-library",
  setup(setup) {
    const path = join(ROOT, "dist/browser/tenfold.js");
    setup.onResolve({ filter: /src\/browser\.ts$/ }, () => ({ path }));
  },
};

let script: string;
let own: Digests;

function byNode(program: string): Digests {
  return JSON.parse(execFileSync(program, [SCRIPT], { encoding: "utf8", maxBuffer: 2 ** 26 }));
}

beforeAll(async () => {
  const { outputFiles } = await build({
    absWorkingDir: ROOT,
    entryPoints: ["tests/cli/engine-digest.ts"],
    bundle: true,
    format: "iife",
    plugins: [builtLibrary],
    globalName: "engine",
    write: false,
  });
  script = outputFiles[0]!.text;
  writeFileSync(SCRIPT, `${script};process.stdout.write(JSON.stringify(${RUN}));`);
  own = byNode(process.execPath);
});
afterAll(() => rmSync(SCRIPT, { force: true }));

/** Without what an engine may lack: the plain loops stand for the kernels. */
function differences(other: Digests): string[] {
  return Object.keys(own).filter((name) => own[name] !== other[name]);
}

test("the vector kernels and the plain loops give the same bits", () => {
  expect(own["kernels"]).toBe(own["loops"]);
  expect(own["study"]).toContain("macro_area");
});

describe("functions, vector kernels and the estimate of the demo are the same to the bit", () => {
  for (const version of VERSIONS) {
    const program = join(ENGINES, `node_modules/node${version}/bin/node`);
    withProgram(`Node ${version}`, existsSync(program) ? program : undefined, (found) => {
      test(`in Node ${version} as in Node ${process.versions.node}`, () => {
        const named = execFileSync(found, ["--version"], { encoding: "utf8" });
        expect(named.startsWith(`v${version}.`)).toBe(true);
        expect(differences(byNode(found))).toEqual([]);
      });
    });
  }

  const names = ["chromium", "chromium-browser", "google-chrome"];
  withProgram("the browser", programOf("TENFOLD_CHROMIUM", names), (executablePath) => {
    test(`in a page as in Node ${process.versions.node}`, async () => {
      const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
      try {
        const page = await browser.newPage();
        await page.addScriptTag({ content: script });
        expect(differences((await page.evaluate(RUN)) as Digests)).toEqual([]);
      } finally {
        await browser.close();
      }
    });
  });
});

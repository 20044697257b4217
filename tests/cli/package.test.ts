/** The package as a user gets it: what it holds, and that it runs where there is nothing else and no network. */
import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { ROOT, scratch, tenfold } from "./run.ts";

const npm = (args: readonly string[], cwd: string): string =>
  execFileSync("npm", args, { cwd, encoding: "utf8", stdio: ["ignore", "pipe", "ignore"] });

/** What belongs in: the bundles, what they read, studies to start from, and the licence. */
const WANTED =
  /^(?:dist\/(?:[\w-]+\.(?:js|cjs)(?:\.LEGAL\.txt)?|NOTICES\.txt|browser\/[\w.-]+|catalogue\/.+\.json|types\/.+\.d\.ts)|shared\/.+\.(?:yaml|json)|configs\/[\w.-]+|README\.md|package\.json|\.settings\/LICENSE)$/;

test("the package holds what it runs on, without tests, checks, sources or anything of this machine", () => {
  const [packed] = JSON.parse(npm(["pack", "--dry-run", "--json", "--ignore-scripts"], ROOT)) as [
    { files: { path: string }[]; size: number },
  ];
  const paths = packed.files.map(({ path }) => path);
  expect(paths.filter((path) => !WANTED.test(path))).toEqual([]);
  for (const path of [
    "dist/tenfold.js",
    "dist/node.js",
    "dist/index.js",
    "dist/browser/tenfold.js",
    "dist/NOTICES.txt",
    "shared/sources.yaml",
    "configs/tarn-working-memory.yaml",
    "README.md",
    ".settings/LICENSE",
  ]) {
    expect(paths).toContain(path);
  }
  expect(paths.some((path) => path.startsWith("shared/checks/"))).toBe(false);
  expect(packed.size).toBeLessThan(6e6);
});

test("installed from its archive into an empty folder, offline, it gives the demo's figures and works as a library", () => {
  const folder = scratch();
  npm(["pack", "--ignore-scripts", "--pack-destination", folder], ROOT);
  const [archive] = readdirSync(folder);
  writeFileSync(join(folder, "package.json"), '{"private": true, "type": "module"}');
  npm(["install", "--offline", "--no-audit", "--no-fund", `./${archive}`], folder);
  expect(readdirSync(join(folder, "node_modules")).filter((name) => !name.startsWith("."))).toEqual(
    ["tenfold"],
  );
  const demo = "node_modules/tenfold/configs/tarn-working-memory.yaml";
  const program = join(folder, "node_modules/.bin/tenfold");
  const printed = execFileSync(program, ["compare", demo, "--format", "json"], {
    cwd: folder,
    encoding: "utf8",
    maxBuffer: 64e6,
  });
  const ours = tenfold(["compare", "configs/tarn-working-memory.yaml", "--format", "json"]);
  expect(printed).toBe(ours.out);
  writeFileSync(
    join(folder, "use.js"),
    `import { openStudy, estimateStudy, parseFormula } from "tenfold/node";
     import { formatQuantity } from "tenfold";
     const { study, catalogue } = await openStudy(${JSON.stringify(demo)});
     const { designs } = estimateStudy(study, catalogue, parseFormula);
     console.log(designs.length, typeof formatQuantity);`,
  );
  const used = execFileSync(process.execPath, ["use.js"], { cwd: folder, encoding: "utf8" });
  expect(used.trim()).toBe("6 function");
});

test("what the bundles carry of others is named with its licence", () => {
  const notices = readFileSync(join(ROOT, "dist/NOTICES.txt"), "utf8");
  for (const name of ["yargs", "mathjs", "js-yaml", "table", "@observablehq/plot"]) {
    expect(notices).toMatch(new RegExp(`^${name} \\d+\\.\\d+\\.\\d+ \\([\\w.-]+\\)$`, "m"));
  }
});

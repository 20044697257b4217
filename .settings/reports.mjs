// Regenerates what is made from the program: reports/ and the outputs in README.md. With --check compares byte by byte
// instead of writing.
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, dirname, join } from "node:path";
import { claimReports } from "./claim-reports.mjs";
import { evidenceReports } from "./evidence-reports.mjs";
import { sectionReports } from "./section-reports.mjs";
import { closedForms } from "./closed-forms.mjs";
import { root } from "./fingerprint.mjs";
import { handbook } from "./handbook.mjs";
import { readme } from "./readme.mjs";

const program = join(root, "dist", "tenfold.js");
const tenfold = (...args) => {
  try {
    return execFileSync(process.execPath, [program, ...args], {
      cwd: root,
      encoding: "utf8",
      env: { ...process.env, NO_COLOR: "1" },
      stdio: ["ignore", "pipe", "pipe"],
      maxBuffer: 64e6,
    });
  } catch (error) {
    throw new Error(`tenfold ${args.join(" ")} ended with ${error.status}:\n${error.stderr}`);
  }
};

/** Path → text of everything that is generated. */
async function expected() {
  const files = new Map([["README.md", readme()]]);
  files.set("reports/crossbar-closed-forms.md", await closedForms());
  for (const [name, text] of demoReport()) files.set(`reports/tarn/${name}`, text);
  for (const [name, text] of await handbook()) files.set(`reports/${name}`, text);
  for (const [path, text] of evidenceReports(tenfold)) files.set(path, text);
  for (const config of readdirSync(join(root, "configs")).filter((f) => f.endsWith(".yaml")).sort()) {
    const study = `configs/${config}`;
    const name = `reports/${basename(config, ".yaml")}`;
    files.set(`${name}.md`, tenfold("compare", study, "--format", "markdown"));
    files.set(`${name}.csv`, tenfold("compare", study, "--format", "csv"));
    files.set(`${name}.json`, tenfold("estimate", study, "--format", "json"));
    const text = readFileSync(join(root, study), "utf8");
    for (const [ending, made] of claimReports(tenfold, study, text)) files.set(`${name}${ending}`, made);
    for (const [ending, made] of sectionReports(tenfold, study, text)) files.set(`${name}${ending}`, made);
  }
  return files;
}

/** The whole report of the demo, every file of it. */
function demoReport() {
  const folder = mkdtempSync(join(tmpdir(), "tenfold-report-"));
  try {
    tenfold("report", "configs/tarn-working-memory.yaml", "--out", folder, "--force", "--quiet");
    return readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
      .map((path) => [path.slice(folder.length + 1), readFileSync(path, "utf8")]);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** What lies in reports/ although nothing makes it. */
function left(files) {
  const reports = join(root, "reports");
  if (!existsSync(reports)) return [];
  return readdirSync(reports, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name).slice(root.length))
    .filter((path) => !files.has(path.replaceAll("\\", "/")));
}

const check = process.argv.includes("--check");
const files = await expected();
const differing = [...files].filter(([path, text]) => {
  const there = join(root, path);
  return !existsSync(there) || readFileSync(there, "utf8") !== text;
});
const stale = left(files);
if (!check) {
  for (const [path, text] of differing) {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), text);
  }
  for (const path of stale) rmSync(join(root, path));
}
const names = [...differing.map(([path]) => path), ...stale];
if (check && names.length > 0) {
  process.stderr.write(`out of date (npm run reports makes them anew): ${names.join(", ")}\n`);
  process.exitCode = 1;
} else {
  process.stdout.write(`${files.size} generated files, ${names.length} ${check ? "differ" : "written"}\n`);
}

// What `npm run reports` makes, in pieces that know nothing of each other. As a worker: makes the pieces that it is told.
import { execFileSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { isMainThread, parentPort } from "node:worker_threads";
import { claimReports } from "./claim-reports.mjs";
import { closedForms } from "./closed-forms.mjs";
import { evidenceReports } from "./evidence-reports.mjs";
import { root } from "./fingerprint.mjs";
import { handbook } from "./handbook.mjs";
import { readme } from "./readme.mjs";
import { sectionReports } from "./section-reports.mjs";

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

/** Piece → what makes its files, as pairs of path and text. The longest come first, so that no worker is left with one. */
const PIECES = new Map([
  ["readme", () => [["README.md", readme()]]],
  ["evidence", () => evidenceReports(tenfold)],
  ["handbook", async () => within("reports", await handbook())],
  ["closed forms", async () => [["reports/crossbar-closed-forms.md", await closedForms()]]],
  ["demo", () => within("reports/tarn", demoReport())],
  ...readdirSync(join(root, "configs"))
    .filter((name) => name.endsWith(".yaml"))
    .sort()
    .map((name) => [name, () => studyReports(`configs/${name}`, basename(name, ".yaml"))]),
]);

/** Names of all pieces. */
export const pieces = [...PIECES.keys()];

function within(folder, files) {
  return [...files].map(([name, text]) => [`${folder}/${name}`, text]);
}

function studyReports(study, name) {
  const text = readFileSync(join(root, study), "utf8");
  const files = [
    [".md", tenfold("compare", study, "--format", "markdown")],
    [".csv", tenfold("compare", study, "--format", "csv")],
    [".json", tenfold("estimate", study, "--format", "json")],
    ...claimReports(tenfold, study, text),
    ...sectionReports(tenfold, study, text),
  ];
  return files.map(([ending, made]) => [`reports/${name}${ending}`, made]);
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

if (!isMainThread) {
  parentPort.on("message", async (piece) => {
    try {
      parentPort.postMessage({ files: [...(await PIECES.get(piece)())] });
    } catch (error) {
      parentPort.postMessage({ fault: error.message });
    }
  });
}

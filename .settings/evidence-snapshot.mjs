// Keeps what a version of the models predicted of published silicon: the "before" of later versions. The version is
// built anew from the repository's history, so that the numbers are its own and nobody's memory.
//   node .settings/evidence-snapshot.mjs COMMIT "LABEL"   writes shared/evidence/history/
//   node .settings/evidence-snapshot.mjs --check          runs every kept version again and compares byte by byte
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { root } from "./fingerprint.mjs";

const FOLDER = join(root, "shared", "evidence", "history");
const run = (command, args, cwd, options = {}) =>
  execFileSync(command, args, { cwd, encoding: "utf8", maxBuffer: 64e6, ...options });

/** The file of one version: one figure a line, and a digest over them. */
function snapshot(commit, label) {
  const folder = mkdtempSync(join(tmpdir(), "tenfold-snapshot-"));
  try {
    const archive = run("git", ["archive", "--format=tar", commit], root, { encoding: "buffer" });
    run("tar", ["-x"], folder, { input: archive });
    symlinkSync(join(root, "node_modules"), join(folder, "node_modules"));
    run(process.execPath, [".settings/build.mjs"], folder);
    const text = run(process.execPath, ["dist/tenfold.js", "evidence", "--format", "json"], folder);
    const ratios = JSON.parse(text).chips.flatMap(({ name, kind, figures }) =>
      figures.map(({ quantity, ratio, basis }) => ({
        chip: name,
        kind,
        quantity,
        ratio: Number(ratio.toPrecision(6)),
        recalled: basis === "memory",
      })),
    );
    const lines = ratios.map((one) => JSON.stringify(one));
    const sha256 = createHash("sha256").update(lines.join("\n")).digest("hex");
    const head = { format: "tenfold.ratios/1", label, commit, sha256 };
    const body = JSON.stringify(head, null, 1).replace(/\n\}$/, "");
    return `${body},\n "ratios": [\n  ${lines.join(",\n  ")}\n ]\n}\n`;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const fileOf = (commit) => {
  const there = readdirSync(FOLDER).filter((name) => name.endsWith(".json"));
  const known = there.find((name) => name.includes(commit.slice(0, 7)));
  return known ?? `${String(there.length + 1).padStart(2, "0")}-${commit.slice(0, 7)}.json`;
};

if (process.argv.includes("--check")) {
  for (const name of readdirSync(FOLDER).filter((one) => one.endsWith(".json"))) {
    const text = readFileSync(join(FOLDER, name), "utf8");
    const { commit, label } = JSON.parse(text);
    const same = snapshot(commit, label) === text;
    process.stdout.write(`${name}: ${same ? "as its version gives it" : "differs from what its version gives"}\n`);
    if (!same) process.exitCode = 1;
  }
} else {
  const [named, label] = process.argv.slice(2);
  const commit = run("git", ["rev-parse", named], root).trim();
  mkdirSync(FOLDER, { recursive: true });
  writeFileSync(join(FOLDER, fileOf(commit)), snapshot(commit, label));
}

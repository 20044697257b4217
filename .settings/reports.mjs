// Regenerates reports/ from configs/ with the built program; with --check compares byte by byte instead of writing.
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { root } from "./fingerprint.mjs";
import { handbook } from "./handbook.mjs";

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

/** File under reports/ → its text. */
async function expected() {
  const files = new Map(await handbook());
  for (const config of readdirSync(join(root, "configs")).filter((f) => f.endsWith(".yaml")).sort()) {
    const study = `configs/${config}`;
    const name = basename(config, ".yaml");
    files.set(`${name}.md`, tenfold("compare", study, "--format", "markdown"));
    files.set(`${name}.csv`, tenfold("compare", study, "--format", "csv"));
    files.set(`${name}.json`, tenfold("estimate", study, "--format", "json"));
  }
  return files;
}

const check = process.argv.includes("--check");
const differing = [];
const files = await expected();
for (const [name, text] of files) {
  const path = join(root, "reports", name);
  const there = existsSync(path) ? readFileSync(path, "utf8") : undefined;
  if (there === text) continue;
  differing.push(name);
  if (check) continue;
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, text);
}
if (check && differing.length > 0) {
  process.stderr.write(`reports/ is out of date (run npm run reports): ${differing.join(", ")}\n`);
  process.exitCode = 1;
} else {
  process.stdout.write(`${files.size} reports, ${differing.length} ${check ? "differ" : "written"}\n`);
}

// Regenerates what is made from the program: reports/ and the outputs in README.md. With --check compares byte by byte
// instead of writing.
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { availableParallelism } from "node:os";
import { dirname, join } from "node:path";
import { Worker } from "node:worker_threads";
import { root } from "./fingerprint.mjs";
import { pieces } from "./report-pieces.mjs";

/** Path → text of everything that is generated, in the order of the pieces. */
async function expected() {
  const made = new Map();
  const waiting = [...pieces];
  await Promise.all(Array.from({ length: Math.min(availableParallelism(), pieces.length) }, () => work(waiting, made)));
  return new Map(pieces.flatMap((piece) => made.get(piece)));
}

/** One worker, until nothing waits any more. */
function work(waiting, made) {
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL("report-pieces.mjs", import.meta.url));
    let piece;
    const next = () => {
      piece = waiting.shift();
      if (piece === undefined) worker.terminate().then(resolve);
      else worker.postMessage(piece);
    };
    worker.on("error", reject);
    worker.on("message", ({ files, fault }) => {
      if (fault !== undefined) {
        waiting.length = 0;
        worker.terminate().then(() => reject(new Error(`${piece}: ${fault}`)));
        return;
      }
      made.set(piece, files);
      next();
    });
    next();
  });
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

// Makes a fresh clone ready: installs what the lock file names and, with --build, builds what is stale. Uses node's own
// modules only, says nothing when there is nothing to do.
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fingerprint, root } from "./fingerprint.mjs";

const read = (name) => JSON.parse(readFileSync(join(root, name), "utf8"));

/** True when every package of the lock file is there in its version (but those for other systems, which npm leaves out). */
function installed() {
  const record = "node_modules/.package-lock.json";
  if (!existsSync(join(root, record))) return false;
  const there = read(record).packages;
  return Object.entries(read("package-lock.json").packages).every(
    ([path, wanted]) => path === "" || wanted.optional || there[path]?.version === wanted.version,
  );
}

function built() {
  const stamp = join(root, "dist", ".stamp");
  return existsSync(stamp) && readFileSync(stamp, "utf8").trim() === fingerprint();
}

function run(what, command, args) {
  process.stderr.write(`${what} …\n`);
  // Windows starts npm through its shell only; nothing of a user's is in these arguments.
  execFileSync(command, args, { cwd: root, stdio: ["ignore", 2, 2], shell: command === "npm" && process.platform === "win32" });
}

try {
  if (!installed()) run("Installing what package-lock.json names", "npm", ["ci"]);
  if (process.argv.includes("--build") && !built()) {
    run("Building", process.execPath, [".settings/build.mjs"]);
  }
} catch (error) {
  process.stderr.write(`Setting up failed: ${error.message}\n`);
  process.exitCode = 1;
}

// One hash over everything that the build reads, so that "is dist stale?" is a question about content, not about clocks.
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";

export const root = fileURLToPath(new URL("..", import.meta.url));

const READ_BY_THE_BUILD = [
  "src",
  "shared",
  "package.json",
  "package-lock.json",
  "tsconfig.json",
  ".settings/browser.mjs",
  ".settings/build.mjs",
  ".settings/plain-width.mjs",
  ".settings/prepared.mjs",
  ".settings/trees.mjs",
];

function* filesUnder(path) {
  if (!existsSync(path)) return;
  if (statSync(path).isFile()) {
    yield path;
    return;
  }
  for (const name of readdirSync(path).sort()) yield* filesUnder(join(path, name));
}

/** The hash of the sources as they are now. */
export function fingerprint() {
  const hash = createHash("sha256");
  for (const start of READ_BY_THE_BUILD) {
    for (const file of filesUnder(join(root, start))) {
      const content = readFileSync(file);
      hash.update(`${relative(root, file)}\0${content.length}\0`);
      hash.update(content);
    }
  }
  return hash.digest("hex");
}

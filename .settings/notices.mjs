// What others wrote and the bundles carry: each package with its version, licence and licence text, for `dist/NOTICES.txt`.
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "./fingerprint.mjs";

/** Licences under which a package may be carried along in one under this project's own. */
const CARRIED = new Set(["MIT", "ISC", "BSD-2-Clause", "BSD-3-Clause", "Apache-2.0", "0BSD", "Unlicense"]);

/**
 * @param metafiles of esbuild
 * @returns the text of the notices, empty where nothing is carried; throws where a bundled package has another licence, or no text of one
 */
export function noticesOf(metafiles) {
  const folders = new Set();
  for (const { inputs } of metafiles) {
    for (const path of Object.keys(inputs)) {
      const found = /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(path);
      if (found !== null) folders.add(found[1]);
    }
  }
  if (folders.size === 0) return "";
  const notices = [...folders].map(noticeOf).sort((a, b) => (a.name < b.name ? -1 : 1));
  const list = notices.map(({ name, version, license }) => `${name} ${version} (${license})`);
  return [
    "This package contains code of these packages, under the licences that follow.",
    "",
    ...new Set(list),
    ...notices.flatMap(({ name, version, text }) => ["", "-".repeat(78), `${name} ${version}`, "", text.trim()]),
    "",
  ].join("\n");
}

function noticeOf(folder) {
  const { name, version, license } = JSON.parse(readFileSync(join(root, folder, "package.json"), "utf8"));
  if (!CARRIED.has(license)) throw new Error(`${name} ${version} is bundled under ${license}: may it be?`);
  const file = readdirSync(join(root, folder)).find((one) => /^licen[cs]e/i.test(one));
  const path = file === undefined ? undefined : join(root, folder, file);
  const text = path !== undefined && existsSync(path) ? readFileSync(path, "utf8") : `Licence: ${license}`;
  return { name, version, license, text };
}

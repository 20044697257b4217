import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { fail } from "../errors/problem.ts";
import type { PageParts } from "../explorer/page.ts";

/** Where the build puts what every page is made of: beside the bundled program. */
const FILE = join(dirname(fileURLToPath(import.meta.url)), "browser", "explorer.json");

/**
 * Script, style and engine of an explorer page.
 *
 * @throws TenfoldError `page-parts-missing`
 */
export function explorerParts(file = FILE): PageParts {
  if (existsSync(file)) return JSON.parse(readFileSync(file, "utf8")) as PageParts;
  return fail({
    code: "page-parts-missing",
    what: "the parts of the page that belong to tenfold are not there",
    expected: "browser/explorer.json beside the program",
    fix: "install the package again, or `npm run build` in its sources",
  });
}

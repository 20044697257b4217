// The entries of the catalogue, read while building, so that the program finds them as JSON and parses no YAML of its own.
import { rmSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { root } from "./fingerprint.mjs";

/** Writes every entry of `shared/` into the folder. */
export async function prepareCatalogue(folder) {
  const outfile = join(root, `prepared.${process.pid}.tmp`, "prepared.mjs");
  try {
    await build({
      absWorkingDir: root,
      stdin: {
        resolveDir: root,
        contents: [
          'export { folderLoader, modelErrorsOf, modelErrorText } from "./src/io/catalogue.ts";',
          'export { prepareEntries, prepareErrors } from "./src/io/prepared.ts";',
        ].join("\n"),
      },
      outfile,
      bundle: true,
      format: "esm",
      platform: "node",
      logLevel: "warning",
    });
    const { folderLoader, modelErrorsOf, modelErrorText, prepareEntries, prepareErrors } =
      await import(pathToFileURL(outfile).href);
    const shared = join(root, "shared");
    prepareEntries(folderLoader(shared), folder);
    const text = modelErrorText(shared);
    if (text !== undefined) prepareErrors(text, modelErrorsOf(text), folder);
  } finally {
    rmSync(join(root, `prepared.${process.pid}.tmp`), { recursive: true, force: true });
  }
}

// How far the closed forms of a crossbar are from the solve of its network: a report of its own.
import { rmSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { root } from "./fingerprint.mjs";

/** The report as Markdown. */
export async function closedForms() {
  const folder = join(root, `closed-forms.${process.pid}.tmp`);
  const outfile = join(folder, "closed-forms.mjs");
  try {
    await build({
      absWorkingDir: root,
      stdin: {
        resolveDir: root,
        sourcefile: "closed-forms-entry.ts",
        contents: `
          import { parseFormula } from "./src/formulas/parse.ts";
          import { closedFormsDocument } from "./src/report/documents/closed-forms.ts";
          import { renderMarkdown } from "./src/report/renderers/markdown.ts";
          export const text = renderMarkdown(closedFormsDocument(parseFormula));`,
      },
      outfile,
      bundle: true,
      format: "esm",
      platform: "node",
      logLevel: "warning",
    });
    return (await import(pathToFileURL(outfile).href)).text;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

// The model handbook, from the sheets themselves: every sheet and procedure that any source file declares, with the
// file in which it stands.
import { readdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { root } from "./fingerprint.mjs";

/** Folders whose files may declare models. */
const FOLDERS = ["src/models", "src/catalogue", "src/estimate"];

/** File under reports/ → its text. */
export async function handbook() {
  const folder = join(root, `handbook.${process.pid}.tmp`);
  const outfile = join(folder, "handbook.mjs");
  process.setSourceMapsEnabled(true);
  Error.stackTraceLimit = 40;
  try {
    await build({
      absWorkingDir: root,
      stdin: { resolveDir: root, sourcefile: "handbook-entry.ts", contents: entry() },
      outfile,
      bundle: true,
      format: "esm",
      platform: "node",
      sourcemap: "inline",
      plugins: [noteModels],
      logLevel: "warning",
    });
    return (await import(pathToFileURL(outfile).href)).files;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function entry() {
  const files = FOLDERS.flatMap((folder) =>
    readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
      .filter((name) => name.endsWith(".ts"))
      .map((name) => `${folder}/${name.replaceAll("\\", "/")}`)
      .sort(),
  );
  return [
    ...files.map((file) => `import "./${file}";`),
    'import { readdirSync, readFileSync } from "node:fs";',
    'import { Catalogue, KIND } from "./src/catalogue/index.ts";',
    'import { everyRecipe } from "./src/estimate/every.ts";',
    'import { DEFAULTS } from "./src/estimate/parameters.ts";',
    'import { declared } from "./src/formulas/sheet.ts";',
    'import { partsFor } from "./src/models/periphery/index.ts";',
    'import * as pages from "./src/report/documents/handbook/handbook.ts";',
    'import { renderHtml } from "./src/report/renderers/html/html.ts";',
    'import { renderMarkdown } from "./src/report/renderers/markdown.ts";',
    `const shared = ${JSON.stringify(join(root, "shared"))};`,
    `const loader = {
      read: (kind, name) => readFileSync(
        shared + (kind === "sources" ? "/sources.yaml" : \`/\${KIND[kind].folder}/\${name}.yaml\`), "utf8"),
      names: (kind) => readdirSync(\`\${shared}/\${KIND[kind].folder}\`)
        .filter((file) => file.endsWith(".yaml")).map((file) => file.slice(0, -5)).sort(),
    };
    const extra = new Map();
    const parts = new Map();
    const prefixes = new Map();
    for (const { recipe, structure } of everyRecipe()) {
      for (const { of, prefix } of recipe.instances) {
        if (prefix === undefined) continue;
        const known = prefixes.get(of.name) ?? [];
        if (!known.includes(prefix)) prefixes.set(of.name, [...known, prefix]);
      }
      for (const one of recipe.extra) {
        const text = typeof one.formula === "string" ? one.formula : "";
        extra.set(one.name + " = " + text, one);
      }
      for (const use of partsFor(structure.periphery)) {
        const { name, level, count, activeRead, activeWrite, sheet } = use;
        parts.set(JSON.stringify([name, level, count, activeRead, activeWrite, sheet.name]), use);
      }
    }
    const all = pages.handbookPages({
      models: declared,
      prefixes,
      compositions: [...extra.values()],
      parts: [...parts.values()],
      defaults: [...DEFAULTS.values()],
      catalogue: new Catalogue(loader),
    });
    export const files = new Map([
      ["handbook.md", renderMarkdown(pages.handbookIndex(all, "handbook"))],
      ...all.map((page) => [
        \`handbook/\${page.name}.md\`, renderMarkdown(pages.handbookChapter(page))]),
      ["handbook.html", renderHtml(pages.handbookBook(all))],
    ]);`,
  ].join("\n");
}

/** Makes `sheet(…)` and `procedure(…)` keep a list of what they declared and where. */
const noteModels = {
  name: "note-models",
  setup(build) {
    build.onLoad({ filter: /[\\/]src[\\/]formulas[\\/]sheet\.ts$/ }, ({ path }) => {
      const text = readFileSync(path, "utf8");
      const noted = text
        .replace("export function sheet(", "function declareSheet(")
        .replace("export function procedure(", "function declareProcedure(");
      if (noted.match(/function declare/g)?.length !== 2) {
        throw new Error("formulas/sheet.ts has no functions `sheet` and `procedure` to watch");
      }
      return {
        loader: "ts",
        contents: `${noted}
          export const declared = [];
          function note(model) {
            const frames = new Error().stack.match(/src\\/(?:models|catalogue|estimate)\\/[\\w/-]+\\.ts/g) ?? [];
            const first = frames.find((name) => !name.endsWith("/define.ts"));
            if (first === undefined) throw new Error("no source file declares " + model.name);
            // A variant that a neighbour's function makes stands where that function was asked for it.
            const folder = first.slice(0, first.lastIndexOf("/") + 1);
            const file = frames.findLast((name) => name.startsWith(folder));
            declared.push({ model, file });
            return model;
          }
          export function sheet(definition) {
            return note(declareSheet(definition));
          }
          export function procedure(definition) {
            return note(declareProcedure(definition));
          }`,
      };
    });
  },
};

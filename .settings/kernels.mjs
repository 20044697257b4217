// Writes `src/numerics/vectors/assembled.ts`, the bytes of the vector machine: `node .settings/kernels.mjs`.
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { build } from "esbuild";
import { root } from "./fingerprint.mjs";

const { outputFiles } = await build({
  absWorkingDir: root,
  entryPoints: ["src/numerics/vectors/assemble.ts"],
  bundle: true,
  format: "esm",
  write: false,
});
const code = Buffer.from(outputFiles[0].text).toString("base64");
const { moduleBytes } = await import(`data:text/javascript;base64,${code}`);
const text = Buffer.from(moduleBytes()).toString("base64");
const lines = text.match(/.{1,94}/g).map((line) => `  "${line}"`);
writeFileSync(
  join(root, "src/numerics/vectors/assembled.ts"),
  `/** The bytes of the vector machine in base 64, by \`.settings/kernels.mjs\`; a test makes them again. */
// biome-ignore format: a table
export const MODULE =
${lines.join(" +\n")};
`,
);

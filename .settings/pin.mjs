// Runs `tests/frozen/pin.ts`, which needs the sources bundled.
import { mkdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { build } from "esbuild";
import { root } from "./fingerprint.mjs";

const folder = join(root, `.bench/pin-${process.pid}`);
mkdirSync(folder, { recursive: true });
try {
  const outfile = join(folder, "pin.mjs");
  await build({
    absWorkingDir: root,
    entryPoints: ["tests/frozen/pin.ts"],
    outfile,
    bundle: true,
    format: "esm",
    platform: "node",
    logLevel: "error",
    banner: {
      js: "import{createRequire as __cr}from'node:module';const require=__cr(import.meta.url);",
    },
  });
  process.chdir(root);
  await import(outfile);
} finally {
  rmSync(folder, { recursive: true, force: true });
}

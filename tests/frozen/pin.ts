/** Writes the pinned results anew: `npm run pin -- NOTE.md`, a note in `.changes/` that names the studies that moved. */
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { figuresOf, hashOf, moved, type Pinned } from "./figures.ts";

const [note] = process.argv.slice(2);
const root = process.cwd();
const folder = `${root}/tests/frozen/`;
const text = note === undefined ? "" : readFileSync(`${root}/.changes/${note}`, "utf8");

for (const file of readdirSync(folder).filter((one) => one.endsWith(".yaml"))) {
  const name = file.replace(/\.yaml$/, "");
  const target = `${folder}${name}.json`;
  const figures = await figuresOf(folder + file);
  const before = existsSync(target)
    ? (JSON.parse(readFileSync(target, "utf8")) as Pinned)
    : undefined;
  const lines = before === undefined ? [`${name} is new`] : moved(before.figures, figures);
  if (lines.length === 0) continue;
  console.log(`${file}\n  ${lines.join("\n  ")}`);
  if (!text.includes(`\`${name}\``)) {
    console.error(`not pinned: say why in .changes/, naming \`${name}\`, and name that note here`);
    process.exitCode = 1;
    continue;
  }
  const sha256 = hashOf(readFileSync(folder + file, "utf8"));
  const pinned: Pinned = { sha256, explained: note!, figures };
  writeFileSync(target, `${JSON.stringify(pinned, null, 1)}\n`);
}

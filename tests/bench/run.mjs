// All benchmarks: `npm run bench`, or some of them by name: `npm run bench -- start sheets`. Ratios carry over from
// machine to machine, times do not. Each `*.bench.mjs` exports `name` and `run(report)`.
import { readdirSync } from "node:fs";

const wanted = process.argv.slice(2);
const folder = new URL(".", import.meta.url);
const files = readdirSync(folder)
  .filter((file) => file.endsWith(".bench.mjs"))
  .sort();

for (const file of files) {
  const { name, run } = await import(new URL(file, folder));
  if (wanted.length > 0 && !wanted.includes(name)) continue;
  console.log(name);
  await run((label, value, unit = "", aim = "") => {
    if (value === undefined) return console.log(`  ${label}`);
    const number = typeof value === "number" ? value.toPrecision(3) : value;
    console.log(
      `  ${label.padEnd(48)} ${String(number).padStart(9)} ${unit}${aim && `   (aim: ${aim})`}`,
    );
  });
}

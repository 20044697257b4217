import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { hostname } from "node:os";
import { join, resolve } from "node:path";
import { describe, expect, test } from "vitest";

const ROOT = resolve(import.meta.dirname, "../..");

const tracked = execFileSync("git", ["ls-files"], { cwd: ROOT, encoding: "utf8" })
  .trim()
  .split("\n")
  .filter((file) => existsSync(join(ROOT, file)));
const read = (file: string): string => readFileSync(join(ROOT, file), "utf8");
const source = tracked.filter((file) => file.startsWith("src/") && file.endsWith(".ts"));

/** `file:line` of every match. */
function places(files: readonly string[], pattern: RegExp): string[] {
  return files.flatMap((file) =>
    read(file)
      .split("\n")
      .flatMap((line, i) => (pattern.test(line) ? [`${file}:${i + 1}: ${line.trim()}`] : [])),
  );
}

const lengthOf = (file: string): number => read(file).split("\n").length - 1;

test("no file of src has more than 400 lines, nine of ten have at most 250", () => {
  const lengths = source.map((file) => ({ file, lines: lengthOf(file) }));
  expect(lengths.filter(({ lines }) => lines > 400)).toEqual([]);
  const sorted = lengths.map(({ lines }) => lines).sort((a, b) => a - b);
  expect(sorted[Math.floor(sorted.length * 0.9)]!).toBeLessThanOrEqual(250);
  expect(sorted[Math.floor(sorted.length * 0.5)]!).toBeLessThanOrEqual(120);
});

test("no line of src has more than 120 columns; what is longer than 100 is text", () => {
  expect(places(source, /^.{121,}$/u)).toEqual([]);
  // The formatter breaks code at 100; comments and literals of text it leaves alone.
  expect(
    places(source, /^(?!\s*(\/\/|\*|\/\*\*)).{101,}$/u).filter((l) => !/["'`]/.test(l)),
  ).toEqual([]);
});

test("the clock, the environment and unseeded random numbers are used in cli and io only", () => {
  const pure = source.filter((file) => !/^src\/(cli|io)\//.test(file));
  expect(
    places(
      pure,
      /\bDate\.now\b|\bnew Date\b|\bMath\.random\b|\bprocess\.[a-z]|\bperformance\.now\b/,
    ),
  ).toEqual([]);
});

test("the environment is read in one file of the command line", () => {
  expect([
    ...new Set(
      places(source, /\bprocess\.env\b|\benv\b.*\bprocess\b/).map((place) => place.split(":")[0]),
    ),
  ]).toEqual(["src/cli/terminal.ts"]);
});

test("nothing that is tracked names a package registry, a path of a machine or this host", () => {
  const texts = tracked.filter((file) => !/\.(png|parquet|pdf|woff2?)$/.test(file));
  const registry = new RegExp(["registry", "npmjs"].join("\\."));
  expect(places(texts, registry)).toEqual([]);
  const elsewhere = new RegExp(`["'\`\\s(](${["/work", "/root", "/home", "/Users"].join("|")})/`);
  expect(places(texts, elsewhere)).toEqual([]);
  expect(places(texts, new RegExp(["\\.\\.", "shared", "(design|reference)"].join("/")))).toEqual(
    [],
  );
  const host = hostname();
  // A short host name such as `node` is a word of its own; only a telling one can be looked for.
  if (host.length >= 12) expect(places(texts, new RegExp(host, "i"))).toEqual([]);
});

test("nothing is left to do later in committed text", () => {
  const mark = new RegExp(`\\b(${["TO", "FIX"].map((a, i) => a + ["DO", "ME"][i]).join("|")})\\b`);
  expect(places(source.concat(tracked.filter((f) => f.startsWith("tests/"))), mark)).toEqual([]);
});

describe("dependencies", () => {
  const manifest = JSON.parse(read("package.json"));

  test("are pinned exactly", () => {
    const all = { ...manifest.dependencies, ...manifest.devDependencies };
    const loose = Object.entries<string>(all).filter(([, v]) => !/^\d+\.\d+\.\d+$/.test(v));
    expect(loose).toEqual([]);
  });

  test("of the running program are none: the bundles carry what they need", () => {
    expect(manifest.dependencies).toBeUndefined();
  });

  test("are imported by the program from these packages and no others", () => {
    const packages = new Set<string>();
    for (const file of source) {
      for (const [, name] of read(file).matchAll(
        /\b(?:from |import\()"((?:@[\w-]+\/)?[\w-]+)(?:\/[^"]*)?"/g,
      )) {
        packages.add(name!);
      }
    }
    expect([...packages].sort()).toEqual([
      "@observablehq/plot",
      "hyparquet",
      "hyparquet-writer",
      "js-yaml",
      "linkedom",
      "mathjs",
      "string-width",
      "table",
      "yargs",
    ]);
  });

  test("come with a lock file that names no host", () => {
    expect(read("package-lock.json")).not.toMatch(/"resolved"/);
  });
});

import { readdirSync, readFileSync } from "node:fs";
import { join, relative, resolve } from "node:path";
import { describe, expect, test } from "vitest";

const ROOT = resolve(import.meta.dirname, "../..");
const SRC = join(ROOT, "src");

/** Floors from the bottom up. Folders of one floor don't import each other. */
const FLOORS: readonly (readonly string[])[] = [
  ["errors", "numerics"],
  ["quantities"],
  ["formulas", "schema"],
  ["models"],
  ["catalogue"],
  ["estimate"],
  ["studies"],
  ["report"],
  ["index.ts"],
  ["browser.ts"],
  ["explorer"],
  ["io", "node.ts"],
  ["cli"],
];

/**
 * Imports against the floors that have a reason. Each must be in use, or this list is out of date.
 */
const EXCEPTIONS: readonly { from: string; to: string; why: string }[] = [
  { from: "node.ts", to: "io", why: "node.ts is the library with io's readers and writers" },
  { from: "numerics", to: "errors", why: "a solver that fails says so with a problem" },
];

interface Import {
  readonly file: string;
  readonly target: string;
  readonly line: number;
}

const files = readdirSync(SRC, { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".ts"))
  .map((name) => join(SRC, name));

/** Static, type-only and dynamic imports, and re-exports. */
const IMPORT =
  /(?:^|[\s;}])(?:import|export)\s[^"';]*?from\s*["']([^"']+)["']|\bimport\s*\(?\s*["']([^"']+)["']/g;

const imports: Import[] = files.flatMap((file) => {
  const text = readFileSync(file, "utf8");
  return [...text.matchAll(IMPORT)].map((match) => ({
    file: relative(SRC, file),
    target: (match[1] ?? match[2])!,
    line: text.slice(0, match.index).split("\n").length,
  }));
});

const topOf = (file: string): string => file.split("/")[0]!;
const targetFile = ({ file, target }: Import): string =>
  relative(SRC, resolve(SRC, file, "..", target));
const internal = imports.filter(({ target }) => target.startsWith("."));
const floorOf = (top: string): number => FLOORS.findIndex((floor) => floor.includes(top));

test("the guard sees imports: there are more of them than files", () => {
  expect(imports.length).toBeGreaterThan(files.length);
});

test("every folder of src stands on a floor", () => {
  const unknown = [...new Set(files.map((file) => topOf(relative(SRC, file))))].filter(
    (top) => floorOf(top) < 0,
  );
  expect(unknown).toEqual([]);
});

test("imports point down: never up, never to another folder of the same floor", () => {
  const wrong = internal.filter((one) => {
    const [from, to] = [topOf(one.file), topOf(targetFile(one))];
    if (from === to) return false;
    if (EXCEPTIONS.some((e) => e.from === from && e.to === to)) return false;
    return floorOf(to) >= floorOf(from);
  });
  expect(wrong.map(({ file, line, target }) => `${file}:${line} imports ${target}`)).toEqual([]);
});

test("every exception to the floors is in use", () => {
  const unused = EXCEPTIONS.filter(
    ({ from, to }) => !internal.some((i) => topOf(i.file) === from && topOf(targetFile(i)) === to),
  );
  expect(unused).toEqual([]);
});

test("model folders never import each other", () => {
  const folderOf = (file: string): string | undefined => {
    const [top, folder, ...rest] = file.split("/");
    return top === "models" && rest.length > 0 ? folder : undefined;
  };
  const wrong = internal.filter((one) => {
    const [from, to] = [folderOf(one.file), folderOf(targetFile(one))];
    return from !== undefined && to !== undefined && from !== to;
  });
  expect(wrong.map(({ file, line, target }) => `${file}:${line} imports ${target}`)).toEqual([]);
});

test("no two folders import each other, at any depth", () => {
  const pairs = new Set<string>();
  for (const one of internal) {
    const from = one.file.split("/").slice(0, -1).join("/");
    const to = targetFile(one).split("/").slice(0, -1).join("/");
    // A folder and its own subfolder are one house: the parts may share the parent's types.
    if (from === to || from.startsWith(`${to}/`) || to.startsWith(`${from}/`)) continue;
    pairs.add(`${from} ${to}`);
  }
  const mutual = [...pairs].filter((pair) => {
    const [from, to] = pair.split(" ");
    return from! < to! && pairs.has(`${to} ${from}`);
  });
  expect(mutual).toEqual([]);
});

test("only io and cli import node's own modules", () => {
  const wrong = imports.filter(
    ({ file, target }) => target.startsWith("node:") && !["io", "cli"].includes(topOf(file)),
  );
  expect(wrong.map(({ file, line }) => `${file}:${line}`)).toEqual([]);
});

test("relative imports name their file with its ending", () => {
  const wrong = internal.filter(({ target }) => !/\.(ts|json)$/.test(target));
  expect(wrong.map(({ file, line, target }) => `${file}:${line} imports ${target}`)).toEqual([]);
});

test("mathjs is imported in one file, as picked parts of its number version", () => {
  const users = imports.filter(({ target }) => /^mathjs/.test(target));
  expect([...new Set(users.map(({ file }) => file))]).toEqual(["formulas/parse.ts"]);
  expect([...new Set(users.map(({ target }) => target))]).toEqual(["mathjs/number"]);
  const text = readFileSync(join(SRC, "formulas/parse.ts"), "utf8");
  expect(text).not.toMatch(/import\s+(\*|[a-z])[^{]*from\s+["']mathjs/);
});

describe("the guard itself", () => {
  test("finds static, type, dynamic, side-effect and re-exporting imports", () => {
    const text = [
      'import { a } from "./a.ts";',
      'import type { B } from "./b.ts";',
      'const c = await import("./c.ts");',
      'import "./d.ts";',
      'export * from "./e.ts";',
      'import {\n  f,\n  type G,\n} from "./f.ts";',
      'let h: import("./h.ts").H;',
    ].join("\n");
    const found = [...text.matchAll(IMPORT)].map((m) => m[1] ?? m[2]);
    expect(found).toEqual(["a", "b", "c", "d", "e", "f", "h"].map((x) => `./${x}.ts`));
  });
});

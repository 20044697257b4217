import { readdirSync, readFileSync } from "node:fs";
import { join, relative, resolve } from "node:path";
import { expect, test } from "vitest";

const SRC = resolve(import.meta.dirname, "../../src");

/** What the language's standard lets every engine round as it likes. */
const FUNCTIONS =
  "acos acosh asin asinh atan atan2 atanh cbrt cos cosh exp expm1 hypot log log1p log2 log10 pow " +
  "sin sinh tan tanh";
/** Whatever is taken from `Math` by a computed name may be one of them. */
const FREELY_ROUNDED = new RegExp(
  `\\bMath\\s*(?:\\.\\s*(?:${FUNCTIONS.replaceAll(" ", "|")})\\b|\\[)`,
);
/** The operator does so too; of two to a written whole number, and of whole numbers of any length, not. */
const POWER = /\*\*=?/;
const EXACT_POWER =
  /\b2 \*\* (?:\d+|-\d+)\b|\d+n \*\* |\*\* (?:\d+n|BigInt\()|\.(?:numerator|denominator) \*\* size/g;

/** Uses that cannot reach a result. Each must be in use, or this list is out of date. */
const EXCEPTIONS: readonly { file: string; why: string }[] = [
  {
    file: "explorer/text/sha256.ts",
    why: "32 bits of a cube root of 53, checked on published digests",
  },
];

interface Use {
  readonly file: string;
  readonly line: number;
  readonly text: string;
}

/** The lines of code, with texts, comments and expressions of patterns blanked. */
function codeLines(text: string): string[] {
  return text
    .replace(/\/\*[\s\S]*?\*\//g, (comment) => comment.replace(/[^\n]/g, " "))
    .replace(/"(?:[^"\\\n]|\\.)*"|'(?:[^'\\\n]|\\.)*'/g, '""')
    .replace(/\/\/.*$/gm, "")
    .split("\n");
}

function usesIn(file: string, text: string): Use[] {
  return codeLines(text).flatMap((line, i) => {
    // What stands in a text with places for values is text, but for the places.
    const code = line.replace(/`(?:[^`\\]|\\.)*`/g, (whole) =>
      [...whole.matchAll(/\$\{[^}]*\}/g)].map(([place]) => place).join(" "),
    );
    const free = FREELY_ROUNDED.test(code) || POWER.test(code.replace(EXACT_POWER, ""));
    return free ? [{ file, line: i + 1, text: line.trim() }] : [];
  });
}

const uses = readdirSync(SRC, { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".ts"))
  .flatMap((name) => usesIn(relative(SRC, join(SRC, name)), readFileSync(join(SRC, name), "utf8")));

test("the guard sees each way of writing a function that engines round as they like", () => {
  for (const code of [
    "const y = Math.exp(x);",
    "values.map(Math.log10)",
    'Math["pow"](x, y)',
    "x ** 2",
    "10 ** -3",
    "2 ** n",
    "y **= 2;",
    // biome-ignore lint/suspicious/noTemplateCurlyInString: a text to look at
    "`${x ** 2} m`",
  ]) {
    expect([code, usesIn("x.ts", code).length]).toEqual([code, 1]);
  }
  for (const code of [
    "// Math.exp",
    "/** 2 ** n */",
    '"**"',
    "2 ** 40",
    "2 ** -53",
    "10n ** x",
    "`**a**`",
  ]) {
    expect([code, usesIn("x.ts", code).length]).toEqual([code, 0]);
  }
});

test("all code takes elementary functions from one place, which gives every engine the same bits", () => {
  const excepted = new Set(EXCEPTIONS.map(({ file }) => file));
  expect(uses.filter(({ file }) => !excepted.has(file))).toEqual([]);
});

test("each exception is in use", () => {
  const used = new Set(uses.map(({ file }) => file));
  expect(EXCEPTIONS.filter(({ file }) => !used.has(file))).toEqual([]);
});

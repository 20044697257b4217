import { describe, expect, test } from "vitest";
import { TenfoldError } from "../../src/errors/problem.ts";
import { parseExpression, parseFormula } from "../../src/formulas/index.ts";

function refusal(text: string, parse: (text: string) => unknown = parseFormula) {
  try {
    parse(text);
  } catch (error) {
    if (error instanceof TenfoldError) return error.problems[0]!;
    throw error;
  }
  throw new Error(`"${text.slice(0, 40)}" was accepted`);
}

const number = (value: number) => ({ kind: "number", value });
const symbol = (name: string) => ({ kind: "symbol", name });
const binary = (operator: string, left: unknown, right: unknown) => ({
  kind: "binary",
  operator,
  left,
  right,
});

describe("parseFormula", () => {
  test("binds powers before signs, signs before products, products before sums", () => {
    expect(parseFormula("-a^2 * b + c / d")).toEqual(
      binary(
        "+",
        binary("*", { kind: "negate", of: binary("^", symbol("a"), number(2)) }, symbol("b")),
        binary("/", symbol("c"), symbol("d")),
      ),
    );
  });

  test("joins differences and quotients from the left and powers from the right", () => {
    expect(parseFormula("a - b - c")).toEqual(parseFormula("(a - b) - c"));
    expect(parseFormula("a / b / c")).toEqual(parseFormula("(a / b) / c"));
    expect(parseFormula("a ^ b ^ c")).toEqual(parseFormula("a ^ (b ^ c)"));
  });

  test("reads numbers with fraction and exponent to the nearest double", () => {
    expect(parseFormula("1.5e-9")).toEqual(number(1.5e-9));
    expect(parseFormula(".5E+3")).toEqual(number(500));
  });

  test("reads calls, constants and choices with one comparison", () => {
    expect(parseFormula("min(a, 2, b)")).toMatchObject({ kind: "call", name: "min" });
    expect(parseFormula("pi")).toEqual(symbol("pi"));
    expect(parseFormula("(a >= b) ? x : y")).toEqual({
      kind: "choose",
      when: { operator: ">=", left: symbol("a"), right: symbol("b") },
      chosen: symbol("x"),
      otherwise: symbol("y"),
    });
  });

  test("goes on after a line break and counts lines", () => {
    expect(parseFormula("a +\n  b")).toEqual(parseFormula("a + b"));
    expect(refusal("a +\n  b c").place).toMatchObject({ line: 2, column: 5, text: "  b c" });
  });

  test.each([
    ["a b", 3, "formula-operator"],
    ["2 a", 3, "formula-operator"],
    ["a (b)", 1, "formula-function"],
    ["(a) (b)", 5, "formula-operator"],
    ["a / 2 b", 7, "formula-operator"],
    ["", 1, "formula-syntax"],
    ["   ", 1, "formula-syntax"],
    ["a +", 4, "formula-syntax"],
    ["a + * b", 5, "formula-syntax"],
    ["(a", 3, "formula-syntax"],
    ["a)", 2, "formula-syntax"],
    ["a, b", 2, "formula-syntax"],
    ["a > b", 1, "formula-comparison"],
    ["a > b ? c", 10, "formula-syntax"],
    ["a ? b : c", 1, "formula-comparison"],
    ["a < b < c ? 1 : 2", 1, "formula-comparison"],
    ["x * (a > b)", 6, "formula-comparison"],
    ["+a", 2, "formula-operator"],
    ["exp", 1, "formula-name"],
    ["exp()", 1, "formula-arguments"],
    ["exp(a, b)", 1, "formula-arguments"],
    ["1 + min()", 5, "formula-arguments"],
    ["sin(a)", 1, "formula-function"],
    ["a % b", 3, "formula-character"],
    ["a!", 2, "formula-character"],
    ["a'", 2, "formula-character"],
    ["a & b", 3, "formula-character"],
    ["a mod b", 3, "formula-name"],
    ["1 to b", 3, "formula-name"],
    ["not a", 1, "formula-name"],
    ["true", 1, "formula-name"],
    ["Infinity", 1, "formula-name"],
    ["i", 1, "formula-name"],
    ["1e999", 1, "formula-number"],
    ["0x1F", 2, "formula-operator"],
    ["0b11", 2, "formula-operator"],
    ["1.", 2, "formula-character"],
    ["1_000", 2, "formula-character"],
  ])("refuses %j at column %i as %s", (text, column, code) => {
    const problem = refusal(text);
    expect(problem.place).toMatchObject({ file: "formula", line: 1, column });
    expect(problem.code).toBe(code);
  });

  test("refuses what is too long or too deep before it costs time or stack", () => {
    const hostile = [
      "a+".repeat(3000),
      `${"(".repeat(900)}a${")".repeat(900)}`,
      `${"-".repeat(1900)}a`,
      `${"2^".repeat(900)}2`,
      `${"a>b?c:".repeat(300)}d`,
      `${"min(".repeat(400)}a${")".repeat(400)}`,
      `${"a+".repeat(900)}a`,
    ];
    for (const text of hostile) {
      expect(refusal(text).code).toMatch(/^formula-too-(long|deep)$/);
      expect(refusal(text, parseExpression).code).toMatch(/^formula-(too-(long|deep)|.*)$/);
    }
  });
});

/**
 * Ways out of expression evaluators that have been published for parsers of this kind
 * (constructor and prototype
 * access, redefinition, code evaluation, expensive built-ins), each with the column of the first
 * character or word that is refused.
 */
const ESCAPES: readonly (readonly [text: string, column: number])[] = [
  ["constructor", 1],
  ["__proto__", 1],
  ["a.constructor", 2],
  ['a["constructor"]', 2],
  ["f.constructor(1)()", 2],
  ['cos.constructor("return process")()', 4],
  ["toString", 1],
  ["valueOf()", 1],
  ["hasOwnProperty(a)", 1],
  ["prototype", 1],
  ["import({a: 1}, {})", 8],
  ['evaluate("1")', 10],
  ['parse("1")', 7],
  ['compile("1")', 9],
  ["parser()", 1],
  ['simplify("x")', 10],
  ['derivative("x^2", "x")', 12],
  ['createUnit("foo")', 12],
  ["config({})", 8],
  ["help(a)", 1],
  ["random()", 1],
  ["chain(1)", 1],
  ["typed(a)", 1],
  ["f(x) = x", 6],
  ["a = 1", 3],
  ["a = b = 1", 3],
  ["a[1]", 2],
  ["[1, 2]", 1],
  ["{a: 1}", 1],
  ['"text"', 1],
  ["'text'", 1],
  ["`text`", 1],
  ["1:10", 1],
  ["1:2:10", 1],
  ["ones(1e4, 1e4)", 1],
  ["zeros(1e4, 1e4)", 1],
  ["a; b", 2],
  ["a.b", 2],
  ["a?.b", 3],
  ["x => x", 3],
  ["a ?? b", 1],
  ["this", 1],
  ["eval(1)", 1],
  ["\u0024{1}", 1],
  ["\\u0061", 1],
  ["a # b", 3],
  ["ａ", 1],
  ["a\u0000b", 2],
  ["a\u202eb", 2],
];

describe("published ways out of an expression", () => {
  test.each(ESCAPES)("%j is refused with its place", (text, column) => {
    expect(refusal(text).place).toMatchObject({ line: 1, column });
  });

  test.each(ESCAPES)("%j is refused as a user's expression too, with a place", (text) => {
    expect(refusal(text, parseExpression).place?.line).toBe(1);
  });

  test("messages never carry control characters of the text", () => {
    expect(refusal("a\u0000b").what).toBe('"U+0000" has no meaning in a formula');
    expect(refusal("a\u202eb").what).toContain("U+202E");
  });
});

/** Texts of users are data: the published ways out of expression sandboxes are refused, in both parsers, at once. */
import { describe, expect, test } from "vitest";
import { TenfoldError } from "../../src/errors/problem.ts";
import { parseExpression } from "../../src/formulas/expression.ts";
import { parseFormula } from "../../src/formulas/parse.ts";

/** Ways out of sandboxes and evaluators, from advisories on expression evaluators; common practice, no source. */
const WAYS_OUT: Readonly<Record<string, readonly string[]>> = {
  "the constructor of a function": [
    `cos.constructor("return process")()`,
    `constructor.constructor("return this")()`,
    `a.constructor`,
    `(1).constructor`,
    `a["constructor"]`,
    `a['const' + 'ructor']`,
    `sqrt.call.call(sqrt)`,
    `\\u0063onstructor`,
  ],
  prototypes: ["__proto__", "a.__proto__.b", "toString()", "hasOwnProperty(a)", "valueOf"],
  "evaluation inside of evaluation": [
    `eval("1")`,
    `evaluate("1+1")`,
    `parse("1+1")`,
    `compile("1")`,
    `simplify("a")`,
    `derivative("x^2", "x")`,
    `parser()`,
    `help(sin)`,
    `chain(2)`,
    `Function("return 1")()`,
    `new Function("x")`,
    `import("fs")`,
    `import({a: 1}, {override: true})`,
    `require("fs")`,
    `config({})`,
    `createUnit("x")`,
    `typed("f", a)`,
  ],
  "assignments and definitions": [
    "a = 1",
    "f(x) = x",
    "a += 1",
    "a := 1",
    "cos = 1",
    "map(f(x) = x, [1])",
    "let a = 1",
    "x => x",
    "a++",
  ],
  "other kinds of data": [
    "[1, 2]",
    "[]",
    "{}",
    "{a: 1}",
    `"text"`,
    "'text'",
    "`text`",
    "1:3",
    "true",
    "null",
    "undefined",
    "i",
    "NaN",
    "Infinity",
    "ones(100000)",
    "zeros(1e9)",
    "range(0, 1e9)",
  ],
  "several statements": ["1; 2", "1\n2", "1, 2", "1 // 2", "1 # 2", "/* */ 1"],
  "operators that no formula has": [
    "a ? b",
    "a!",
    "200000!",
    "a'",
    "a .* b",
    "a % b",
    "a & b",
    "a | b",
    "a << 3",
    "~a",
    "a to b",
    "a mod b",
    "a ** b",
    "a @ b",
  ],
  globals: ["process", "globalThis", "window", "this", "arguments", "self.a", "console.log(1)"],
};

/** Names alone are read as quantities, and refused where quantities are looked up. */
const PLAIN_NAME = /^\w+$/;

const read = {
  "a formula": parseFormula,
  "an expression": (text: string) => parseExpression(text),
};

describe.each(Object.entries(read))("%s", (what, parse) => {
  test.each(Object.entries(WAYS_OUT))("refuses %s, each with its place", (_, texts) => {
    for (const text of texts) {
      let tree: unknown;
      try {
        tree = parse(text);
      } catch (error) {
        expect(error, text).toBeInstanceOf(TenfoldError);
        const { problems, exitCode } = error as TenfoldError;
        expect(exitCode, text).toBe(2);
        expect(problems[0]!.place, text).toBeDefined();
        continue;
      }
      // What is left is a tree of plain data about a name.
      expect(text, `${what} takes ${text}: ${JSON.stringify(tree)}`).toMatch(PLAIN_NAME);
    }
  });

  test("takes no time over texts that are made to take some", () => {
    const texts = [
      "9^9^9^9^9^9^9",
      "(".repeat(5000),
      `${"(".repeat(39)}a${")".repeat(39)}`,
      "-".repeat(5000),
      "a+".repeat(100_000),
      "1".repeat(100_000),
      `1e${"9".repeat(10_000)}`,
      "a(".repeat(1000),
      "not ".repeat(5000),
      "a and ".repeat(5000),
      "min(".repeat(300) + "a".repeat(300) + ")".repeat(300),
    ];
    const before = process.cpuUsage();
    for (const text of texts) {
      try {
        parse(text);
      } catch (error) {
        expect(error, text.slice(0, 20)).toBeInstanceOf(TenfoldError);
      }
    }
    // The limit of the project for any one input is two seconds; this is for eleven.
    expect(process.cpuUsage(before).user / 1e6).toBeLessThan(2);
  });
});

test("reading them leaves prototypes and engine as they were", () => {
  const own = (of: object) => Reflect.ownKeys(of).length;
  const before = [Object.prototype, Function.prototype, Array.prototype, Math].map(own);
  for (const text of Object.values(WAYS_OUT).flat()) {
    for (const parse of Object.values(read)) {
      try {
        parse(text);
      } catch {
        // Refused, see above.
      }
    }
  }
  expect([Object.prototype, Function.prototype, Array.prototype, Math].map(own)).toEqual(before);
  expect(parseFormula("sqrt(a)")).toBeDefined();
});

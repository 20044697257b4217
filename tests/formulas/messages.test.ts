/** What each refusal says, word by word and with its place: the text is what a user has. */
import { describe, expect, test } from "vitest";
import {
  checkExpression,
  evaluateExpression,
  FUNCTIONS,
  parseExpression,
  parseFormula,
} from "../../src/formulas/index.ts";
import { first, said } from "./fixtures/refusals.ts";

const LISTED = FUNCTIONS.join(", ");
const many = (count: number) => `min(${Array(count).fill("a").join(", ")})`;
const uncallable = (name: string) => ({
  code: "formula-function",
  what: `"${name}" is not a function that a formula may call`,
  got: name,
  expected: LISTED,
  fix: "for a product of a name and a bracket, write the *",
  at: [1, name.length],
});
const unnamed = (name: string) => ({
  code: "formula-name",
  what: `"${name}" cannot be the name of a quantity`,
  got: name,
  at: [1, name.length],
});
const bare = {
  code: "formula-name",
  what: 'the function "exp" needs its arguments in brackets',
  got: "exp",
  at: [1, 3],
};
const meaningless = {
  code: "formula-character",
  what: '"&" has no meaning in a formula',
  got: "&",
  expected: "numbers, names, + - * / ^, brackets, comparisons and the listed functions",
  at: [3, 1],
};

function missing(left: string, right: string, at: [number, number]) {
  const what = `an operator is missing between "${left}" and "${right}"`;
  return { code: "formula-operator", what, expected: "a product is written with *", at };
}

describe("of a formula", () => {
  test.each([
    ["a b", missing("a", "b", [3, 1])],
    ["2 2", missing("2", "2", [3, 1])],
    ["(a) (b)", missing(")", "(", [5, 1])],
    ["a exp(2)", missing("a", "exp", [3, 3])],
    ["b + exp(2) 3", missing(")", "3", [12, 1])],
    ["b + exp(a b)", missing("a", "b", [11, 1])],
    ["a (b)", uncallable("a")],
    ["sin(a)", uncallable("sin")],
    ["exp", bare],
    ["true", unnamed("true")],
    ["mod", unnamed("mod")],
    ["a & b", meaningless],
    ["", { code: "formula-syntax", what: "the formula is empty", at: [1, 1] }],
    [
      "1 + 1e999*2",
      { code: "formula-number", what: "the number is too large", got: "1e999", at: [5, 5] },
    ],
  ])("%j", (text, expected) => {
    expect(first(() => parseFormula(text))).toEqual(expected);
  });

  test.each([
    ["a > b", "comparison", "a comparison stands only before ?", [1, 1]],
    ["x * (a != b)", "comparison", "a comparison stands only before ?", [6, 1]],
    ["a + b ? 1 : 2", "comparison", "before ? stands one comparison, such as a > b", [1, 1]],
    ["(a) ? 1 : 2", "comparison", "before ? stands one comparison, such as a > b", [2, 1]],
    ["+abc", "operator", "the operator unaryPlus is not one of + - * / ^", [2, 3]],
    ["exp()", "arguments", "exp takes 1 argument, not 0", [1, 3]],
    ["exp(a, b)", "arguments", "exp takes 1 argument, not 2", [1, 3]],
    ["1 + min()", "arguments", "min takes 1 to 50 arguments, not 0", [5, 3]],
    [many(51), "arguments", "min takes 1 to 50 arguments, not 51", [1, 3]],
    ["poisson_tail(a)", "arguments", "poisson_tail takes 2 arguments, not 1", [1, 12]],
    ["binomial_tail(a, b)", "arguments", "binomial_tail takes 3 arguments, not 2", [1, 13]],
    ["1:10", "syntax", "a formula cannot hold this (RangeNode)", [1, 1]],
    ["a < b < c", "syntax", "a formula cannot hold this (RelationalNode)", [1, 1]],
    ["a +", "syntax", "the formula cannot be read: Unexpected end of expression", [4, 1]],
    ["a + * b", "syntax", "the formula cannot be read: Value expected", [5, 1]],
  ])("%j", (text, code, what, at) => {
    expect(first(() => parseFormula(text))).toEqual({ code: `formula-${code}`, what, at });
  });

  test.each(
    "and or not xor mod to in end true false null undefined NaN Infinity i e prototype arguments eval import this".split(
      " ",
    ),
  )("%s is no name", (word) => {
    expect(first(() => parseFormula(word))).toEqual(unnamed(word));
    expect(first(() => parseFormula(`1 + ${word}`)).code).toBe("formula-name");
  });

  test("says how deep it may be", () => {
    expect(first(() => parseFormula(Array(201).fill("a").join("+")))).toEqual({
      code: "formula-too-deep",
      what: "the formula has too many levels",
      expected: "at most 200",
      at: [1, 1],
    });
    expect(first(() => parseFormula(`${"(".repeat(41)}a${")".repeat(41)}`))).toEqual({
      code: "formula-too-deep",
      what: "too many brackets inside brackets",
      expected: "at most 40",
      at: [41, 1],
    });
  });

  test("brackets about a comparison, and up to fifty arguments, are read", () => {
    expect(parseFormula("((a > b)) ? 1 : 2")).toEqual(parseFormula("a > b ? 1 : 2"));
    expect(parseFormula(many(50))).toMatchObject({ kind: "call", name: "min" });
  });
});

describe("of an expression", () => {
  const condition = "a comparison was expected here, such as read_latency <= 10 ns";
  const value = "a value was expected here, not a comparison";
  test.each([
    ["", "formula-syntax", "the expression is empty", [1, 1]],
    ["a +", "formula-syntax", "the expression ends too early", [4, 1]],
    ["not", "formula-syntax", "the expression ends too early", [4, 1]],
    ["exp(1,)", "formula-syntax", "a value was expected", [7, 1]],
    ["(a", "formula-syntax", '")" was expected', [3, 1]],
    ["exp(1", "formula-syntax", '")" was expected', [6, 1]],
    ["a)", "formula-syntax", '")" is out of place', [2, 1]],
    ["a, b", "formula-syntax", '"," is out of place', [2, 1]],
    ["a bcd", "formula-operator", 'an operator is missing before "bcd"', [3, 3]],
    ["(a) (b)", "formula-operator", 'an operator is missing before "("', [5, 1]],
    ["2 > 2 > 3", "formula-comparison", "comparisons do not chain: write a < b and b < c", [7, 1]],
    [
      "(1 < 2) < 3",
      "formula-comparison",
      "comparisons do not chain: write a < b and b < c",
      [9, 1],
    ],
    ["not a", "expression-kind", condition, [1, 3]],
    ["a and b > 1", "expression-kind", condition, [1, 1]],
    ["b > 1 and a", "expression-kind", condition, [7, 3]],
    ["2 < 3 or 4", "expression-kind", condition, [7, 2]],
    ["a + (b > 2)", "expression-kind", value, [3, 1]],
    ["(b > 2) + a", "expression-kind", value, [1, 1]],
    ["-(b > 2)", "expression-kind", value, [1, 1]],
    ["exp(b > 2)", "expression-kind", value, [5, 1]],
    ["min()", "formula-arguments", "min takes 1 to 50, not 0 arguments", [1, 3]],
    [many(51), "formula-arguments", "min takes 1 to 50, not 51 arguments", [1, 3]],
    ["poisson_tail(1)", "formula-arguments", "poisson_tail takes 2, not 1 arguments", [1, 12]],
  ])("%j", (text, code, what, at) => {
    expect(first(() => parseExpression(text))).toEqual({ code, what, at });
  });

  test.each([
    ["a (b)", uncallable("a")],
    ["exp + 1", bare],
    ["or", unnamed("or")],
    ["a & b", meaningless],
  ])("%j, as of a formula", (text, expected) => {
    expect(first(() => parseExpression(text))).toEqual(expected);
  });

  test("up to fifty arguments are read", () => {
    expect(parseExpression(many(50)).names).toEqual(new Map([["a", 4]]));
  });

  const units = new Map([
    ["rows", "1"],
    ["t", "s"],
  ]);
  const mismatch = (what: string, got: string, expected: string) => {
    return { code: "dimension-mismatch", what, got, expected };
  };
  const power = (exponent: string) => ({
    code: "dimension-power",
    what: "t has a dimension, so its exponent must be a number",
    got: `${exponent} as exponent of s`,
    expected: "a whole number or a simple fraction",
  });
  test.each([
    ["rows + t", mismatch("cannot add rows [1] and t [s]", "s", "1")],
    ["t - rows", mismatch("cannot subtract t [s] and rows [1]", "1", "s")],
    ["0 + t + rows", mismatch("cannot add 0 + t [s] and rows [1]", "1", "s")],
    ["rows > t", mismatch("cannot compare with > rows [1] and t [s]", "s", "1")],
    ["max(t, 0, rows)", mismatch("cannot take the max of t [s] and rows [1]", "1", "s")],
    ["exp(t)", mismatch("the argument of exp, t, must be a pure number", "s", "1")],
    ["2^t", mismatch("the exponent, t, must be a pure number", "s", "1")],
    ["t^rows", power("rows")],
    ["t^0.3333", power("0.3333")],
    ["t^(2^1)", power("2^1")],
    ["t^(rows + 1)", power("rows + 1")],
    ["t^(1 + rows)", power("1 + rows")],
    ["t^(-rows)", power("-rows")],
  ])("%j", (text, expected) => {
    const [problem] = checkExpression(parseExpression(text), units);
    expect(said(problem!)).toEqual({ ...expected, at: [1, text.length] });
  });

  test("exponents of what has a dimension are computed from their numbers", () => {
    for (const text of ["t^(0.5 + 1.5)", "t^(3 - 1)", "t^(4 * 0.5)", "t^(6 / 3)", "t^-(-2)"]) {
      expect(checkExpression(parseExpression(`${text} > t * t`), units), text).toEqual([]);
    }
  });

  test("unknown names, with the nearest and the place of the first use", () => {
    expect(checkExpression(parseExpression("1 + rowz + rowz"), units).map(said)).toEqual([
      {
        code: "unknown-symbol",
        what: '"rowz" is no quantity that is known here',
        got: "rowz",
        nearest: "rows",
        at: [5, 4],
      },
    ]);
    expect(checkExpression(parseExpression("pi > rows"), units)).toEqual([]);
  });

  test("a value that is not finite, with its formula", () => {
    const at = (text: string) => first(() => evaluateExpression(parseExpression(text), () => 512));
    expect(at("sqrt(0-rows) < 1")).toEqual({
      code: "not-finite",
      what: "sqrt(0 - rows) is not a finite number",
      got: "NaN",
      at: [1, 16],
    });
    expect(at("1/(rows-512)").got).toBe("Infinity");
    expect(evaluateExpression(parseExpression("2 * pi"), () => undefined)).toBe(2 * Math.PI);
  });
});

/** Where formulas and expressions end: one character, bracket or level less is read, and the place is right. */
import { describe, expect, test } from "vitest";
import { type Problem, TenfoldError } from "../../src/errors/problem.ts";
import { parseExpression, parseFormula } from "../../src/formulas/index.ts";
import { placeAt } from "../../src/formulas/tokens.ts";

function refusal(read: () => unknown): Problem {
  try {
    read();
  } catch (error) {
    if (error instanceof TenfoldError) return error.problems[0]!;
    throw error;
  }
  throw new Error("nothing was refused");
}

const PARSERS = [
  ["a formula", (text: string) => parseFormula(text)],
  ["an expression", (text: string) => parseExpression(text)],
] as const;

describe.each(PARSERS)("%s", (_, parse) => {
  test("has at most 2000 characters", () => {
    const text = `a${" ".repeat(1998)}`;
    expect(() => parse(`${text} `)).not.toThrow();
    expect(refusal(() => parse(`${text}  `))).toMatchObject({
      code: "formula-too-long",
      what: "the text has 2001 characters",
      expected: "at most 2000",
      // A place that shows the text must not show all of it.
      place: { line: 1, column: 1, text: `a${" ".repeat(59)}` },
    });
  });

  test("has at most 40 brackets inside brackets, and any number side by side", () => {
    const nested = (count: number) => `${"(".repeat(count)}a${")".repeat(count)}`;
    expect(() => parse(nested(40))).not.toThrow();
    expect(refusal(() => parse(nested(41)))).toMatchObject({
      code: "formula-too-deep",
      expected: "at most 40",
      place: { column: 41 },
    });
    expect(() => parse(Array(60).fill("(a)").join(" + "))).not.toThrow();
  });

  test("has at most 200 levels, which a sum of 200 terms has", () => {
    expect(() => parse(Array(200).fill("a").join("+"))).not.toThrow();
    expect(refusal(() => parse(Array(201).fill("a").join("+"))).code).toBe("formula-too-deep");
  });
});

test("a condition nests at most a hundred deep", () => {
  const nested = (count: number) => `${"not ".repeat(count)}a > 1`;
  // The comparison's sides are a level of their own.
  expect(() => parseExpression(nested(98))).not.toThrow();
  expect(refusal(() => parseExpression(nested(99))).code).toBe("formula-too-deep");
  // Side by side there is no depth.
  expect(() => parseExpression(Array(150).fill("a > 1").join(" and "))).not.toThrow();
});

describe("a place in a text of several lines", () => {
  const source = { text: "ab +\n  cd\n+ e", file: "f", line: 7, column: 12, lineText: "key: ab +" };

  test("in its first line is shifted to where the text stands in its file", () => {
    expect(placeAt(source, 3)).toEqual({
      file: "f",
      line: 7,
      column: 15,
      length: 1,
      text: "key: ab +",
    });
    expect(placeAt({ text: "ab", file: "f" }, 1, 0)).toEqual({
      file: "f",
      line: 1,
      column: 2,
      length: 1,
      text: "ab",
    });
  });

  test("in a later line is in that line", () => {
    expect(placeAt(source, 7, 2)).toEqual({
      file: "f",
      line: 8,
      column: 3,
      length: 2,
      text: "  cd",
    });
    expect(placeAt(source, 12)).toMatchObject({ line: 9, column: 3, text: "+ e" });
  });
});

describe("characters", () => {
  const got = (text: string) => refusal(() => parseFormula(text)).got;

  test("that can be printed are named as they are, others by their code of at least four digits", () => {
    for (const [character, name] of [
      ["é", "é"],
      ["٣", "٣"],
      ["“", "“"],
      ["😀", "😀"],
      ["\u000b", "U+000B"],
      ["\u200f", "U+200F"],
      ["\u{e0041}", "U+E0041"],
    ]) {
      expect(got(`a ${character}`)).toBe(name);
    }
  });

  test.each([
    ["1 \u03a9", 1],
    ["1 \u2126", 1],
    ["1 k\u03a9", 1000],
    ["1 \u00b5m", 1e-6],
    ["1 \u03bcm", 1e-6],
    ["0 \u00b0C", 273.15],
    ["3 1/s", 3],
    ["2 m^2/s", 2],
    ["2 V\u00b7s", 2],
    ["2 m^-1", 2],
  ])("of units are read in each of their forms: %s", (text, value) => {
    const { body } = parseExpression(text, "value");
    expect(body).toMatchObject({ kind: "value", tree: { kind: "number", written: text } });
    if (body.kind !== "value" || body.tree.kind !== "number") throw new Error("no number");
    expect(Math.abs(body.tree.value / value - 1)).toBeLessThan(1e-15);
  });

  test("of a unit that is not known are refused as a unit", () => {
    const problem = refusal(() => parseExpression("1 \u00c5"));
    expect(problem).toMatchObject({ code: "unknown-unit", place: { column: 3 } });
    expect(problem.fix).toBe("put blanks around an operator that follows a unit");
  });

  test("a word of the language after a number is no unit", () => {
    expect(() => parseExpression("1 < 2 and 2 < 3", "condition")).not.toThrow();
    expect(() => parseExpression("1 < 2 or 2 < 3", "condition")).not.toThrow();
    expect(refusal(() => parseExpression("2 not a")).code).toBe("formula-operator");
  });
});

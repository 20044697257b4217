import { describe, expect, test } from "vitest";
import { type Problem, TenfoldError } from "../../src/errors/problem.ts";
import {
  checkExpression,
  evaluateExpression,
  expressionText,
  parseExpression,
} from "../../src/formulas/index.ts";

const UNITS = new Map([
  ["read_latency", "s"],
  ["write_energy", "J"],
  ["macro_area", "m^2"],
  ["rows", "1"],
  ["temperature", "K"],
]);
const VALUES: Record<string, number> = {
  read_latency: 8e-9,
  write_energy: 2e-12,
  macro_area: 3e-8,
  rows: 512,
  temperature: 283.15,
};

const value = (text: string) => evaluateExpression(parseExpression(text), (name) => VALUES[name]);

function problems(text: string): readonly Problem[] {
  try {
    return checkExpression(parseExpression(text), UNITS);
  } catch (error) {
    if (error instanceof TenfoldError) return error.problems;
    throw error;
  }
}

describe("users' expressions", () => {
  test.each([
    ["10 ns", 1e-8],
    ["10ns", 1e-8],
    ["0.2 fF/um", 2e-10],
    ["5 %", 0.05],
    ["10 degC", 283.15],
    ["2 um^2", 2e-12],
    ["3 1/mm^2", 3e6],
    ["4 Mib", 4 * 1024 * 1024],
    ["10 ns + 2 * 1 us", 2.01e-6],
    ["read_latency / 2 ns", 4],
    ["2 * read_latency / 1 ns ^ 1", 16],
    ["-2^2", -4],
    ["2^3^2", 512],
    ["2^-1", 0.5],
    ["8 - 3 - 2", 3],
    ["max(rows, 2 * 300)", 600],
    ["sqrt(macro_area) / 1 um", Math.sqrt(3e-8) / 1e-6],
    ["5 min", 300],
    ["2 * pi", 2 * Math.PI],
  ])("%s is %d in SI", (text, expected) => {
    expect(problems(text)).toEqual([]);
    expect(Math.abs((value(text) as number) / expected - 1)).toBeLessThan(1e-14);
  });

  test.each([
    ["read_latency <= 10 ns", true],
    ["read_latency > 10 ns", false],
    ["rows == 512 and temperature < 20 degC", true],
    ["rows == 512 and not temperature < 20 degC", false],
    ["rows < 10 or rows > 500", true],
    ["rows < 10 or rows > 500 and read_latency < 1 ns", false],
    ["(rows < 10 or rows > 500) and read_latency < 9 ns", true],
    ["not (rows < 10 or rows != 512)", true],
    ["not rows > 10 or rows == 512", true],
    ["not rows < 10 and rows < 10", false],
    ["2 * read_latency + 1 ns >= 17 ns", true],
  ])("%s: %s", (text, expected) => {
    expect(problems(text)).toEqual([]);
    expect(value(text)).toBe(expected);
  });

  test("print to a text that reads the same", () => {
    for (const text of [
      "read_latency <= 10 ns and (rows > 2 or not rows == 512)",
      "not (rows < 10 or rows != 512)",
      "rows > 1 and (rows > 2 and rows > 3)",
      "rows > 1 or (rows > 2 or rows > 3)",
      "2 * (macro_area + 3 um^2) / rows^2",
      "10 ns / (2 ns)",
    ]) {
      const { body } = parseExpression(text);
      expect(expressionText(body)).toBe(text);
      expect(parseExpression(expressionText(body)).body).toEqual(body);
    }
  });

  test.each([
    ["read_latency <= 10", "dimension-mismatch", 1],
    ["read_latency + macro_area", "dimension-mismatch", 1],
    ["10 ns + 1 m < 3 s", "dimension-mismatch", 1],
    ["rows > 1 and read_latency < 1 m", "dimension-mismatch", 1],
    ["exp(read_latency) > 1", "dimension-mismatch", 1],
    ["rows > 3 and raed_latency < 1 ns", "unknown-symbol", 14],
    ["10 nn", "unknown-unit", 4],
    ["10 ns*rows", "unknown-unit", 4],
    ["1 < rows < 3", "formula-comparison", 10],
    ["rows + (rows > 2)", "expression-kind", 6],
    ["rows and rows", "expression-kind", 1],
    ["not rows", "expression-kind", 1],
    ["rows 2", "formula-operator", 6],
    ["rows rows", "formula-operator", 6],
    ["rows)", "formula-syntax", 5],
    ["(rows", "formula-syntax", 6],
    ["", "formula-syntax", 1],
    ["rows ? 1 : 2", "formula-syntax", 6],
    ["rows >", "formula-syntax", 7],
    ["min()", "formula-arguments", 1],
    ["exp(1, 2)", "formula-arguments", 1],
    ["design.rows", "formula-character", 7],
    ["rows = 2", "formula-character", 6],
  ])("%j is refused as %s at column %i", (text, code, column) => {
    const [problem] = problems(text);
    expect(problem).toMatchObject({ code, place: { column } });
  });

  test("name the nearest quantity and every unknown one", () => {
    const found = problems("raed_latency < 1 ns and cols > 3");
    expect(found.map(({ got, nearest }) => [got, nearest])).toEqual([
      ["raed_latency", "read_latency"],
      ["cols", undefined],
    ]);
  });

  test("give places in the file that they came from", () => {
    const source = {
      text: "rows > nowhere",
      file: "study.yaml",
      line: 7,
      column: 12,
      lineText: "    target: rows > nowhere",
    };
    const [problem] = checkExpression(parseExpression(source), UNITS);
    expect(problem!.place).toEqual({
      file: "study.yaml",
      line: 7,
      column: 19,
      length: 7,
      text: "    target: rows > nowhere",
    });
  });

  test("are refused where the other kind is wanted", () => {
    expect(() => parseExpression("rows > 2", "value")).toThrow(/expression-kind/);
    expect(() => parseExpression("rows + 2", "condition")).toThrow(/expression-kind/);
    expect(parseExpression("rows + 2", "value").names).toEqual(new Map([["rows", 0]]));
  });

  test("fail where a value is not finite, rather than hold or not", () => {
    expect(() => value("sqrt(-rows) < 1")).toThrow(/not-finite/);
    expect(() => value("1 / (rows - 512)")).toThrow(/not-finite/);
    expect(() => evaluateExpression(parseExpression("gone > 1"), () => undefined)).toThrow(
      /not-finite/,
    );
  });
});

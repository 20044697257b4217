import { describe, expect, test } from "vitest";
import {
  formulaLatex,
  formulaText,
  latexName,
  latexNumber,
  parseFormula,
} from "../../src/formulas/index.ts";

describe("formulaText", () => {
  test.each([
    ["(a + b) + c", "a + b + c"],
    ["a + (b + c)", "a + (b + c)"],
    ["a - (b - c)", "a - (b - c)"],
    ["(a * b) / (c * d)", "a * b / (c * d)"],
    ["a / (b / c)", "a / (b / c)"],
    ["(a ^ b) ^ c", "(a^b)^c"],
    ["a ^ (b ^ c)", "a^(b^c)"],
    ["-(a ^ 2)", "-a^2"],
    ["(-a) ^ 2", "(-a)^2"],
    ["a * -b", "a * (-b)"],
    ["2 ^ -n", "2^(-n)"],
    ["-(-a)", "-(-a)"],
    ["-(a * b)", "-(a * b)"],
    ["exp( - a/b )", "exp(-a / b)"],
    ["(a > b) ? x : (y)", "a > b ? x : y"],
    ["1 + (a > b ? x : y)", "1 + (a > b ? x : y)"],
    ["1.50e-9 * a", "1.5e-9 * a"],
  ])("prints %s as %s", (text, expected) => {
    expect(formulaText(parseFormula(text))).toBe(expected);
  });

  test("puts values with units in the place of names, in brackets where they would misread", () => {
    const figures: Record<string, string> = { r: "2.5 kΩ", c: "4 fF", t: "-3 s" };
    const shown = (text: string) => formulaText(parseFormula(text), (name) => figures[name]!);
    expect(shown("0.38 * r * c")).toBe("0.38 * 2.5 kΩ * 4 fF");
    expect(shown("t / (r * c)")).toBe("-3 s / (2.5 kΩ * 4 fF)");
    expect(shown("t / r")).toBe("-3 s / (2.5 kΩ)");
    expect(shown("c^2")).toBe("(4 fF)^2");
    expect(shown("r - t")).toBe("2.5 kΩ - (-3 s)");
  });
});

describe("formulaLatex", () => {
  const symbols = new Map([
    ["resistance", "R_{w}"],
    ["prime", "C'"],
  ]);

  test.each([
    ["0.38 * resistance * prime", "0.38 \\, R_{w} \\, C'"],
    ["a / (b + c)", "\\frac{a}{b + c}"],
    ["(a + b) / 2 * c", "\\frac{a + b}{2} \\, c"],
    ["n * (a + b)", "n \\, \\left(a + b\\right)"],
    ["a * 2", "a \\cdot 2"],
    ["sqrt(a / b)", "\\sqrt{\\frac{a}{b}}"],
    ["cbrt(a)", "\\sqrt[3]{a}"],
    ["ceil(log2(n))", "\\left\\lceil \\log_{2}\\left(n\\right)\\right\\rceil"],
    ["exp(-a / b)", "\\exp\\left(-\\frac{a}{b}\\right)"],
    ["-a * b / c", "-\\frac{a \\, b}{c}"],
    ["(-a + b) / c", "\\frac{-a + b}{c}"],
    ["(-a / b)^2", "\\left(-\\frac{a}{b}\\right)^{2}"],
    ["log(1 + a)", "\\ln\\left(1 + a\\right)"],
    ["resistance^2", "R_{w}^{2}"],
    ["prime^2", "\\left(C'\\right)^{2}"],
    ["(a + b)^n", "\\left(a + b\\right)^{n}"],
    ["(a / b)^2", "\\left(\\frac{a}{b}\\right)^{2}"],
    ["exp(a)^2", "\\left(\\exp\\left(a\\right)\\right)^{2}"],
    ["1e-9 * a", "10^{-9} \\, a"],
    ["2.5e-9 * a", "2.5 \\times 10^{-9} \\cdot a"],
    ["(1e-9)^2", "\\left(10^{-9}\\right)^{2}"],
    ["-a - (-b)", "-a - \\left(-b\\right)"],
    [
      "a > b ? x : y",
      "\\begin{cases} x & \\text{if } a > b \\\\ y & \\text{otherwise} \\end{cases}",
    ],
    [
      "a <= b ? x : y",
      "\\begin{cases} x & \\text{if } a \\le b \\\\ y & \\text{otherwise} \\end{cases}",
    ],
    ["max(a, b)", "\\max\\left(a, b\\right)"],
    ["abs(a - b)", "\\left|a - b\\right|"],
    ["2 * pi * tau", "2 \\, \\pi \\, \\tau"],
    ["log1p(a + b)", "\\ln\\left(1 + a + b\\right)"],
    ["c * expm1(a)", "c \\, \\left(\\exp\\left(a\\right) - 1\\right)"],
  ])("prints %s", (text, expected) => {
    expect(formulaLatex(parseFormula(text), symbols)).toBe(expected);
  });

  test.each([
    ["tau", "\\tau"],
    ["R_on", "R_{\\mathrm{on}}"],
    ["sigma_cell_off", "\\sigma_{\\mathrm{cell\\ off}}"],
    ["x", "x"],
    ["row_wire_width", "\\mathrm{row\\ wire\\ width}"],
    ["epsilon_r", "\\epsilon_{\\mathrm{r}}"],
  ])("makes the symbol of %s", (name, expected) => {
    expect(latexName(name)).toBe(expected);
  });

  test.each([
    [0, "0"],
    [0.38, "0.38"],
    [99999, "99999"],
    [1e5, "10^{5}"],
    [1e-9, "10^{-9}"],
    [-1e-9, "-10^{-9}"],
    [1.380649e-23, "1.380649 \\times 10^{-23}"],
  ])("prints the number %d", (value, expected) => {
    expect(latexNumber(value)).toBe(expected);
  });
});

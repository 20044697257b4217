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
    ["min(a > b ? x : y, a + b)", "min(a > b ? x : y, a + b)"],
    ["(a > b ? x : y) > c ? d : q", "(a > b ? x : y) > c ? d : q"],
    ["a > b ? (c > d ? x : y) : (q > f ? z : w)", "a > b ? (c > d ? x : y) : q > f ? z : w"],
    ["a + b > c * d ? x + y : -z", "a + b > c * d ? x + y : -z"],
    ["(a + b) * c / (d - q)", "(a + b) * c / (d - q)"],
    ["a * (b * c)", "a * (b * c)"],
    ["a - b * c", "a - b * c"],
    ["(a * b) ^ c", "(a * b)^c"],
    ["exp(a) ^ 2", "exp(a)^2"],
    ["-a / b", "-a / b"],
    ["-(a / b)", "-(a / b)"],
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
    expect(shown("t + r")).toBe("-3 s + 2.5 kΩ");
    expect(shown("r * t")).toBe("2.5 kΩ * (-3 s)");
    expect(shown("t * r")).toBe("-3 s * 2.5 kΩ");
    expect(shown("t^2")).toBe("(-3 s)^2");
    expect(shown("2^t")).toBe("2^(-3 s)");
    expect(shown("-t")).toBe("-(-3 s)");
    expect(shown("-r")).toBe("-2.5 kΩ");
    expect(shown("-(r + c)")).toBe("-(2.5 kΩ + 4 fF)");
    expect(shown("exp(t) / r")).toBe("exp(-3 s) / (2.5 kΩ)");
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
    [
      "a < b ? x : y > z ? v : w",
      "\\begin{cases} x & \\text{if } a < b \\\\ \\begin{cases} v & \\text{if } y > z \\\\ w & \\text{otherwise} \\end{cases} & \\text{otherwise} \\end{cases}",
    ],
    ["a - (b - c)", "a - \\left(b - c\\right)"],
    ["a - b * c", "a - b \\, c"],
    ["-(a + b)", "-\\left(a + b\\right)"],
    ["-a^2", "-a^{2}"],
    ["-(a * b)", "-\\left(a \\, b\\right)"],
    ["a * b^2", "a \\, b^{2}"],
    ["a * (-b)", "a \\, \\left(-b\\right)"],
    ["2 * 3", "2 \\cdot 3"],
    ["2^(a + b)", "2^{a + b}"],
    ["(a - b) / (c / d)", "\\frac{a - b}{\\frac{c}{d}}"],
    [
      "(a > b ? x : y) + 1",
      "\\left(\\begin{cases} x & \\text{if } a > b \\\\ y & \\text{otherwise} \\end{cases}\\right) + 1",
    ],
    ["expm1(a) + b", "\\exp\\left(a\\right) - 1 + b"],
    ["log1p(-a)", "\\ln\\left(1 - a\\right)"],
    ["log1p(-a * b + c)", "\\ln\\left(1 - a \\, b + c\\right)"],
    ["2.5e-9 + a", "2.5 \\times 10^{-9} + a"],
    ["(2.5e-9)^a", "\\left(2.5 \\times 10^{-9}\\right)^{a}"],
    ["min(a, b)", "\\min\\left(a, b\\right)"],
    ["round(a)", "\\operatorname{round}\\left(a\\right)"],
    ["floor(a)", "\\left\\lfloor a\\right\\rfloor"],
    ["exp(a) + log10(b)", "\\exp\\left(a\\right) + \\log_{10}\\left(b\\right)"],
    [
      "sinh(a) + cosh(a) + tanh(a)",
      "\\sinh\\left(a\\right) + \\cosh\\left(a\\right) + \\tanh\\left(a\\right)",
    ],
    [
      "asinh(a) - acosh(a)",
      "\\operatorname{arsinh}\\left(a\\right) - \\operatorname{arcosh}\\left(a\\right)",
    ],
    ["erfc(a)", "\\operatorname{erfc}\\left(a\\right)"],
    ["normal_quantile(a)", "\\Phi^{-1}\\left(a\\right)"],
    ["normal_tail(a)", "Q\\left(a\\right)"],
    ["gamma(a)", "\\Gamma\\left(a\\right)"],
    ["binomial_tail(a, b, c)", "P_{\\mathrm{binomial}}\\left(a, b, c\\right)"],
    ["poisson_tail(a, b)", "P_{\\mathrm{Poisson}}\\left(a, b\\right)"],
    [
      "a == b ? x : y",
      "\\begin{cases} x & \\text{if } a = b \\\\ y & \\text{otherwise} \\end{cases}",
    ],
    [
      "a != b ? x : y",
      "\\begin{cases} x & \\text{if } a \\ne b \\\\ y & \\text{otherwise} \\end{cases}",
    ],
    [
      "a >= b ? x : y",
      "\\begin{cases} x & \\text{if } a \\ge b \\\\ y & \\text{otherwise} \\end{cases}",
    ],
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
    [1e-3, "0.001"],
    [-99999, "-99999"],
    [9.9e-4, "9.9 \\times 10^{-4}"],
    [-2.5e7, "-2.5 \\times 10^{7}"],
    [1.380649e-23, "1.380649 \\times 10^{-23}"],
  ])("prints the number %d", (value, expected) => {
    expect(latexNumber(value)).toBe(expected);
  });
});

import { DOMParser } from "linkedom";
import { describe, expect, test } from "vitest";
import { formulaLatex } from "../../src/formulas/latex.ts";
import { parseFormula } from "../../src/formulas/parse.ts";
import { formulaMathml, symbolMathml } from "../../src/report/renderers/html/mathml.ts";
import { PAYLOADS } from "./payloads.ts";

const set = (formula: string): string =>
  formulaMathml(formulaLatex(parseFormula(formula), new Map()))!;

/** What a screen reader is given: leaves in order. */
const read = (mathml: string): string =>
  [...new DOMParser().parseFromString(mathml, "text/xml").querySelectorAll("mi,mn,mo,mtext")]
    .map((leaf) => leaf.textContent)
    .join(" ");

describe("formulas as MathML", () => {
  // Elements and their children by the recommendation "Mathematical Markup Language (MathML) Version 3.0", chapter 3.
  test.each([
    ["a / b", "<mfrac><mi>a</mi><mi>b</mi></mfrac>"],
    ["a^2", "<msup><mi>a</mi><mn>2</mn></msup>"],
    ["R_on", "<msub><mi>R</mi><mi>on</mi></msub>"],
    ["sqrt(a)", "<msqrt><mi>a</mi></msqrt>"],
    ["cbrt(a)", "<mroot><mi>a</mi><mrow><mn>3</mn></mrow></mroot>"],
    ["cell_width", "<mi>cell width</mi>"],
    ["tau", "<mi>τ</mi>"],
    ["-a", "<mo>−</mo><mi>a</mi>"],
    ["abs(a)", "<mrow><mo>|</mo><mi>a</mi><mo>|</mo></mrow>"],
    ["ceil(a)", "<mrow><mo>⌈</mo><mi>a</mi><mo>⌉</mo></mrow>"],
    ["1e-18 * a", "<msup><mn>10</mn><mrow><mo>−</mo><mn>18</mn></mrow></msup>"],
  ])("%s", (formula, markup) => {
    expect(set(formula)).toContain(markup);
  });

  test("a choice is a table of values and conditions behind one brace", () => {
    expect(read(set("a > b ? c : 2 * d"))).toBe("{ c if\u00a0 a > b 2 d otherwise\u00a0");
    expect(set("a > b ? c : d").match(/<mtr>/g)).toHaveLength(2);
  });

  test("names are words, not letters for a screen reader to spell", () => {
    expect(read(set("row_driver_delay + log(C_row / C_in)"))).toBe(
      "row driver delay + ln ( C row C in )",
    );
  });

  test("words that are multiplied have a sign between them, symbols a thin space", () => {
    expect(read(set("cell_width * cell_height"))).toBe("cell width · cell height");
    expect(read(set("2 * cell_width * a"))).toBe("2 · cell width · a");
    expect(set("a * b * R_on")).not.toContain("·");
  });

  test("a sum too wide for a line goes on in the next, before a sign", () => {
    const names = Array.from({ length: 12 }, (_, i) => `all_parts_of_kind_x${i}`);
    const wide = set(names.join(" + "));
    expect(wide.match(/<mtr>/g)!.length).toBeGreaterThan(2);
    expect(wide.match(/<mtd><mrow><mo>\+<\/mo>/g)!.length).toBe(wide.match(/<mtr>/g)!.length - 1);
    expect(read(wide)).toBe(names.map((name) => name.replaceAll("_", " ")).join(" + "));
  });

  test("a factor too wide for a line stays text, and so does what is no formula of ours", () => {
    const wide = Array.from({ length: 9 }, (_, i) => `a_very_long_name_of_a_factor_${i}`).join(
      " * ",
    );
    expect(set(wide)).toBeUndefined();
    for (const other of [
      "\\input{x}",
      "\\frac{a}",
      "{a",
      "a_",
      "<b>",
      "\\mathrm{a<b}",
      "\\begin{x}",
    ])
      expect(formulaMathml(other)?.includes("<b>") ?? false, other).toBe(false);
    expect(formulaMathml("\\input{x}")).toBeUndefined();
    expect(formulaMathml("\\frac{a}")).toBeUndefined();
  });

  test.each(Object.entries(PAYLOADS))("%s makes no element but those of formulas", (_, payload) => {
    for (const text of [payload, `\\mathrm{${payload}}`, `\\text{${payload}}`, `a_{${payload}}`]) {
      const tags = `${formulaMathml(text)}${symbolMathml(text)}`.match(/<[^>]*>?/g) ?? [];
      const known =
        /^<\/?m(?:ath|row|i|n|o|text|space|frac|su[bp]|subsup|sqrt|root|table|tr|td)(?: (?:display|mathvariant|width)="[\w.]+")?>$/;
      expect(tags.filter((tag) => !known.test(tag))).toEqual([]);
    }
  });

  test.each([
    ["C_{g,IO}", "<math><msub><mi>C</mi><mi>g,IO</mi></msub></math>"],
    ["\\rho_0 \\lambda", "<math><msub><mi>ρ</mi><mn>0</mn></msub><mi>λ</mi></math>"],
    ["V_{th}^*", "<math><msubsup><mi>V</mi><mi>th</mi><mo>*</mo></msubsup></math>"],
  ])("the symbol %s", (latex, markup) => {
    expect(symbolMathml(latex)).toBe(markup);
  });
});

import { createHash } from "node:crypto";
import { expect, test } from "vitest";
import { csvField, csvFiles, renderCsv, toCsv } from "../../src/report/renderers/csv.ts";
import { cellText, shareText } from "../../src/report/renderers/figures.ts";
import { renderHtml } from "../../src/report/renderers/html/html.ts";
import { STYLE, STYLE_HASH } from "../../src/report/renderers/html/style.ts";
import { renderJson } from "../../src/report/renderers/json.ts";
import { renderLatex } from "../../src/report/renderers/latex/latex.ts";
import { latexUnit } from "../../src/report/renderers/latex/unit.ts";
import { renderMarkdown } from "../../src/report/renderers/markdown.ts";
import { renderText } from "../../src/report/renderers/text/text.ts";
import { EXAMPLE } from "./example.ts";

test("the policy of the HTML page names the hash of its style sheet", () => {
  const hash = `sha256-${createHash("sha256").update(STYLE).digest("base64")}`;
  expect(STYLE_HASH).toBe(hash);
  expect(renderHtml(EXAMPLE)).toContain(`style-src '${hash}'`);
});

test("the HTML page has no script, no inline style and no address to fetch", () => {
  expect(renderHtml(EXAMPLE)).not.toMatch(/<script|style="|src=|href=|url\(|@import/);
});

test("all formats that people read show the same figures", () => {
  const figures = ["0.74 – 0.93", "0.13 – 0.28", "× 0.23", "baseline", "71 %"];
  const strip = (text: string): string =>
    text
      .replaceAll("\\textendash{}", "–")
      .replaceAll("\\ensuremath{\\times}", "×")
      .replaceAll("\\%", "%");
  for (const text of [
    renderText(EXAMPLE),
    renderMarkdown(EXAMPLE),
    renderHtml(EXAMPLE),
    strip(renderLatex(EXAMPLE)),
  ]) {
    for (const figure of figures) expect(text).toContain(figure);
  }
});

test("CSV holds the SI numbers with all their digits, one row per quantity and design", () => {
  const [head, first, second] = renderCsv(EXAMPLE).split("\r\n");
  expect(head).toBe(
    "quantity,design,unit,value,low,median,high,model_low,model_high," +
      "ratio,ratio_low,ratio_high,ratio_model_low,ratio_model_high",
  );
  expect(first).toBe("macro_area,static,m^2,8.2e-7,7.4e-7,,9.3e-7,,,,,,,");
  expect(second).toBe("macro_area,one-transistor,m^2,3.1e-7,2.5e-7,,3.9e-7,,,0.378,,,,");
});

test("each table of a document is one CSV file, breakdowns included", () => {
  expect([...csvFiles(EXAMPLE).keys()]).toEqual(["comparison", "area_parts", "switches"]);
  expect(csvFiles(EXAMPLE).get("switches")).toBe(
    "name,on_resistance,on_resistance_unit,on_resistance_low,on_resistance_high,about\r\n" +
      "oxide-bilayer,6000,ohm,1000,20000," +
      '"A sub-oxide with a thin stoichiometric oxide on it, formed once, then set and reset"\r\n',
  );
});

test("a CSV field keeps numbers and booleans, quotes what RFC 4180 says, and disarms formulas", () => {
  expect(["a,b", 'a"b', -1.5, true, undefined, Number.NaN, "=1+1", "-5"].map(csvField)).toEqual([
    '"a,b"',
    '"a""b"',
    "-1.5",
    "true",
    "",
    "",
    `"'=1+1"`,
    `"'-5"`,
  ]);
  expect(toCsv(["a"], [])).toBe("a\r\n");
});

test("JSON has null for what is no number, and reads back every finite number exactly", () => {
  const data = {
    a: Number.NaN,
    b: Number.POSITIVE_INFINITY,
    c: 0.1 + 0.2,
    d: new Float64Array([1, 5e-324]),
  };
  expect(JSON.parse(renderJson(data))).toEqual({ a: null, b: null, c: 0.1 + 0.2, d: [1, 5e-324] });
});

test("a printed unit becomes siunitx macros, and an unknown one plain text", () => {
  expect(
    ["mm²", "µs", "kΩ", "nJ", "pJ/bit", "1/µm²", "MB/s", "M", ""].map((unit) => latexUnit(unit)),
  ).toEqual([
    "\\unit{\\milli\\metre\\squared}",
    "\\unit{\\micro\\second}",
    "\\unit{\\kilo\\ohm}",
    "\\unit{\\nano\\joule}",
    "\\unit{\\pico\\joule\\per\\bit}",
    "\\unit{\\per\\micro\\metre\\squared}",
    "\\unit{\\mega\\byte\\per\\second}",
    "M",
    "",
  ]);
});

test("shares are whole percents, with a digit more below one percent", () => {
  expect([0, 0.0005, 0.004, 0.0095, 0.012, 0.714, 1].map(shareText)).toEqual([
    "0 %",
    "< 0.1 %",
    "0.4 %",
    "1 %",
    "1 %",
    "71 %",
    "100 %",
  ]);
});

test("the bytes of a format do not depend on how often it is drawn", () => {
  for (const render of [renderText, renderMarkdown, renderHtml, renderLatex, renderCsv]) {
    expect(render(EXAMPLE)).toBe(render(EXAMPLE));
  }
});

test("a skewed interval does not leave its value a single digit", () => {
  const cell = { kind: "quantity", unit: "s", value: 4.4e-9, low: 3.2e-9, high: 32e-9 } as const;
  expect(cellText(cell)).toBe("4.4 (3.2 – 32) ns");
});

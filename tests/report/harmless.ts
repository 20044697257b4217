import { parseHTML } from "linkedom";
import { expect } from "vitest";
import type { Document } from "../../src/report/document/document.ts";
import { csvFiles, renderCsv } from "../../src/report/renderers/csv.ts";
import { renderHtml } from "../../src/report/renderers/html/html.ts";
import { renderJson } from "../../src/report/renderers/json.ts";
import { renderLatex } from "../../src/report/renderers/latex/latex.ts";
import { renderMarkdown } from "../../src/report/renderers/markdown.ts";
import { renderText } from "../../src/report/renderers/text/text.ts";
import { ACTING } from "./payloads.ts";

/** What each form of output must keep to, whatever text a user gave. */

export function expectPlainText(text: string): void {
  expect(text).not.toMatch(ACTING);
}

/** Every cell of a CSV text, read by RFC 4180; a cell that a spreadsheet computes fails. */
export function expectCsv(csv: string): void {
  expect(csv).not.toMatch(ACTING);
  for (const cell of cellsOf(csv)) expect(cell).not.toMatch(/(?:^|;)\s*[=+\-@＝＋－＠](?![\d.])/u);
}

function cellsOf(csv: string): string[] {
  const cells: string[] = [];
  const field = /("(?:[^"]|"")*"|[^",\r\n]*)(,|\r\n|$)/gy;
  for (let at = 0; at < csv.length; at = field.lastIndex) {
    field.lastIndex = at;
    const match = field.exec(csv);
    if (match === null) throw new Error(`no CSV at ${at}: ${csv.slice(at, at + 80)}`);
    cells.push(match[1]!.replace(/^"|"$/g, "").replaceAll('""', '"'));
  }
  return cells;
}

const SVG =
  "svg g path rect line circle text tspan title desc style defs clipPath linearGradient stop marker polygon polyline".split(
    " ",
  );
const HTML =
  "html head meta title style body main h1 h2 h3 p nav ul ol li a div table caption thead tbody tr th td b span dl dt dd pre code figure figcaption".split(
    " ",
  );
const MATHML =
  "math mrow mi mn mo mtext mspace mfrac msub msup msubsup msqrt mroot mtable mtr mtd".split(" ");
const FOREIGN = /^(?:on|src|style$|formaction|srcdoc|xlink|background|action|data$)/;

/** Elements and attributes of HTML with charts: only those that we write, and only own anchors. */
export function expectHtml(html: string, more: readonly string[] = []): void {
  expect(html).not.toMatch(ACTING);
  const { document } = parseHTML(html);
  const allowed = new Set([...SVG, ...HTML, ...MATHML, ...more].map((tag) => tag.toLowerCase()));
  for (const element of document.querySelectorAll("*")) {
    const tag = element.localName.toLowerCase();
    expect(allowed, html.slice(0, 200)).toContain(tag);
    for (const { name, value } of element.attributes) {
      // What a style of ours may say: no address in it.
      if (name === "style") expect(value).toMatch(/^[\w\s:;.,%#-]*$/);
      else expect(name).not.toMatch(FOREIGN);
      if (name === "href") expect(value).toMatch(/^#/);
      if (name === "http-equiv") expect(value).toBe("Content-Security-Policy");
    }
  }
}

/** A chart as a file: well-formed XML with the elements of a drawing alone. */
export function expectSvg(svg: string): void {
  expectHtml(`<html><body>${svg}</body></html>`);
  const open: string[] = [];
  const token = /<(\/?)([\w:-]+)((?:\s+[\w:-]+="[^"<]*")*)\s*(\/?)>|([^<]+)/gy;
  for (let at = 0; at < svg.length; at = token.lastIndex) {
    token.lastIndex = at;
    const match = token.exec(svg);
    if (match === null) throw new Error(`no XML at ${at}: ${svg.slice(at, at + 80)}`);
    const [, closes, tag, attributes = "", alone, text = ""] = match;
    expect(`${attributes}${text}`).not.toMatch(/&(?!(?:amp|lt|gt|quot|apos|#\d+|#x[\da-f]+);)/i);
    if (tag === undefined || alone === "/") continue;
    if (closes === "/") expect(open.pop()).toBe(tag);
    else open.push(tag);
  }
  expect(open).toEqual([]);
}

/** No command but those of our own renderer, every brace closed. */
export function expectLatex(latex: string): void {
  expect(latex).not.toMatch(ACTING);
  expect(latex).not.toMatch(/\\(?:input|immediate|write|openin|include|catcode|def|csname)/);
  expectBraces(latex);
}

export function expectBraces(text: string): void {
  let depth = 0;
  for (const [brace] of text.replace(/\\[\\{}]/g, "").matchAll(/[{}]/g)) {
    depth += brace === "{" ? 1 : -1;
    expect(depth).toBeGreaterThanOrEqual(0);
  }
  expect(depth).toBe(0);
}

/** No raw element, image, link or table row of a text's own; code blocks are fenced by us. */
export function expectMarkdown(markdown: string): void {
  expect(markdown).not.toMatch(ACTING);
  const bare = markdown.replace(/^(`{3,})\w*\n[\s\S]*?^\1$/gm, "").replace(/\\./g, "");
  expect(bare).not.toMatch(/<(?!\/?(?:sub|sup|br)>)|\]\((?!#|charts\/)|:\/\/|www\./);
}

/** An entry of BibTeX each: braces closed, nothing but fields in it. */
export function expectBibtex(text: string): void {
  expectBraces(text);
  expect(text).not.toMatch(ACTING);
  expect(text).not.toMatch(/\\(?:input|immediate|write)/);
  for (const line of text.split("\n")) {
    expect(line).toMatch(/^(?:|\}|@misc\{[A-Za-z0-9_-]*,| {2}\w+ = \{.*\},?)$/);
  }
}

/** All forms of one result. */
export function expectHarmless(document: Document, data: unknown = document): void {
  expectPlainText(renderText(document, { color: false }));
  expectMarkdown(renderMarkdown(document));
  expectLatex(renderLatex(document, { standalone: true }));
  expectHtml(renderHtml(document));
  expectCsv(renderCsv(document));
  for (const csv of csvFiles(document).values()) expectCsv(csv);
  expectPlainText(renderJson(data));
}

import { describe, expect, test } from "vitest";
import { contentsOf } from "../../src/report/document/contents.ts";
import type { Document } from "../../src/report/document/document.ts";
import { csvField, csvFiles, renderCsv } from "../../src/report/renderers/csv.ts";
import { renderHtml } from "../../src/report/renderers/html/html.ts";
import { renderJson } from "../../src/report/renderers/json.ts";
import { escapeLatex } from "../../src/report/renderers/latex/escape.ts";
import { renderLatex } from "../../src/report/renderers/latex/latex.ts";
import { escapeMarkdown, renderMarkdown } from "../../src/report/renderers/markdown.ts";
import { renderText } from "../../src/report/renderers/text/text.ts";
import { ACTING, PAYLOADS } from "./payloads.ts";

function filled(payload: string): Document {
  const cell = { kind: "text", text: payload } as const;
  return {
    title: payload,
    subtitle: payload,
    blocks: [
      { kind: "heading", level: 1, text: payload },
      contentsOf([{ kind: "heading", level: 1, text: payload }]),
      { kind: "paragraph", text: payload },
      { kind: "list", items: [payload] },
      { kind: "note", level: "warning", text: payload },
      {
        kind: "table",
        name: "table",
        caption: payload,
        columns: [{ name: payload, title: payload }],
        rows: [[cell]],
      },
      {
        kind: "comparison",
        name: "comparison",
        caption: payload,
        designs: [payload, "b"],
        baseline: payload,
        rows: [
          {
            name: payload,
            label: payload,
            unit: "s",
            figures: [{ value: 1 }, { value: 2, ratio: { value: 2 } }],
          },
        ],
      },
      { kind: "pairs", pairs: [{ key: payload, value: cell, remark: payload }] },
      { kind: "formula", text: payload, latex: "x", numbers: payload, result: cell },
      {
        kind: "bars",
        name: "bars",
        caption: payload,
        unit: "1",
        bars: [{ label: payload, parts: [{ part: payload, value: 1 }] }],
      },
      { kind: "indented", blocks: [{ kind: "paragraph", text: payload }] },
    ],
  };
}

describe.each(Object.entries(PAYLOADS))("%s", (_, payload) => {
  const document = filled(payload);

  test("acts on no terminal", () => {
    expect(renderText(document)).not.toMatch(ACTING);
    expect(renderText(document, { ascii: true })).toMatch(/^[\n\x20-\x7e]*$/);
  });

  test("makes no element, attribute or request in HTML", () => {
    const html = renderHtml(document);
    expect(html).not.toMatch(ACTING);
    const known =
      /^<\/?(html|head|meta|title|style|body|main|h1|h2|p|nav|ul|li|a|div|table|caption|thead|tbody|tr|th|td|b|span|dl|dt|dd|pre|svg|rect|math|mrow|mi|mn|mo|mtext|mspace|mfrac|msu[bp]|msubsup|msqrt|mroot|mtable|mtr|mtd)( id="[\p{L}\p{N}\p{M}_-]*"| href="#[\p{L}\p{N}\p{M}_-]*"| (lang|charset|http-equiv|content|name|class|role|tabindex|aria-label|aria-hidden|scope|viewBox|preserveAspectRatio|width|height|display|mathvariant)="[^"<>]*")*\/?>$/u;
    const tags = html.replace("<!doctype html>", "").match(/<[^>]*>?/g) ?? [];
    expect(tags.filter((tag) => !known.test(tag))).toEqual([]);
    expect(html.replaceAll("</style>", "").match(/<style>/g)).toHaveLength(1);
  });

  test("is no formula in a spreadsheet and stays in its field", () => {
    expect(csvField(payload).replace(/^"/, "")).not.toMatch(/^\s*[=+\-@＝]/u);
    expect(renderCsv(document).split("\r\n")).toHaveLength(3);
    for (const csv of csvFiles(document).values()) {
      expect(csv).not.toMatch(ACTING);
      expect(csv.replace(/"(?:[^"]|"")*"/g, "")).not.toMatch(/"/);
    }
  });

  test("holds no TeX command of its own", () => {
    const latex = renderLatex(document, { standalone: true });
    expect(latex).not.toMatch(ACTING);
    expect(latex).not.toMatch(/\\(input|immediate|write|hline)/);
    const bare = escapeLatex(payload)
      .replace(/\\[&%$#_{}]/g, "")
      .replace(/\\(text[a-z]+|ensuremath|times|Omega|,)/g, "");
    expect(bare).not.toMatch(/[\\$&#^_~%]/);
    const opened = bare.match(/\{/g)?.length ?? 0;
    expect(bare.match(/\}/g)?.length ?? 0).toBe(opened);
  });

  test("is plain text in Markdown", () => {
    const markdown = renderMarkdown(document);
    expect(markdown).not.toMatch(ACTING);
    const escaped = escapeMarkdown(payload);
    expect(escaped).not.toMatch(/[<>]|:\/\/|www\./);
    expect(escaped.replace(/\\./g, "")).not.toMatch(/[`*[\]|~$]/);
    expect(escaped).not.toMatch(/\n|^\s*(#|[-+=]|\d+[.)]\s)/);
    const tableRows = markdown.split("\n").filter((line) => line.startsWith("| "));
    const pipes = tableRows.map((line) => line.replace(/\\./g, "").match(/\|/g)!.length);
    expect([...pipes].sort()).toEqual([2, 2, 2, 5, 5, 5, 5, 5, 5]);
  });

  test("comes back unchanged from JSON, which holds nothing that acts", () => {
    const json = renderJson({ payload });
    expect(json).not.toMatch(ACTING);
    expect(JSON.parse(json)).toEqual({ payload });
  });
});

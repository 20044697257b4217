import width from "string-width";
import { expect, test } from "vitest";
import type { Comparison } from "../../src/report/document/document.ts";
import { renderText } from "../../src/report/renderers/text/text.ts";
import { EXAMPLE } from "./example.ts";

const widest = (text: string): number => Math.max(...text.split("\n").map((line) => width(line)));

test("the comparison stacks value, interval and ratio, with one prefix for the row", () => {
  const lines = renderText(EXAMPLE).split("\n");
  expect(lines.slice(3, 7)).toEqual([
    "                   static       one-transistor  bare-crossbar  floating-gate",
    "macro area    mm²  0.82         0.31            0.19           0.40",
    "                   0.74 – 0.93  0.25 – 0.39     0.13 – 0.28    0.30 – 0.60",
    "                   baseline     × 0.38          × 0.23         × 0.49",
  ]);
});

test("no line is wider than the terminal, at 80, 60 and 48 columns, in Unicode and in ASCII", () => {
  for (const columns of [80, 60, 48]) {
    expect(widest(renderText(EXAMPLE, { width: columns }))).toBeLessThanOrEqual(columns);
    const ascii = renderText(EXAMPLE, { width: columns, ascii: true });
    expect(widest(ascii)).toBeLessThanOrEqual(columns);
    expect(ascii).toMatch(/^[\n\x20-\x7e]*$/);
  }
});

test("designs that do not fit continue in a second table, each design exactly once", () => {
  const comparison = EXAMPLE.blocks[0] as Comparison;
  const text = renderText({ title: "t", blocks: [comparison] }, { width: 50 });
  for (const design of comparison.designs) {
    expect(text.match(new RegExp(`\\b${design}\\b`, "g"))).toHaveLength(1);
  }
  expect(text.match(/macro area/g)).toHaveLength(2);
});

test("no line ends in a blank", () => {
  expect(
    renderText(EXAMPLE)
      .split("\n")
      .filter((line) => line !== line.trimEnd()),
  ).toEqual([]);
});

test("colour only adds escape sequences to the same text", () => {
  const coloured = renderText(EXAMPLE, { color: true });
  expect(coloured).toContain("\u001b[1m");
  // biome-ignore lint/suspicious/noControlCharactersInRegex: the escape sequences are what is removed
  const bare = coloured.replace(/\u001b\[\d+m/g, "").replace(/ +$/gm, "");
  expect(bare).toBe(renderText(EXAMPLE));
});

test("a breakdown shows its largest parts first and sums what does not fit as the rest", () => {
  const text = renderText({
    title: "t",
    blocks: [
      {
        kind: "bars",
        name: "b",
        unit: "J",
        bars: [
          {
            label: "a",
            parts: Array.from({ length: 20 }, (_, i) => ({ part: `part-${i}`, value: i })),
          },
          { label: "zero", parts: [{ part: "x", value: 0 }] },
        ],
      },
    ],
  });
  const [first, second, third] = text.trimEnd().split("\n").slice(-3);
  expect(first).toMatch(/^a {5}part-19 █ 10 % {2}part-18 █ 9 % /);
  expect(second).toMatch(/^ {6}part-\d+ .*rest \d+ %$/);
  expect(third).toBe("zero  none");
});

test("a document without a row, a design, a part or a pair is still drawn", () => {
  const text = renderText({
    title: "",
    blocks: [
      { kind: "table", name: "t", columns: [{ name: "a", title: "a" }], rows: [] },
      { kind: "comparison", name: "c", designs: [], rows: [] },
      { kind: "bars", name: "b", unit: "1", bars: [] },
      { kind: "pairs", pairs: [] },
      { kind: "list", items: [] },
      { kind: "indented", blocks: [] },
    ],
  });
  expect(text).toContain("a");
});

test("infinite and undefined figures are drawn as such, not as numbers", () => {
  const text = renderText({
    title: "t",
    blocks: [
      {
        kind: "table",
        name: "t",
        columns: [{ name: "v", title: "v" }],
        rows: [
          [{ kind: "quantity", unit: "s", value: Number.POSITIVE_INFINITY }],
          [{ kind: "quantity", unit: "s", value: Number.NaN }],
          [{ kind: "share", value: Number.NaN }],
        ],
      },
    ],
  });
  expect(text).toContain("∞");
  expect(text).not.toMatch(/NaN|Infinity/);
});

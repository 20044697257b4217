import { anchorsOf } from "../../document/contents.ts";
import type {
  Bars,
  Block,
  Cell,
  Comparison,
  Contents,
  Document,
  Formula,
  Pairs,
  Table,
} from "../../document/document.ts";
import { barTable } from "../bar-table.ts";
import { alignment, cellText, layComparison } from "../figures.ts";
import { escapeHtml } from "./escape.ts";
import { formulaMathml, symbolMathml } from "./mathml.ts";
import { STYLE, STYLE_HASH } from "./style.ts";

/** Nothing is fetched and nothing runs; only the page's own style sheet applies. */
const POLICY = `default-src 'none'; style-src '${STYLE_HASH}'; base-uri 'none'; form-action 'none'`;

/**
 * Draws a document as one page that needs nothing else: no script, no request (its content-security policy forbids
 * both), light and dark.
 */
export function renderHtml(document: Document): string {
  const title = escapeHtml(document.title);
  const subtitle = document.subtitle
    ? `\n<p class="subtitle">${escapeHtml(document.subtitle)}</p>`
    : "";
  const anchors = anchorsOf(document.blocks);
  const ids = new Map<Block, string>(anchors.map(({ heading, id }) => [heading, id]));
  const blocks = document.blocks.map((block) => renderBlock(block, ids.get(block)));
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>${title}</title>
<style>${STYLE}</style>
</head>
<body>
<main>
<h1>${title}</h1>${subtitle}
${blocks.join("\n")}
</main>
</body>
</html>
`;
}

function renderContents({ items }: Contents): string {
  const lines = items.map(
    ({ level, text, target }) =>
      `<li class="level-${level}"><a href="${escapeHtml(target)}">${escapeHtml(text)}</a></li>`,
  );
  return `<nav aria-label="Contents"><ul class="contents">${lines.join("\n")}</ul></nav>`;
}

/** One block as elements that a page with this style sheet may hold. @param id of a heading */
export function renderBlock(block: Block, id?: string): string {
  switch (block.kind) {
    case "heading": {
      const tag = `h${block.level + 1}`;
      const name = id ? ` id="${escapeHtml(id)}"` : "";
      return `<${tag}${name}>${escapeHtml(block.text)}</${tag}>`;
    }
    case "contents":
      return renderContents(block);
    case "paragraph":
      return `<p>${escapeHtml(block.text)}</p>`;
    case "list":
      return `<ul>${block.items.map((item) => `<li>${escapeHtml(item)}</li>`).join("")}</ul>`;
    case "note":
      return renderNote(block.level, block.text);
    case "table":
      return renderTable(block);
    case "comparison":
      return renderComparison(block);
    case "pairs":
      return renderPairs(block);
    case "formula":
      return renderFormula(block);
    case "bars":
      return renderBars(block);
    case "picture":
      return `<figure>${block.svg}<figcaption>${escapeHtml(block.caption)}</figcaption></figure>`;
    case "indented":
      return `<div class="indented">\n${block.blocks.map((inner) => renderBlock(inner)).join("\n")}\n</div>`;
  }
}

const LEADS = { note: "Note.", caution: "Caution.", warning: "Warning." } as const;

function renderNote(level: keyof typeof LEADS, text: string): string {
  return `<p class="note ${level}"><b>${LEADS[level]}</b> ${escapeHtml(text)}</p>`;
}

/** A wide table scrolls in its own box, which the keyboard can reach. */
function scrolling(caption: string | undefined, inner: string): string {
  const title = caption === undefined ? "" : `<caption>${escapeHtml(caption)}</caption>`;
  const label = escapeHtml(caption ?? "Table");
  return `<div class="scroll" role="group" tabindex="0" aria-label="${label}"><table>${title}${inner}</table></div>`;
}

function renderTable(table: Table): string {
  const marks = table.columns.map((_, c) =>
    alignment(table, c) === "right" ? ' class="right"' : "",
  );
  const head = table.columns.map(
    (c, i) => `<th scope="col"${marks[i]}>${escapeHtml(c.title)}</th>`,
  );
  const rows = table.rows.map(
    (row) => `<tr>${row.map((cell, i) => `<td${marks[i]}>${renderCell(cell)}</td>`).join("")}</tr>`,
  );
  return scrolling(table.caption, tableBody(head, rows));
}

function renderCell(cell: Cell): string {
  const symbol = cell.kind === "text" && cell.latex && symbolMathml(cell.latex);
  return symbol || escapeHtml(cellText(cell));
}

function tableBody(head: readonly string[], rows: readonly string[]): string {
  return `\n<thead><tr>${head.join("")}</tr></thead>\n<tbody>\n${rows.join("\n")}\n</tbody>\n`;
}

function renderComparison(comparison: Comparison): string {
  const laid = layComparison(comparison);
  const head = ["quantity", "unit", ...laid.designs].map(
    (title) => `<th scope="col">${escapeHtml(title)}</th>`,
  );
  const rows = laid.rows.map((row) => {
    // Lines stand beside each other in all cells of the row, so an empty one keeps its height.
    const part = (name: string, text: string): string =>
      `<span class="${name}">${text === "" ? "&nbsp;" : escapeHtml(text)}</span>`;
    const cells = row.cells.map((cell) => {
      const last = row.lines.findLastIndex(({ of }) => cell[of] !== undefined);
      const lines = row.lines.slice(0, last + 1).map(({ of }) => part(of, cell[of] ?? ""));
      return `<td><b>${escapeHtml(cell.value)}</b>${lines.join("")}</td>`;
    });
    const named = row.lines.findLastIndex(({ name }) => name !== "");
    const names = row.lines.slice(0, named + 1).map(({ of, name }) => part(of, name));
    const label = `<th scope="row">${escapeHtml(row.label)}${names.join("")}</th>`;
    return `<tr>${label}<td>${escapeHtml(row.unit)}</td>${cells.join("")}</tr>`;
  });
  return scrolling(comparison.caption, tableBody(head, rows));
}

function renderPairs(pairs: Pairs): string {
  const items = pairs.pairs.map((pair) => {
    const remark =
      pair.remark === undefined ? "" : `<span class="remark">${escapeHtml(pair.remark)}</span>`;
    return `<dt>${escapeHtml(pair.key)}</dt><dd>${escapeHtml(cellText(pair.value))}${remark}</dd>`;
  });
  return items.length === 0 ? "" : `<dl>${items.join("\n")}</dl>`;
}

/** Set as mathematics, and below it by the names that `explain` knows. */
function renderFormula(formula: Formula): string {
  const set = formulaMathml(formula.latex) ?? "";
  const lines = [escapeHtml(formula.text)];
  if (formula.numbers !== undefined) lines.push(`  = ${escapeHtml(formula.numbers)}`);
  if (formula.result !== undefined) lines.push(`  = ${escapeHtml(cellText(formula.result))}`);
  return `${set}<pre class="formula">${lines.join("\n")}</pre>`;
}

const DRAWING = 'class="bar" viewBox="0 0 100 7" preserveAspectRatio="none" aria-hidden="true"';

/** The breakdown as a table whose last column draws the share; the drawing says nothing that the numbers don't. */
function renderBars(bars: Bars): string {
  const table = barTable(bars);
  const head = [
    ...table.columns.map(({ title }) => `<th scope="col">${escapeHtml(title)}</th>`),
    "<td></td>",
  ];
  const rows = table.rows.map((row) => {
    const last = row.at(-1)!;
    const part = last.kind === "share" && last.value > 0 ? last.value : 0;
    const cells = row.map(
      (cell, i) => `<td${i > 1 ? ' class="right"' : ""}>${escapeHtml(cellText(cell))}</td>`,
    );
    const width = (100 * Math.min(1, part)).toFixed(2);
    const rectangle = `<rect width="${width}" height="7"/>`;
    return `<tr>${cells.join("")}<td><svg ${DRAWING}>${rectangle}</svg></td></tr>`;
  });
  return scrolling(bars.caption, tableBody(head, rows));
}

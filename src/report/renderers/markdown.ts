import type {
  Bars,
  Block,
  Comparison,
  Contents,
  Document,
  Formula,
  Pairs,
  Picture,
  Table,
} from "../document/document.ts";
import { barTable } from "./bar-table.ts";
import { alignment, cellText, layComparison } from "./figures.ts";
import { plain } from "./plain.ts";

/** Draws a document as Markdown with pipe tables, as code hosts show it. Ends with one line break. */
export function renderMarkdown(document: Document): string {
  const parts = [`# ${escapeMarkdown(document.title)}`];
  if (document.subtitle) parts.push(escapeMarkdown(document.subtitle));
  parts.push(...document.blocks.map((block) => renderBlock(block)).filter((text) => text !== ""));
  return `${parts.join("\n\n")}\n`;
}

/**
 * A text in which no character is Markdown or HTML. An underscore within a word is not marked, so that names such as
 * `cell_area` stay readable.
 */
export function escapeMarkdown(text: string): string {
  return plain(text)
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/[\\`*[\]|~$]/g, "\\$&")
    .replace(/(?<![\p{L}\p{N}])_|_(?![\p{L}\p{N}])/gu, "\\_")
    .replace(/!(?=\\\[)/g, "\\!")
    .replace(/:(?=\/\/)/g, "&#58;")
    .replace(/\b(www)\./gi, "$1&#46;")
    .replace(/@/g, "&#64;")
    .replace(/^(\s*)([-+#=])/, "$1\\$2")
    .replace(/^(\s*\d+)([.)])(?=\s|$)/, "$1\\$2")
    .trim();
}

function renderBlock(block: Block): string {
  switch (block.kind) {
    case "heading":
      return `${"#".repeat(block.level + 1)} ${escapeMarkdown(block.text)}`;
    case "contents":
      return renderContents(block);
    case "paragraph":
      return escapeMarkdown(block.text);
    case "list":
      return block.items.map((item) => `- ${escapeMarkdown(item)}`).join("\n");
    case "note":
      return `> **${LEADS[block.level]}** ${escapeMarkdown(block.text)}`;
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
      return renderPicture(block);
    case "indented":
      return block.blocks
        .map((inner) => renderBlock(inner))
        .join("\n\n")
        .split("\n")
        .map((line) => (line === "" ? ">" : `> ${line}`))
        .join("\n");
  }
}

function renderContents({ items }: Contents): string {
  const outermost = Math.min(...items.map(({ level }) => level));
  const lines = items.map(({ level, text, target }) => {
    const safe = target.replace(/[^\p{L}\p{N}\p{M}#/._-]/gu, "");
    return `${"  ".repeat(level - outermost)}- [${escapeMarkdown(text)}](${safe})`;
  });
  return lines.join("\n");
}

const LEADS = { note: "Note.", caution: "Caution.", warning: "Warning." } as const;

function captioned(caption: string | undefined, body: string): string {
  return caption === undefined ? body : `**${escapeMarkdown(caption)}**\n\n${body}`;
}

function pipes(
  head: readonly string[],
  marks: readonly string[],
  rows: readonly (readonly string[])[],
): string {
  const line = (cells: readonly string[]): string => `| ${cells.join(" | ")} |`;
  return [line(head), line(marks), ...rows.map(line)].join("\n");
}

function renderTable(table: Table): string {
  const marks = table.columns.map((_, c) => (alignment(table, c) === "right" ? "---:" : "---"));
  return captioned(
    table.caption,
    pipes(
      table.columns.map((column) => escapeMarkdown(column.title)),
      marks,
      table.rows.map((row) => row.map((cell) => escapeMarkdown(cellText(cell)))),
    ),
  );
}

function renderComparison(comparison: Comparison): string {
  const laid = layComparison(comparison);
  return captioned(
    comparison.caption,
    pipes(
      ["quantity", "unit", ...laid.designs.map(escapeMarkdown)],
      ["---", "---", ...laid.designs.map(() => "---")],
      laid.rows.map((row) => [
        trimmed([escapeMarkdown(row.label), ...row.lines.map(({ name }) => name)]),
        row.unit,
        ...row.cells.map((cell) =>
          trimmed([
            `**${escapeMarkdown(cell.value)}**`,
            ...row.lines.map(({ of }) => cell[of] ?? ""),
          ]),
        ),
      ]),
    ),
  );
}

/** Lines of one cell, without empty ones at its end. */
function trimmed(lines: readonly string[]): string {
  const last = lines.findLastIndex((line) => line !== "");
  return lines.slice(0, last + 1).join("<br>");
}

function renderPairs(pairs: Pairs): string {
  const lines = pairs.pairs.map((pair) => {
    const remark = pair.remark === undefined ? "" : ` · ${escapeMarkdown(pair.remark)}`;
    return `- **${escapeMarkdown(pair.key)}**: ${escapeMarkdown(cellText(pair.value))}${remark}`;
  });
  return lines.join("\n");
}

/** Formulas stand as code: what is read is what is computed, and no code host's mathematics is needed. */
function renderFormula(formula: Formula): string {
  const lines = [plain(formula.text)];
  if (formula.numbers !== undefined) lines.push(`  = ${plain(formula.numbers)}`);
  if (formula.result !== undefined) lines.push(`  = ${plain(cellText(formula.result))}`);
  const longest = Math.max(2, ...(lines.join("\n").match(/`+/g) ?? []).map((run) => run.length));
  const fence = "`".repeat(longest + 1);
  return `${fence}text\n${lines.join("\n")}\n${fence}`;
}

/** Pictures lie beside the text: `reportFiles` puts them there. */
function renderPicture({ name, caption, alternative }: Picture): string {
  const told = escapeMarkdown(alternative);
  return `![${told}](charts/${name}.svg)\n\n${escapeMarkdown(caption)}`;
}

function renderBars(bars: Bars): string {
  return renderTable(barTable(bars));
}

import type {
  Bars,
  Block,
  Comparison,
  Document,
  Formula,
  Pairs,
  Table,
} from "../../document/document.ts";
import { barTable } from "../bar-table.ts";
import { alignment, cellText, type LaidComparison, layComparison } from "../figures.ts";
import { escapeLatex } from "./escape.ts";
import { latexUnit } from "./unit.ts";

export interface LatexOptions {
  /** With a preamble, to be compiled by itself; otherwise a part to be `\input`. */
  readonly standalone?: boolean;
}

/** What the preamble of a document that inputs the part must load. */
export const LATEX_PACKAGES = ["booktabs", "siunitx", "longtable", "array", "textcomp"] as const;

const PREAMBLE = [
  "\\documentclass[a4paper,11pt]{article}",
  "\\usepackage[T1]{fontenc}",
  "\\usepackage[utf8]{inputenc}",
  "\\usepackage[margin=25mm]{geometry}",
  ...LATEX_PACKAGES.map((name) => `\\usepackage{${name}}`),
  "\\DeclareSIUnit\\bit{bit}",
  "\\setlength{\\parindent}{0pt}",
  "\\setlength{\\parskip}{6pt plus 2pt}",
  "\\begin{document}",
];

/** Draws a document for LaTeX: booktabs tables, siunitx units, formulas from the same tree as all else. */
export function renderLatex(document: Document, options: LatexOptions = {}): string {
  const body = [`\\section*{${escapeLatex(document.title)}}`];
  if (document.subtitle) body.push(escapeLatex(document.subtitle));
  body.push(...document.blocks.map(renderBlock).filter((text) => text !== ""));
  const text = body.join("\n\n");
  const head = `% Needs the packages ${LATEX_PACKAGES.join(", ")}.`;
  return options.standalone
    ? `${PREAMBLE.join("\n")}\n\n${text}\n\n\\end{document}\n`
    : `${head}\n${text}\n`;
}

function renderBlock(block: Block): string {
  switch (block.kind) {
    case "heading":
      return `\\${block.level === 1 ? "subsection" : "subsubsection"}*{${escapeLatex(block.text)}}`;
    // Links lead nowhere on paper.
    case "contents":
      return "";
    case "picture":
      return escapeLatex(`${block.caption} Drawn in charts/${block.name}.svg.`);
    case "paragraph":
      return escapeLatex(block.text);
    case "list":
      return environment(
        "itemize",
        block.items.map((item) => `\\item ${escapeLatex(item)}`),
      );
    case "note": {
      const lead =
        block.level === "note" ? "Note" : block.level === "caution" ? "Caution" : "Warning";
      return `\\textbf{${lead}.} ${escapeLatex(block.text)}`;
    }
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
    case "indented":
      return environment("quote", [block.blocks.map(renderBlock).join("\n\n")]);
  }
}

/** An environment without content is an error to TeX: it is left out. */
function environment(name: string, lines: readonly string[]): string {
  if (lines.length === 0) return "";
  return `\\begin{${name}}\n${lines.join("\n")}\n\\end{${name}}`;
}

/** `longtable` breaks over pages, and needs no float. */
function longTable(
  caption: string | undefined,
  columns: string,
  head: readonly string[],
  rows: readonly string[],
): string {
  if (head.length === 0) return "";
  const above = caption === undefined ? [] : [`\\textbf{${escapeLatex(caption)}}`, ""];
  return [
    ...above,
    "{\\small\\setlength{\\tabcolsep}{4pt}",
    `\\begin{longtable}{@{}${columns}@{}}`,
    "\\toprule",
    `${head.map((cell) => `\\textbf{${cell}}`).join(" & ")} \\\\`,
    "\\midrule",
    "\\endhead",
    ...rows,
    "\\bottomrule",
    "\\end{longtable}}",
  ].join("\n");
}

/** About how many letters of small print go on a line; wider tables wrap. */
const LINE = 98;
/** A column is never asked for more letters than this. */
const WIDEST = 40;

function renderTable(table: Table): string {
  const texts = table.rows.map((row) => row.map((cell) => cellText(cell)));
  const widths = table.columns.map(({ title }, c) =>
    Math.min(WIDEST, Math.max(title.length, ...texts.map((row) => row[c]!.length))),
  );
  const whole = widths.reduce((sum, width) => sum + width + 4, 0);
  const long = texts.some((row) => row.some((one) => one.length > WIDEST));
  const columns = table.columns.map((_, c) => {
    if (!long && whole <= LINE) return alignment(table, c) === "right" ? "r" : "l";
    const share = (0.9 * (widths[c]! + 4)) / whole;
    return `>{\\raggedright\\arraybackslash}p{${share.toFixed(3)}\\linewidth}`;
  });
  return longTable(
    table.caption,
    columns.join(""),
    table.columns.map((column) => escapeLatex(column.title)),
    texts.map((row) => `${row.map(escapeLatex).map(breakable).join(" & ")} \\\\`),
  );
}

/** A long name may break behind an underscore. */
function breakable(text: string): string {
  return text.replace(/\\_/g, "\\_\\allowbreak{}");
}

/** So many designs go side by side on a page; the others follow in a table of their own. */
const DESIGNS_ACROSS = 4;

function renderComparison(comparison: Comparison): string {
  const laid = layComparison(comparison);
  const tables: string[] = [];
  for (let from = 0; from === 0 || from < laid.designs.length; from += DESIGNS_ACROSS) {
    const designs = laid.designs.slice(from, from + DESIGNS_ACROSS);
    const rows = laid.rows.map((row) => ({
      ...row,
      cells: row.cells.slice(from, from + DESIGNS_ACROSS),
    }));
    tables.push(comparisonPart(from === 0 ? comparison.caption : undefined, { designs, rows }));
  }
  return tables.join("\n\n");
}

/** Each quantity takes up to four lines: values, intervals of parameters and of models, ratios. */
function comparisonPart(caption: string | undefined, laid: LaidComparison): string {
  const rows = laid.rows.flatMap((row) => {
    const lines = [
      [escapeLatex(row.label), latexUnit(row.unit), ...row.cells.map((c) => escapeLatex(c.value))],
    ];
    for (const { of, name } of row.lines) {
      if (!row.cells.some((cell) => cell[of])) continue;
      lines.push([small(name), "", ...row.cells.map((cell) => small(cell[of] ?? ""))]);
    }
    return lines.map((line, i) => {
      const last = i === lines.length - 1;
      return `${line.join(" & ")} ${last ? "\\\\[3pt]" : "\\\\*"}`;
    });
  });
  return longTable(
    caption,
    `ll${"l".repeat(laid.designs.length)}`,
    ["quantity", "unit", ...laid.designs.map(escapeLatex)],
    rows,
  );
}

function small(text: string): string {
  return text === "" ? "" : `\\footnotesize ${escapeLatex(text)}`;
}

function renderPairs(pairs: Pairs): string {
  const items = pairs.pairs.map((pair) => {
    const remark = pair.remark === undefined ? "" : ` (${escapeLatex(pair.remark)})`;
    return `\\item[${escapeLatex(pair.key)}] ${escapeLatex(cellText(pair.value))}${remark}`;
  });
  return environment("description", items);
}

const LONGEST_DISPLAY = 150;

/** `latex` comes from our own printer of formula trees, never from a user's text. */
function renderFormula(formula: Formula): string {
  const result =
    formula.result === undefined ? "" : ` = \\mbox{${escapeLatex(cellText(formula.result))}}`;
  // A display never breaks; a formula in a line does, behind its operators.
  return formula.latex.length > LONGEST_DISPLAY
    ? `\\begin{flushleft}\n\\(\\displaystyle ${formula.latex}\\)${result}\n\\end{flushleft}`
    : `\\[\n${formula.latex}${result}\n\\]`;
}

function renderBars(bars: Bars): string {
  return renderTable(barTable(bars));
}

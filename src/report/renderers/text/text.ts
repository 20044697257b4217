import type {
  Block,
  Comparison,
  Document,
  Formula,
  Note,
  Pairs,
  Table,
} from "../../document/document.ts";
import { alignment, cellText, holdsFigures, type LaidRow, layComparison } from "../figures.ts";
import { ascii, clip, plain } from "../plain.ts";
import { type Clean, drawBars } from "./bars.ts";
import { drawGrid, type GridColumn, wrap } from "./grid.ts";
import { type Style, styleFor } from "./style.ts";

export interface TextOptions {
  /** Characters in a line; 80 unless the terminal says otherwise. */
  readonly width?: number;
  readonly color?: boolean;
  /** Only ASCII, for terminals that show nothing else. */
  readonly ascii?: boolean;
}

interface Drawing {
  readonly room: number;
  readonly style: Style;
  /** All that is drawn goes through it before widths are measured. */
  readonly clean: Clean;
}

/** What a name may take in a grid before it is cut. */
const LONGEST_NAME = 120;
const LONGEST_KEY = 40;
/** Names at the edges of a comparison are broken at this width. */
const LABEL_ROOM = 24;
const LONGEST_TEXT = 1500;
const LEAST_ROOM = 40;
const LEAST_INNER_ROOM = 24;

/** Draws a document for a terminal. Lines end with `\n`; nothing is wider than `width`, numbers excepted. */
export function renderText(document: Document, options: TextOptions = {}): string {
  const style = styleFor(options.color ?? false);
  const room = Math.max(LEAST_ROOM, options.width ?? 80);
  const clean: Clean = options.ascii ? (text) => ascii(plain(text)) : plain;
  const lines = wrap(clean(document.title), room).map(style.bold);
  if (document.subtitle) lines.push(...wrap(clean(document.subtitle), room).map(style.dim));
  lines.push(...drawBlocks(document.blocks, { room, style, clean }, true));
  return `${lines.join("\n")}\n`;
}

/** Notes and paragraphs of one kind stand close together, all else has an empty line before it. */
function drawBlocks(blocks: readonly Block[], drawing: Drawing, first: boolean): string[] {
  const lines: string[] = [];
  let before: Block["kind"] | undefined = first ? "paragraph" : undefined;
  for (const block of blocks) {
    const close =
      before === undefined ||
      before === "heading" ||
      (before === "note" && block.kind === "note") ||
      block.kind === "indented";
    if (!close) lines.push("");
    lines.push(...drawBlock(block, drawing));
    before = block.kind;
  }
  return lines;
}

function drawBlock(block: Block, drawing: Drawing): string[] {
  const { room, style, clean } = drawing;
  switch (block.kind) {
    case "heading":
      return wrap(clean(block.text), room).map(block.level === 1 ? style.bold : style.dim);
    case "contents":
      return block.items.flatMap(({ level, text }) => {
        const indent = "  ".repeat(level);
        return wrap(`${indent}${clean(text)}`, room, indent);
      });
    case "paragraph":
      return wrap(clean(block.text), room);
    case "picture":
      return wrap(clean(block.caption), room);
    case "list":
      return block.items.flatMap((item) => wrap(`- ${clean(item)}`, room, "  "));
    case "note":
      return drawNote(block, drawing);
    case "table":
      return [...caption(block.caption, drawing), ...drawTable(block, drawing)];
    case "comparison":
      return [...caption(block.caption, drawing), ...drawComparison(block, drawing)];
    case "pairs":
      return drawPairs(block, drawing);
    case "formula":
      return drawFormula(block, drawing);
    case "bars":
      return [...caption(block.caption, drawing), ...drawBars(block, room, clean)];
    case "indented": {
      const inner = { ...drawing, room: Math.max(LEAST_INNER_ROOM, room - 2) };
      return drawBlocks(block.blocks, inner, false).map((line) => (line === "" ? "" : `  ${line}`));
    }
  }
}

function caption(text: string | undefined, { room, style, clean }: Drawing): string[] {
  return text === undefined ? [] : wrap(clean(text), room).map(style.bold);
}

const LEADS = { note: "", caution: "Caution: ", warning: "Warning: " } as const;

function drawNote(note: Note, { room, style, clean }: Drawing): string[] {
  const lead = LEADS[note.level];
  const lines = wrap(lead + clean(note.text), room, lead === "" ? "" : "  ");
  return note.level === "warning" ? lines.map(style.warn) : lines;
}

function drawTable(whole: Table, { room, style, clean }: Drawing): string[] {
  const table = withoutRoomy(whole);
  const grids = drawGrid(
    {
      columns: table.columns.map((_, c) => ({
        align: alignment(table, c),
        wraps: !holdsFigures(table, c),
      })),
      rows: [
        table.columns.map((column) => style.bold(clean(clip(column.title, LONGEST_NAME)))),
        ...table.rows.map((row) => row.map((cell) => clean(clip(cellText(cell), LONGEST_TEXT)))),
      ],
      fixed: Math.min(1, table.columns.length),
    },
    room,
  );
  return apart(grids);
}

function withoutRoomy(table: Table): Table {
  const kept = table.columns.flatMap(({ roomy }, c) => (roomy === true ? [] : [c]));
  return {
    ...table,
    columns: kept.map((c) => table.columns[c]!),
    rows: table.rows.map((row) => kept.map((c) => row[c]!)),
  };
}

function drawComparison(comparison: Comparison, { room, style, clean }: Drawing): string[] {
  const laid = layComparison(comparison);
  const grids = drawGrid(
    {
      columns: [
        { align: "left", wraps: false },
        { align: "left", wraps: false },
        ...laid.designs.map(() => ({ align: "left", wraps: false }) as const),
      ],
      rows: [
        [
          "",
          "",
          ...laid.designs.map((design) =>
            style.bold(wrap(clean(clip(design, LONGEST_NAME)), LABEL_ROOM).join("\n")),
          ),
        ],
        ...laid.rows.map((row) => [
          comparisonLabel(row, clean, style),
          clean(row.unit),
          ...row.cells.map((cell) => {
            const lines = row.lines.map(({ of }) => {
              const text = clean(cell[of] ?? "");
              return of === "ratio" ? text : style.dim(text);
            });
            return [clean(cell.value), ...lines].join("\n").trimEnd();
          }),
        ]),
      ],
      fixed: 2,
    },
    room,
  );
  return apart(grids);
}

/** What the lines of a row are called stands beside them, unless the label itself takes these lines. */
function comparisonLabel({ label, lines }: LaidRow, clean: Clean, style: Style): string {
  const wrapped = wrap(clean(clip(label, LONGEST_NAME)), LABEL_ROOM);
  if (wrapped.length > 1) return wrapped.join("\n");
  const names = lines.map(({ name }) => (name === "" ? "" : style.dim(`  ${clean(name)}`)));
  return [...wrapped, ...names].join("\n").trimEnd();
}

function apart(grids: readonly string[][]): string[] {
  return grids.flatMap((lines, i) => (i === 0 ? lines : ["", ...lines]));
}

/** Keys and figures stay whole; texts are wrapped. */
function drawPairs({ pairs }: Pairs, { room, clean }: Drawing): string[] {
  if (pairs.length === 0) return [];
  const hasRemarks = pairs.some((pair) => pair.remark !== undefined);
  const rows = pairs.map((pair) => [
    clean(clip(pair.key, LONGEST_KEY)),
    clean(clip(cellText(pair.value), LONGEST_TEXT)),
    ...(hasRemarks ? [clean(clip(pair.remark ?? "", LONGEST_TEXT))] : []),
  ]);
  const columns: GridColumn[] = [
    { align: "left", wraps: false },
    { align: "left", wraps: pairs.some((pair) => pair.value.kind === "text") },
    ...(hasRemarks ? [{ align: "left", wraps: true } as const] : []),
  ];
  return apart(drawGrid({ columns, rows, fixed: 1 }, room));
}

function drawFormula(formula: Formula, { room, clean }: Drawing): string[] {
  const lines = wrap(clean(formula.text), room, "    ");
  if (formula.numbers !== undefined)
    lines.push(...wrap(`= ${clean(formula.numbers)}`, room - 2, "    "));
  if (formula.result !== undefined) lines.push(`= ${clean(cellText(formula.result))}`);
  return lines.map((line, i) => (i === 0 ? line : `  ${line}`));
}

import type { Block, Cell, Comparison, Document, Table } from "../document/document.ts";
import { barTable } from "./bar-table.ts";
import { plain } from "./plain.ts";

/**
 * The tables of a document as CSV files (RFC 4180: commas, CRLF, a heading line), by table name. Numbers are in SI with
 * all their digits, one column each for value, low and high, so that nothing has to be parsed out of a text.
 */
export function csvFiles(document: Document): Map<string, string> {
  const files = new Map<string, string>();
  for (const table of dataTables(document.blocks)) {
    files.set(table.name, toCsv(table.head, table.rows));
  }
  return files;
}

/** The document's first table: a CSV text holds one. Empty when the document has none. */
export function renderCsv(document: Document): string {
  const [first] = dataTables(document.blocks);
  return first === undefined ? "" : toCsv(first.head, first.rows);
}

interface DataTable {
  readonly name: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly CsvValue[])[];
}

export type CsvValue = string | number | boolean | undefined;

/** Rows of plain values as CSV. */
export function toCsv(head: readonly string[], rows: Iterable<readonly CsvValue[]>): string {
  let text = `${head.map(csvField).join(",")}\r\n`;
  for (const row of rows) text += `${row.map(csvField).join(",")}\r\n`;
  return text;
}

/**
 * One field. A text that a spreadsheet would take for a formula gets an apostrophe in front; a number never does, as it
 * is written by us; so does what follows a semicolon, at which spreadsheets of many countries begin a new cell whatever
 * the quotes say. What has no value is empty.
 */
export function csvField(value: CsvValue): string {
  if (value === undefined) return "";
  if (typeof value === "number") return Number.isFinite(value) ? String(value) : "";
  if (typeof value === "boolean") return String(value);
  const safe = plain(value).replace(FORMULA, "$1'$2");
  return /[",]|^\s|\s$|^'/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

const FORMULA = /(^|;)(\s*[=+\-@\uff1d\uff0b\uff0d\uff20])/g;

function* dataTables(blocks: readonly Block[]): Generator<DataTable> {
  for (const block of blocks) {
    if (block.kind === "comparison") yield comparisonData(block);
    else if (block.kind === "table") yield tableData(block);
    else if (block.kind === "bars") yield tableData(barTable(block));
    else if (block.kind === "indented") yield* dataTables(block.blocks);
  }
}

function comparisonData(comparison: Comparison): DataTable {
  const rows: CsvValue[][] = [];
  for (const row of comparison.rows) {
    for (const [d, design] of comparison.designs.entries()) {
      const f = row.figures[d];
      if (f === undefined) continue;
      const { ratio, model } = f;
      rows.push([
        row.name,
        design,
        row.unit,
        f.value,
        f.low,
        f.median,
        f.high,
        model?.low,
        model?.high,
        ratio?.value,
        ratio?.low,
        ratio?.high,
        ratio?.model?.low,
        ratio?.model?.high,
      ]);
    }
  }
  const head = (
    "quantity,design,unit,value,low,median,high,model_low,model_high," +
    "ratio,ratio_low,ratio_high,ratio_model_low,ratio_model_high"
  ).split(",");
  return { name: comparison.name, head, rows };
}

/** A column of quantities or ratios becomes value, unit, low and high, as far as any of its cells has them. */
function tableData(table: Table): DataTable {
  const head: string[] = [];
  const pick: ((row: readonly Cell[]) => CsvValue)[] = [];
  const add = (name: string, c: number, get: (cell: Cell) => CsvValue): void => {
    head.push(name);
    pick.push((row) => get(row[c]!));
  };
  for (const [c, { name }] of table.columns.entries()) {
    const cells = table.rows.map((row) => row[c]!);
    add(name, c, cellValue);
    for (const field of ["unit", "low", "high"] as const) {
      const get = (cell: Cell): CsvValue => (field in cell ? cell[field as never] : undefined);
      if (cells.some((cell) => get(cell) !== undefined)) add(`${name}_${field}`, c, get);
    }
  }
  return { name: table.name, head, rows: table.rows.map((row) => pick.map((get) => get(row))) };
}

function cellValue(cell: Cell): CsvValue {
  if (cell.kind === "text") return cell.text;
  return cell.kind === "none" || cell.kind === "interval" ? undefined : cell.value;
}

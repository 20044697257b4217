import width from "string-width";
import { getBorderCharacters, table } from "table";

/** One column of a grid of texts. */
export interface GridColumn {
  readonly align: "left" | "right";
  /** True where a long text may be broken over lines; numbers never are. */
  readonly wraps: boolean;
}

export interface Grid {
  readonly columns: readonly GridColumn[];
  /** Cells may hold several lines. The first row is the heading. */
  readonly rows: readonly (readonly string[])[];
  /** How many leading columns are repeated when the others continue below. */
  readonly fixed: number;
}

/** Between columns. */
const GAP = 2;
/** A column that wraps is not made narrower than this. */
const NARROWEST = 12;

/**
 * Draws a grid within `room` characters: wide texts are wrapped; columns that still don't fit continue in a second
 * grid below, with the fixed columns repeated.
 *
 * @returns the grids, each as lines without trailing blanks.
 */
export function drawGrid(grid: Grid, room: number): string[][] {
  const natural = grid.columns.map((_, c) => naturalWidth(grid.rows, c));
  const widths = shrink(grid, natural, room);
  return splitColumns(widths, grid.fixed, room).map((shown) => drawColumns(grid, widths, shown));
}

function naturalWidth(rows: Grid["rows"], column: number): number {
  let widest = 1;
  for (const row of rows) {
    for (const line of row[column]!.split("\n")) widest = Math.max(widest, width(line));
  }
  return widest;
}

/** Takes from the widest wrapping column, one character at a time, until all fit or none can give. */
function shrink(grid: Grid, natural: readonly number[], room: number): number[] {
  const widths = natural.map((w, c) => (grid.columns[c]!.wraps ? Math.min(w, room) : w));
  const total = () => widths.reduce((sum, w) => sum + w + GAP, -GAP);
  while (total() > room) {
    let widest = -1;
    for (let c = 0; c < widths.length; c++) {
      const can = grid.columns[c]!.wraps && widths[c]! > NARROWEST;
      if (can && (widest < 0 || widths[c]! > widths[widest]!)) widest = c;
    }
    if (widest < 0) break;
    widths[widest]!--;
  }
  return widths;
}

/** The column numbers of each grid: as many as fit, but at least one beside the fixed ones. */
function splitColumns(widths: readonly number[], fixed: number, room: number): number[][] {
  const head = widths.slice(0, fixed).map((_, c) => c);
  const headWidth = head.reduce((sum, c) => sum + widths[c]! + GAP, 0);
  const grids: number[][] = [];
  let used = Number.POSITIVE_INFINITY;
  for (let c = fixed; c < widths.length; c++) {
    if (used + GAP + widths[c]! > room) {
      grids.push([...head]);
      used = headWidth - GAP;
    }
    grids.at(-1)!.push(c);
    used += GAP + widths[c]!;
  }
  return grids.length > 0 ? grids : [head];
}

function drawColumns(grid: Grid, widths: readonly number[], shown: readonly number[]): string[] {
  const drawn = table(
    grid.rows.map((row) => shown.map((c) => row[c]!)),
    {
      border: getBorderCharacters("void"),
      columnDefault: { paddingLeft: 0, paddingRight: GAP },
      columns: shown.map((c) => ({
        width: widths[c]!,
        alignment: grid.columns[c]!.align,
        wrapWord: grid.columns[c]!.wraps,
      })),
      drawHorizontalLine: () => false,
    },
  );
  return drawn
    .replace(/\n$/, "")
    .split("\n")
    .map((line) => line.trimEnd());
}

/** Breaks a text at spaces into lines of at most `room` characters; `indent` goes before all lines but the first. */
export function wrap(text: string, room: number, indent = ""): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ").flatMap((w) => pieces(w, room - indent.length))) {
    if (line !== "" && width(line) + 1 + width(word) > room) {
      lines.push(line);
      line = indent + word;
    } else {
      line = line === "" ? word : `${line} ${word}`;
    }
  }
  lines.push(line);
  return lines;
}

/** A word cut into pieces that fit a line. */
function pieces(word: string, room: number): string[] {
  if (word.length <= room && width(word) <= room) return [word];
  const cut: string[] = [];
  let piece = "";
  for (const character of word) {
    if (width(piece + character) > room) {
      cut.push(piece);
      piece = "";
    }
    piece += character;
  }
  return [...cut, piece];
}

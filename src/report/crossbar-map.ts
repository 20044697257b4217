/** Maps of an array's junction voltages: an SVG picture, and a coarse one of characters. */

import { escapeHtml } from "./renderers/html/escape.ts";

export interface VoltageMap {
  readonly rows: number;
  readonly columns: number;
  /** Junction voltages, rows x columns [V]. */
  readonly voltages: Float64Array;
  readonly title: string;
  /** What is drawn, after its range in volts; "V across a junction" when left out. */
  readonly legend?: string | undefined;
  readonly selected?: { readonly row: number; readonly column: number } | undefined;
}

/** Fields of a picture on its longer side at most. */
const MOST_FIELDS = 96;
const PICTURE = 480;
/** Dark to light: readable without colour vision, and in grey. */
const SCALE = [
  "#0d0887",
  "#5302a3",
  "#8b0aa5",
  "#b83289",
  "#db5c68",
  "#f48849",
  "#febd2a",
  "#f0f921",
];
const SHADES = " .:-=+*#%@";

interface Field {
  readonly rows: number;
  readonly columns: number;
  /** Of all junctions in a block the voltage with the largest magnitude, so that one selected cell stays visible. */
  readonly values: Float64Array;
  readonly largest: number;
}

function blocks(map: VoltageMap, mostRows: number, mostColumns: number): Field {
  const rows = Math.min(map.rows, mostRows);
  const columns = Math.min(map.columns, mostColumns);
  const values = new Float64Array(rows * columns);
  let largest = 0;
  for (let i = 0; i < map.rows; i++) {
    const to = Math.floor((i * rows) / map.rows) * columns;
    for (let j = 0; j < map.columns; j++) {
      const at = to + Math.floor((j * columns) / map.columns);
      const v = map.voltages[i * map.columns + j]!;
      if (Math.abs(v) > Math.abs(values[at]!)) values[at] = v;
      largest = Math.max(largest, Math.abs(v));
    }
  }
  return { rows, columns, values, largest };
}

const legendOf = (map: VoltageMap) => map.legend ?? "V across a junction";

const digits = (v: number) => String(Number(v.toPrecision(4)));

function colourOf(share: number): string {
  return SCALE[Math.min(SCALE.length - 1, Math.floor(share * SCALE.length))]!;
}

/** What a reader without eyes is told. */
function wordsOf(map: VoltageMap, { largest }: Field): string {
  const { rows, columns, selected, title } = map;
  const where =
    selected === undefined
      ? ""
      : ` The selected one lies in row ${selected.row}, column ${selected.column}, and has a frame.`;
  const range = `0 to ${digits(largest)} ${legendOf(map)}`;
  return `${title}. A map of ${rows} rows by ${columns} columns, coloured by magnitude: ${range}.${where}`;
}

/** The map as an SVG file: colour is the magnitude of the voltage, the selected junction has a frame. */
export function voltageMapSvg(map: VoltageMap): string {
  const field = blocks(map, MOST_FIELDS, MOST_FIELDS);
  const size = PICTURE / Math.max(field.rows, field.columns);
  const width = size * field.columns;
  const height = size * field.rows;
  const top = 34;
  const [wide, high] = [digits(Math.max(width + 20, 300)), digits(height + top + 56)];
  const out = [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${wide}" height="${high}" viewBox="0 0 ${wide} ${high}" ` +
      `shape-rendering="crispEdges" font-family="system-ui,sans-serif" font-size="13" role="img" ` +
      `aria-label="${escapeHtml(wordsOf(map, field))}">`,
    `<title>${escapeHtml(map.title)}</title>`,
    `<rect width="100%" height="100%" fill="#fff"/>`,
    `<text x="10" y="22">${escapeHtml(map.title)}</text>`,
  ];
  const box = (x: number, y: number, w: number, h: number, rest: string) =>
    `<rect x="${digits(x)}" y="${digits(y)}" width="${digits(w)}" height="${digits(h)}" ${rest}/>`;
  for (let i = 0; i < field.rows; i++) {
    for (let j = 0; j < field.columns; ) {
      // Neighbours of one colour are one rectangle.
      const colour = colourAt(field, i, j);
      let end = j + 1;
      while (end < field.columns && colourAt(field, i, end) === colour) end++;
      out.push(box(10 + j * size, top + i * size, (end - j) * size, size, `fill="${colour}"`));
      j = end;
    }
  }
  if (map.selected !== undefined) {
    const x = Math.floor((map.selected.column * field.columns) / map.columns) * size + 10;
    const y = Math.floor((map.selected.row * field.rows) / map.rows) * size + top;
    out.push(box(x, y, size, size, `fill="none" stroke="#d00" stroke-width="2"`));
  }
  const y = top + height + 14;
  SCALE.forEach((colour, k) => {
    out.push(box(10 + 24 * k, y, 24, 12, `fill="${colour}"`));
  });
  const most = digits(field.largest);
  out.push(
    `<text x="10" y="${digits(y + 28)}">0 to ${most} ${escapeHtml(legendOf(map))}</text>`,
    "</svg>",
  );
  return `${out.join("\n")}\n`;
}

function colourAt(field: Field, i: number, j: number): string {
  const v = Math.abs(field.values[i * field.columns + j]!);
  return colourOf(field.largest > 0 ? v / field.largest : 0);
}

/** The same in characters, at most `width` wide: a darker character is a larger voltage, X the selected junction. */
export function voltageMapText(map: VoltageMap, width = 64): string {
  const field = blocks(map, Math.max(4, Math.floor(width / 2)), width);
  const lines: string[] = [];
  for (let i = 0; i < field.rows; i++) {
    let line = "";
    for (let j = 0; j < field.columns; j++) {
      const share =
        field.largest > 0 ? Math.abs(field.values[i * field.columns + j]!) / field.largest : 0;
      line += SHADES[Math.min(SHADES.length - 1, Math.floor(share * SHADES.length))]!;
    }
    lines.push(line);
  }
  if (map.selected !== undefined) {
    const i = Math.floor((map.selected.row * field.rows) / map.rows);
    const j = Math.floor((map.selected.column * field.columns) / map.columns);
    lines[i] = `${lines[i]!.slice(0, j)}X${lines[i]!.slice(j + 1)}`;
  }
  const framed = lines.map((line) => `|${line}|`).join("\n");
  const border = `+${"-".repeat(field.columns)}+`;
  const scale = `"${SHADES}" is 0 to ${digits(field.largest)} ${legendOf(map)}`;
  const where = map.selected === undefined ? "" : ", X the selected one";
  return `${border}\n${framed}\n${border}\n${scale}${where}\n`;
}

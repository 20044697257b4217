import { formatRatio, formatRow } from "../../quantities/format.ts";
import type { Cell, Comparison, Figure, Table } from "../document/document.ts";

/** How figures read, the same in every format that people read. */

export interface LaidComparison {
  readonly designs: readonly string[];
  readonly rows: readonly LaidRow[];
}

export interface LaidRow {
  readonly label: string;
  /** The one unit of the row, with its prefix: `mm²`; empty for pure numbers, a bare prefix for counts. */
  readonly unit: string;
  readonly cells: readonly LaidFigure[];
}

export interface LaidFigure {
  readonly value: string;
  readonly interval?: string;
  readonly ratio?: string;
}

const NOTHING = "–";

/** All texts of a comparison: figures of one row share a prefix, value and interval share a last digit. */
export function layComparison(comparison: Comparison): LaidComparison {
  const rows = comparison.rows.map((row) => {
    const present = row.figures.filter((figure) => figure !== undefined);
    const laid = formatRow(present, row.unit);
    let next = 0;
    const cells = row.figures.map((figure, d): LaidFigure => {
      if (figure === undefined) return { value: NOTHING };
      const { value, interval } = laid.figures[next++]!;
      const isBaseline = comparison.designs[d] === comparison.baseline;
      const hasRatios = row.figures.some((f) => f?.ratio !== undefined);
      const ratio = figure.ratio
        ? ratioText(figure.ratio)
        : isBaseline && hasRatios
          ? "baseline"
          : undefined;
      return {
        value,
        ...(interval === undefined ? {} : { interval }),
        ...(ratio === undefined ? {} : { ratio }),
      };
    });
    return { label: row.label, unit: laid.unit, cells };
  });
  return { designs: comparison.designs, rows };
}

/** A cell in one line: `0.82 (0.74 – 0.93) mm²`, `× 0.38`, `71 %`. */
export function cellText(cell: Cell): string {
  switch (cell.kind) {
    case "text":
      return cell.text;
    case "quantity":
      return quantityText(figureOf(cell), cell.unit, cell.show);
    case "ratio":
      return ratioText(cell);
    case "share":
      return shareText(cell.value);
    case "none":
      return NOTHING;
  }
}

function ratioText(ratio: Figure): string {
  return formatRatio(ratio.value);
}

function quantityText(figure: Figure, unit: string, show?: string): string {
  const row = formatRow([figure], unit, show === undefined ? {} : { show });
  const { value, interval } = row.figures[0]!;
  const number = interval === undefined ? value : `${value} (${interval})`;
  return row.unit === "" ? number : `${number} ${row.unit}`;
}

/** Only the figure, without what else the cell holds. */
function figureOf(cell: Figure): Figure {
  return {
    value: cell.value,
    ...(cell.low === undefined ? {} : { low: cell.low }),
    ...(cell.high === undefined ? {} : { high: cell.high }),
  };
}

/** A share of one in percent: one digit behind the point below one percent, whole percents above. */
export function shareText(share: number): string {
  if (!Number.isFinite(share)) return NOTHING;
  const percent = share * 100;
  if (percent === 0) return "0 %";
  if (percent < 0.1) return "< 0.1 %";
  return `${percent < 0.95 ? percent.toFixed(1) : percent.toFixed(0)} %`;
}

/** Columns of figures stand to the right unless the column says otherwise. */
export function alignment(table: Table, column: number): "left" | "right" {
  return table.columns[column]!.align ?? (holdsFigures(table, column) ? "right" : "left");
}

/** True when no cell of the column is a text. */
export function holdsFigures(table: Table, column: number): boolean {
  return table.rows.length > 0 && table.rows.every((row) => row[column]!.kind !== "text");
}

import { displayUnit, engineeringPrefix } from "../../quantities/display.ts";
import { formatNumber, formatRatio, formatRow, unitText } from "../../quantities/format.ts";
import type { Cell, Comparison, Figure, Interval, Table } from "../document/document.ts";

/** How figures read, the same in every format that people read. */

export interface LaidComparison {
  readonly designs: readonly string[];
  readonly rows: readonly LaidRow[];
}

export interface LaidRow {
  readonly label: string;
  /** The one unit of the row, with its prefix: `mm²`; empty for pure numbers, a bare prefix for counts. */
  readonly unit: string;
  /** Lines of its cells below the value, in their order, and what each is called where that is not plain. */
  readonly lines: readonly LaidLine[];
  readonly cells: readonly LaidFigure[];
}

/** Beside a model interval it has to be said which interval is which. */
export interface LaidLine {
  readonly of: "interval" | "model" | "ratio";
  readonly name: string;
}
const LINES = [
  { of: "interval", name: "parameters" },
  { of: "model", name: "model error" },
  { of: "ratio", name: "" },
] as const;

export interface LaidFigure {
  readonly value: string;
  /** From the ranges of parameters. */
  readonly interval?: string;
  /** From the error of the models. */
  readonly model?: string;
  readonly ratio?: string;
}

const NOTHING = "–";

/** All texts of a comparison: figures of one row share a prefix, value and interval share a last digit. */
export function layComparison(comparison: Comparison): LaidComparison {
  const rows = comparison.rows.map((row) => {
    const present = row.figures.filter((figure) => figure !== undefined);
    const laid = formatRow(present, row.unit);
    const prefix = engineeringPrefix(
      present.map(({ value }) => value),
      row.unit,
    );
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
        ...(figure.model && { model: intervalText(figure.model, prefix) }),
        ...(ratio === undefined ? {} : { ratio }),
      };
    });
    const there = LINES.filter(({ of }) => cells.some((cell) => cell[of] !== undefined));
    const named = there.some(({ of }) => of === "model");
    const lines = there.map(({ of, name }) => ({ of, name: named ? name : "" }));
    return { label: row.label, unit: laid.unit, lines, cells };
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
    case "interval": {
      const prefix =
        cell.show === undefined
          ? engineeringPrefix([cell.low, cell.high], cell.unit)
          : displayUnit(cell.show);
      const unit = unitText(prefix.text);
      return `${intervalText(cell, prefix)}${unit === "" ? "" : ` ${unit}`}`;
    }
    case "share":
      return shareText(cell.value);
    case "none":
      return NOTHING;
  }
}

function ratioText(ratio: Figure): string {
  return formatRatio(ratio.value);
}

/** The error of models is known to a digit or two: the ends have two. */
function intervalText({ low, high }: Interval, { factor }: { readonly factor: number }): string {
  const [from, to] = [low, high].map((x) => formatNumber(x / factor, { digits: 2 }));
  return `${from} – ${to}`;
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

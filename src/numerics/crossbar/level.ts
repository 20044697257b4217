/** One grid of the coarsened method: a crossbar with its line factors and work arrays. */
import { factorColumns, factorRows, type LineFactors } from "./lines.ts";

/** Conductances of the line ends [S]: 0 for none, infinite for an ideal source. */
export interface Ends {
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly top: Float64Array;
  readonly bottom: Float64Array;
}

/**
 * Rows are handled four at a time, so `m` is a multiple of four: the first `top` rows are empty (no conductance, no
 * ends). All arrays of m * n are row-major.
 */
export interface Level {
  readonly m: number;
  readonly n: number;
  readonly top: number;
  readonly rowResistance: number;
  readonly columnResistance: number;
  readonly g: Float64Array;
  readonly ends: Ends;
  readonly rows: LineFactors;
  readonly columns: LineFactors;
  /** Right-hand side of the level; residual. */
  readonly r: Float64Array;
  /** The column solve's forward sums, then its solution. */
  readonly z: Float64Array;
  readonly h: Float64Array;
  /** Scratch of one line of four rows. */
  readonly scratch: Float64Array;
  /** Coarse line of every row and column, when there is a coarser level. */
  coarse?: { level: Level; rowOf: Int32Array; columnOf: Int32Array };
}

/** Rows that have to be put on top to fill the last group of four. */
export function paddingOf(rows: number): number {
  return (4 - (rows % 4)) % 4;
}

/** Shifts per-row values below the empty rows. */
export function padded(values: Float64Array, top: number): Float64Array {
  const out = new Float64Array(values.length + top);
  out.set(values, top);
  return out;
}

/** Allocates a level and factors its lines. `g` and the ends are already padded. */
export function makeLevel(
  shape: { m: number; n: number; top: number },
  wires: { row: number; column: number },
  g: Float64Array,
  ends: Ends,
): Level {
  const { m, n, top } = shape;
  const array = () => new Float64Array(m * n);
  const level: Level = {
    m,
    n,
    top,
    rowResistance: wires.row,
    columnResistance: wires.column,
    g,
    ends,
    rows: { c: array(), last: new Float64Array(m) },
    columns: { c: array(), last: new Float64Array(n) },
    r: array(),
    z: array(),
    h: array(),
    scratch: new Float64Array(4 * n),
  };
  factor(level);
  return level;
}

/** Factors the lines again after `g` has changed. */
export function factor(level: Level): void {
  const { m, n, top, g, ends } = level;
  factorRows(g, m, n, level.rowResistance, ends.left, ends.right, level.rows);
  factorColumns(g, m, n, top, level.columnResistance, ends.top, ends.bottom, level.columns);
}

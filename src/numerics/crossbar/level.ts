/** One grid of the coarsened method: a crossbar with its line factors and work arrays in the kernels' memory. */
import type { Arena, Block, Kernels } from "./kernels/instance.ts";
import { factorColumns, factorRows, type Shape } from "./lines.ts";

/** Conductances of the line ends [S]: 0 for none, infinite for an ideal source. Padded like the arrays. */
export interface Ends {
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly top: Float64Array;
  readonly bottom: Float64Array;
}

export interface Wires {
  /** Segment resistances [ohm]. */
  readonly row: number;
  readonly column: number;
}

/** How a level's lines are joined to those of the next coarser one. */
export interface Coarser {
  readonly level: Level;
  /** Address of one record per group of four rows, and of the byte offset of every column's coarse column. */
  readonly joins: number;
  readonly columnOf: number;
}

export interface Level {
  readonly shape: Shape;
  readonly wires: Wires;
  readonly ends: Ends;
  readonly kernels: Kernels;
  readonly g: Block;
  readonly rows: { readonly c: Block; readonly last: Block };
  readonly columns: { readonly c: Block; readonly last: Block };
  /** Residual, or right-hand side of the level. */
  readonly r: Block;
  /** Forward sums of the column solve, then its solution. */
  readonly z: Block;
  /** Right-hand side of the last column solve of a cycle; then S z. */
  readonly h: Block;
  readonly scratch: Block;
  readonly sums: Block;
  /** On levels that are gone through more than once. */
  readonly again?: { readonly p: Block; readonly q: Block; readonly w: Block };
  coarser?: Coarser;
}

/** Empty lines that fill a group of four. */
export function paddingOf(lines: number): number {
  return (4 - (lines % 4)) % 4;
}

/** Shifts per-line values behind `empty` zeros. */
export function padded(values: Float64Array, empty: number): Float64Array {
  const out = new Float64Array(values.length + empty);
  out.set(values, empty);
  return out;
}

/** Doubles that a level takes. */
export function sizeOf(shape: { m: number; n: number }, arrays: number): number {
  const { m, n } = shape;
  return arrays * (m + 2) * n + 32 * (m + n) + 64;
}

/** Arrays of a level that is gone through once, or twice. */
export const ARRAYS = { once: 6, twice: 9 } as const;

/** Allocates a level around its conductances. */
export function makeLevel(
  arena: Arena,
  shape: Shape,
  wires: Wires,
  ends: Ends,
  g: Block,
  twice: boolean,
): Level {
  const { m, n } = shape;
  const array = () => arena.doubles(m * n);
  const zeros = () => {
    const block = array();
    block.view.fill(0);
    return block;
  };
  const level: Level = {
    shape,
    wires,
    ends,
    kernels: arena.kernels,
    g,
    rows: { c: array(), last: arena.doubles(m) },
    columns: { c: arena.framed(m, n), last: arena.doubles(n) },
    r: array(),
    z: arena.framed(m, n),
    h: array(),
    scratch: arena.doubles(4 * n),
    sums: arena.doubles(2),
    ...(twice ? { again: { p: zeros(), q: zeros(), w: array() } } : {}),
  };
  return level;
}

/** Factors the lines for the present conductances. */
export function factor(level: Level): void {
  factorRows(level);
  factorColumns(level);
}

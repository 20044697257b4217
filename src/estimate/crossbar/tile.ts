/** One tile with its far corner selected, as a problem for the network solver. */
import type { Scheme } from "../../models/crossbar/contract.ts";
import type { Pattern } from "../../models/crossbar/patterns.ts";
import type { CrossbarProblem, JunctionKind, TerminalSide } from "../../numerics/crossbar/index.ts";

/** Wires and unselected junctions of a tile. Drivers and sense amplifiers are ideal. */
export interface Tile {
  readonly rows: number;
  readonly columns: number;
  /** Of the wire between two cells [ohm]. */
  readonly rowSegment: number;
  readonly columnSegment: number;
  readonly on: JunctionKind;
  readonly off: JunctionKind;
}

/** Where the selected junction stands in the arrays of a solution. */
export function farCorner({ columns }: Pick<Tile, "columns">): number {
  return columns - 1;
}

/** Voltages of unselected rows and columns over the applied one; undefined where they float. */
export const LEVELS: Readonly<Record<Scheme, { row?: number; column?: number }>> = {
  floating: {},
  grounded: { row: 0, column: 0 },
  "one-half": { row: 1 / 2, column: 1 / 2 },
  "one-third": { row: 1 / 3, column: 2 / 3 },
};

function side(
  count: number,
  selected: number,
  voltage: number,
  rest: number | undefined,
): TerminalSide {
  const other = rest === undefined ? Number.NaN : 0;
  const made = {
    voltage: new Float64Array(count).fill(rest ?? 0),
    resistance: new Float64Array(count).fill(other),
  };
  made.voltage[selected] = voltage;
  made.resistance[selected] = 0;
  return made;
}

/** The kind of every junction: 0 selected, 1 on, 2 off; bit k of `bits` is junction k's state. */
export function kindsOfBits({ rows, columns }: Tile, bits: number): Uint8Array {
  const kinds = Uint8Array.from({ length: rows * columns }, (_, k) => ((bits >> k) & 1 ? 1 : 2));
  kinds[columns - 1] = 0;
  return kinds;
}

export function kindsOfPattern({ rows, columns }: Tile, pattern: Pattern): Uint8Array {
  const kinds = new Uint8Array(rows * columns).fill(pattern.rest ? 1 : 2);
  kinds.fill(pattern.row ? 1 : 2, 0, columns);
  for (let i = 1; i < rows; i++) kinds[i * columns + columns - 1] = pattern.column ? 1 : 2;
  kinds[columns - 1] = 0;
  return kinds;
}

/**
 * The network with row 0 driven at its left end and the last column held at zero at its bottom.
 *
 * @param voltage between driver and held column [V]
 * @param selected the junction at the far corner
 * @param kindOf from `kindsOfPattern` or `kindsOfBits`
 */
export function cornerProblem(
  tile: Tile,
  scheme: Scheme,
  voltage: number,
  selected: JunctionKind,
  kindOf: Uint8Array,
): CrossbarProblem {
  const { rows, columns } = tile;
  const { row, column } = LEVELS[scheme];
  const at = (share: number | undefined) => (share === undefined ? undefined : share * voltage);
  return {
    rows,
    columns,
    rowResistance: tile.rowSegment,
    columnResistance: tile.columnSegment,
    junctions: { kinds: [selected, tile.on, tile.off], kindOf },
    terminals: {
      left: side(rows, 0, voltage, at(row)),
      bottom: side(columns, columns - 1, 0, at(column)),
    },
  };
}

/** Loss of a tile with faulty cells and broken lines, with spare rows and columns. */
import { type Procedure, procedure } from "../../formulas/sheet.ts";
import { binomialTail, binomialTerm } from "../../numerics/special/discrete.ts";
import { expm1, log1p } from "../../numerics/special/elementary.ts";

/** A tile with its spare lines; probabilities of a fault per cell and per line. */
export interface SparedTile {
  readonly rows: number;
  readonly columns: number;
  readonly spareRows: number;
  readonly spareColumns: number;
  readonly cellFault: number;
  readonly lineFault: number;
}

/** Probability that any cell or line of the tile itself is faulty. */
export function unrepairedLoss({ rows, columns, cellFault, lineFault }: SparedTile): number {
  return -expm1(rows * columns * log1p(-cellFault) + (rows + columns) * log1p(-lineFault));
}

/**
 * An upper bound of the loss. A broken line takes a spare one of its own direction, a faulty cell
 * any spare line that is left; several faulty cells on one line, and those on lines that are
 * replaced anyway, are counted as if each took one. All terms are positive: small losses keep
 * their digits.
 */
export function repairedLoss(tile: SparedTile): number {
  const { spareRows, spareColumns, cellFault, lineFault } = tile;
  const rows = tile.rows + spareRows;
  const columns = tile.columns + spareColumns;
  let loss = binomialTail(rows, spareRows + 1, lineFault);
  for (let r = 0; r <= spareRows; r++) {
    const broken = binomialTerm(rows, r, lineFault);
    let lost = binomialTail(columns, spareColumns + 1, lineFault);
    for (let c = 0; c <= spareColumns; c++) {
      const left = spareRows - r + spareColumns - c;
      lost +=
        binomialTerm(columns, c, lineFault) * binomialTail(rows * columns, left + 1, cellFault);
    }
    loss += broken * lost;
    if (broken === 0) break;
  }
  return Math.min(1, loss);
}

/** `tile_loss_unrepaired` and `tile_loss_repaired`. */
export const tileRepair: Procedure = procedure({
  name: "tile_repair",
  title: "Tiles lost to faulty cells and broken lines",
  about:
    "Faults at random. With spares an upper bound: a broken line takes a spare line of its " +
    "direction, each faulty cell one that is left. Exact for broken lines alone; sums of positive " +
    "terms, to 1e-12.",
  source: "yield-review",
  inputs: {
    rows: { unit: "1", meaning: "rows of a tile" },
    columns: { unit: "1", meaning: "columns of a tile" },
    spare_rows: { unit: "1", meaning: "spare rows of a tile" },
    spare_columns: { unit: "1", meaning: "spare columns of a tile" },
    cell_fault: { unit: "1", meaning: "probability that a cell is faulty" },
    line_fault: { unit: "1", meaning: "probability that a row or column wire is broken" },
  },
  outputs: {
    tile_loss_unrepaired: { unit: "1", meaning: "probability of a fault in a tile" },
    tile_loss_repaired: { unit: "1", meaning: "probability that the spares do not suffice" },
  },
  run(inputs, outputs) {
    const [rows, columns, spareRows, spareColumns, cellFault, lineFault] =
      inputs as unknown as number[];
    const tile = {
      rows: rows!,
      columns: columns!,
      spareRows: spareRows!,
      spareColumns: spareColumns!,
      cellFault: cellFault!,
      lineFault: lineFault!,
    };
    outputs.set([unrepairedLoss(tile), repairedLoss(tile)]);
  },
});

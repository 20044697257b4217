/** What decides the parts of a macro at its edge, and what bounds know beyond interval arithmetic. */
import type { Bounds, Floor } from "../formulas/interval.ts";

/** What decides the supply of writes, and so which parts a macro has. */
export const EDGE = [
  "write_voltage",
  "row_swing",
  "write_row_swing",
  "supply",
  "io_supply",
] as const;
/** A bank must have as many tiles as an access wakes. */
export const ROOM = ["tiles_active", "tiles_per_bank"] as const;

/**
 * The cells of a macro are at least those that hold its data, since the tiles are counted up to
 * whole ones. Interval arithmetic alone loses that: in it tiles and cells of a tile go apart.
 */
export const FLOORS: Readonly<Record<string, Floor>> = {
  cells: (of) => {
    const stored = (of("capacity").low * of("coded_word").low) / of("word").high;
    const cells = (stored * of("cells_per_bit").low) / of("bits_per_cell").high;
    return Number.isFinite(cells) ? cells * (1 - 1e-12) : Number.NEGATIVE_INFINITY;
  },
};
/** What the floors read. */
export const FLOOR_NAMES = [
  "capacity",
  "coded_word",
  "word",
  "cells_per_bit",
  "bits_per_cell",
] as const;

const ORDER = ["core", "io", "pump"] as const;
type Supply = (typeof ORDER)[number];

function supplyFor(voltage: number, supply: number, ioSupply: number): Supply {
  return voltage <= supply ? "core" : voltage <= ioSupply ? "io" : "pump";
}

/** Two supplies as one text, made once: sweeps ask for every point. */
const pairsOf = (own: Supply): Readonly<Record<Supply, string>> => ({
  core: `${own} core`,
  io: `${own} io`,
  pump: `${own} pump`,
});
const PAIRS = { core: pairsOf("core"), io: pairsOf("io"), pump: pairsOf("pump") };

/** Which supplies a write needs: the same question that `peripheryStructure` answers. */
export function suppliesOf(write: number, row: number, supply: number, ioSupply: number): string {
  const own = supplyFor(write, supply, ioSupply);
  return PAIRS[own][supplyFor(Math.max(row, write), supply, ioSupply)];
}

/** All that the supplies of a box may be. */
export function possibleSupplies(of: (name: string) => Bounds): string[] {
  const [write, row, writeRow, supply, io] = EDGE.map(of) as [
    Bounds,
    Bounds,
    Bounds,
    Bounds,
    Bounds,
  ];
  const from = (low: number, high: number): readonly Supply[] =>
    ORDER.slice(
      ORDER.indexOf(supplyFor(low, supply.high, io.high)),
      ORDER.indexOf(supplyFor(high, supply.low, io.low)) + 1,
    );
  const raised = from(
    Math.max(row.low, writeRow.low, write.low),
    Math.max(row.high, writeRow.high, write.high),
  );
  return from(write.low, write.high).flatMap((own) =>
    raised.filter((one) => ORDER.indexOf(one) >= ORDER.indexOf(own)).map((one) => `${own} ${one}`),
  );
}

/** Voltages at which a write needs these supplies. */
export function levelsFor(
  supplies: string,
  ioSupply: number,
): { readonly write: number; readonly row: number } {
  const [write, row] = supplies
    .split(" ")
    .map((one) =>
      one === "core" ? -Number.MAX_VALUE : one === "io" ? ioSupply : Number.MAX_VALUE,
    );
  return { write: write!, row: row! };
}

// How bad data are for each question, by solving the network of a small tile.
import { cornerProblem, farCorner, type Tile } from "../../../src/estimate/crossbar/tile.ts";
import type { Scheme } from "../../../src/models/crossbar/contract.ts";
import type { Question } from "../../../src/models/crossbar/patterns.ts";
import { unselectedJunction } from "../../../src/models/selector/elements.ts";
import { type JunctionKind, solveCrossbar } from "../../../src/numerics/crossbar/index.ts";

/** Two kinds of junctions: ohmic on with a sinh off, and both behind a tunnel selector. */
export const JUNCTIONS = ["none", "tunnel"] as const;

const VALUES = {
  on_resistance: 20e3,
  off_resistance: 1e6,
  read_voltage: 0.3,
  scale_voltage: 0.25,
  selector_prefactor: 1e-9,
  selector_scale_voltage: 0.08,
};
const VOLTAGES = { none: { read: 0.3, write: 1.2 }, tunnel: { read: 1, write: 2 } };
const WRITE_CURRENT = 50e-6;

export function tileOf(
  kind: (typeof JUNCTIONS)[number],
  rows: number,
  columns: number,
  wire: number,
): Tile {
  return {
    rows,
    columns,
    rowSegment: wire,
    columnSegment: wire,
    on: unselectedJunction(kind, VALUES, true),
    off: unselectedJunction(kind, VALUES, false),
  };
}

/** The badness of data for one question: larger is worse. */
export function badness(
  kind: (typeof JUNCTIONS)[number],
  tile: Tile,
  scheme: Scheme,
  question: Question,
  kindOf: Uint8Array,
): number {
  const { read, write } = VOLTAGES[kind];
  const cell: JunctionKind = { element: { law: "ohmic", resistance: write / WRITE_CURRENT } };
  const selected = { read_on: tile.on, read_off: tile.off }[question as string] ?? cell;
  const voltage = question.startsWith("read") ? read : write;
  const solution = solveCrossbar(cornerProblem(tile, scheme, voltage, selected, kindOf));
  if (!solution.converged) throw new Error("not solved");
  const at = farCorner(tile);
  const { junctionVoltages: v, junctionCurrents: i } = solution;
  switch (question) {
    case "read_on":
      return 1 / solution.columnCurrents[at]!;
    case "read_off":
      return solution.columnCurrents[at]!;
    case "delivery":
      return 1 / v[at]!;
    case "power":
      return v.reduce((sum, u, k) => (k === at ? sum : sum + u * i[k]!), 0);
    case "disturb":
      return v.reduce((most, u, k) => (k === at ? most : Math.max(most, Math.abs(u))), 0);
  }
}

/**
 * By how much any data of a small array may be worse than those of the table, relative. Floating
 * lines leave something, for there the data of single cells decide how groups share the voltage;
 * with one third the stated data are the worst from 6 x 6 on.
 */
export function allowed(scheme: Scheme, question: Question): number {
  if (scheme === "one-third" && question === "disturb") return 0.02;
  if (scheme !== "floating") return 1e-9;
  return { delivery: 1e-3, disturb: 0.05 }[question as string] ?? 1e-9;
}

// What can be worked out by hand about sneak paths and half-selected cells.
import { expect, test } from "vitest";
import {
  cornerProblem,
  farCorner,
  kindsOfPattern,
  type Tile,
} from "../../../src/estimate/crossbar/tile.ts";
import type { Scheme } from "../../../src/models/crossbar/contract.ts";
import { type JunctionKind, solveCrossbar } from "../../../src/numerics/crossbar/index.ts";

const V = 1;
const OFF = 1e6;
const ohmic = (resistance: number): JunctionKind => ({ element: { law: "ohmic", resistance } });

/** An off junction whose current at V is K times that at half of it. */
function nonlinear(ratio: number): JunctionKind {
  const scaleVoltage = V / (2 * Math.acosh(ratio / 2));
  const resistance = (scaleVoltage * Math.sinh(V / scaleVoltage) * OFF) / V;
  return { element: { law: "sinh", resistance, scaleVoltage } };
}

function solved(rows: number, columns: number, on: JunctionKind, off: JunctionKind, all: boolean) {
  const tile: Tile = { rows, columns, rowSegment: 0, columnSegment: 0, on, off };
  const pattern = { row: all, column: all, rest: all };
  return (scheme: Scheme, selected: JunctionKind) => {
    const kinds = kindsOfPattern(tile, pattern);
    const solution = solveCrossbar(cornerProblem(tile, scheme, V, selected, kinds));
    expect(solution.converged).toBe(true);
    const at = farCorner(tile);
    return { own: solution.junctionCurrents[at]!, column: solution.columnCurrents[at]! };
  };
}

test("a 2 x 2 floating array with neighbours on at 1000 reads 333 times the off cell's current", () => {
  const read = solved(2, 2, ohmic(OFF / 1000), ohmic(OFF), true);
  const { own, column } = read("floating", ohmic(OFF));
  // Past the off cell: three on junctions in series, each a thousandth of it.
  expect((column - own) / own / (1000 / 3) - 1).toBeCloseTo(0, 9);
});

test.each([
  [2, 0.5],
  [3, 1],
  [4, 1.5],
])("with one-half bias %i rows of off cells add %f times the off cell's current", (rows, share) => {
  const { own, column } = solved(rows, 2, ohmic(1e3), ohmic(OFF), false)("one-half", ohmic(OFF));
  expect((column - own) / own / share - 1).toBeCloseTo(0, 9);
});

test.each([
  [500, true],
  [511, undefined],
  [520, false],
])(
  "at 512 rows off cells of a nonlinearity of %i drown the off cell's current: %s",
  (k, drowned) => {
    const off = nonlinear(k);
    const { own, column } = solved(512, 2, ohmic(1e3), off, false)("one-half", off);
    const ratio = (column - own) / own;
    // 511 neighbours with the K-th part each.
    expect(ratio / (511 / k) - 1).toBeCloseTo(0, 8);
    if (drowned !== undefined) expect(ratio > 1).toBe(drowned);
  },
);

// Common practice, no source: which switch is closed shows where the two wires are one.
test("among open switches one closed switch is found by its two wires, and none carries nothing", () => {
  const open = ohmic(1e18);
  const closed = ohmic(1);
  const currents = (at: readonly [number, number] | undefined) => {
    const found: number[] = [];
    for (let row = 0; row < 3; row++) {
      for (let column = 0; column < 3; column++) {
        const kindOf = new Uint8Array(9).fill(1);
        if (at !== undefined) kindOf[at[0] * 3 + at[1]] = 0;
        const terminal = (selected: number, voltage: number) => ({
          voltage: new Float64Array(3).fill(voltage),
          resistance: Float64Array.from({ length: 3 }, (_, k) => (k === selected ? 0 : Number.NaN)),
        });
        const { columnCurrents } = solveCrossbar({
          rows: 3,
          columns: 3,
          rowResistance: 0,
          columnResistance: 0,
          junctions: { kinds: [closed, open], kindOf },
          terminals: { left: terminal(row, V), bottom: terminal(column, 0) },
        });
        found.push(columnCurrents[column]!);
      }
    }
    return found;
  };
  const none = currents(undefined);
  expect(Math.max(...none) / Math.min(...none)).toBeCloseTo(1, 9);
  expect(Math.max(...none)).toBeLessThan(1e-17);
  const one = currents([1, 2]);
  one.forEach((current, k) => {
    if (k === 1 * 3 + 2) expect(current).toBeCloseTo(V, 9);
    else expect(current).toBeLessThan(1e-17);
  });
});

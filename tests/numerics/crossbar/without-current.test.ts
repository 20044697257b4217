import { expect, test } from "vitest";
import { solveCrossbar } from "../../../src/numerics/crossbar/solve.ts";

const ROWS = 12;
const COLUMNS = 7;

/** Rows at 1 V between columns at -1 V, the ninth row left open. */
function solved(junction: number, row: number, column: number) {
  const driven = new Float64Array(ROWS);
  driven[8] = Number.NaN;
  return solveCrossbar({
    rows: ROWS,
    columns: COLUMNS,
    rowResistance: row,
    columnResistance: column,
    junctions: { conductance: new Float64Array(ROWS * COLUMNS).fill(1 / junction) },
    terminals: {
      left: { voltage: new Float64Array(ROWS).fill(1), resistance: driven },
      bottom: {
        voltage: new Float64Array(COLUMNS).fill(-1),
        resistance: new Float64Array(COLUMNS),
      },
    },
  });
}

test.each([
  [1e9, 0.01, 1],
  [1e12, 1e-3, 1e-3],
  [1e3, 1, 0],
])(
  "an open row carries nothing: junctions of %g ohm, wires of %g and %g ohm",
  (junction, row, column) => {
    const { converged, junctionCurrents } = solved(junction, row, column);
    expect(converged).toBe(true);
    // No wire takes more than all currents through all of its segments: 2 V / R each.
    const drop = (ROWS * COLUMNS * (ROWS * column + COLUMNS * row)) / junction;
    junctionCurrents.forEach((current, k) => {
      const open = Math.floor(k / COLUMNS) === 8;
      const ideal = open ? 0 : 2 / junction;
      expect(Math.abs(current - ideal)).toBeLessThanOrEqual((2 / junction) * drop);
    });
  },
);

import { expect, test } from "vitest";
import type { Law } from "../../../src/numerics/crossbar/problem.ts";
import { solveCrossbar } from "../../../src/numerics/crossbar/solve.ts";

const ROWS = 12;
const COLUMNS = 7;

/** Rows between columns, the ninth row left open. */
function solved(
  junction: number,
  row: number,
  column: number,
  [high, low] = [1, -1],
  open = junction,
  law?: Law,
) {
  const driven = new Float64Array(ROWS);
  driven[8] = Number.NaN;
  const conductance = new Float64Array(ROWS * COLUMNS).fill(1 / junction);
  conductance.fill(1 / open, 8 * COLUMNS, 9 * COLUMNS);
  return solveCrossbar({
    rows: ROWS,
    columns: COLUMNS,
    rowResistance: row,
    columnResistance: column,
    junctions:
      law === undefined
        ? { conductance }
        : { kinds: [{ element: law }], kindOf: new Uint8Array(ROWS * COLUMNS) },
    terminals: {
      left: { voltage: new Float64Array(ROWS).fill(high), resistance: driven },
      bottom: {
        voltage: new Float64Array(COLUMNS).fill(low),
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

test.each([
  [1, 0],
  [0, 1],
  [0, -1],
])("an open row is seen to carry nothing between %d and %d V", (high, low) => {
  const { converged, junctionCurrents } = solved(1e12, 1e-3, 1e-3, [high, low]);
  expect(converged).toBe(true);
  // The drop along the wires, as above.
  const drop = (ROWS * COLUMNS * (ROWS + COLUMNS) * 1e-3) / 1e12;
  for (const current of junctionCurrents.subarray(8 * COLUMNS, 9 * COLUMNS)) {
    expect(Math.abs(current)).toBeLessThanOrEqual(1e-12 * drop);
  }
});

test("a row whose currents are nothing beside the others takes no solves of its own", () => {
  for (const row of [1e-3, 1, 1e3]) {
    const { converged, linearSolves } = solved(1e3, row, row, [1, -1], 1e25);
    expect(converged).toBe(true);
    expect(linearSolves).toBeLessThanOrEqual(3);
  }
});

test.each<[Law, number, number, number]>([
  [{ law: "sinh", resistance: 1e12, scaleVoltage: 0.5 }, 1e-3, 1e-3, 10],
  [{ law: "sinh", resistance: 1e9, scaleVoltage: 0.5 }, 0.01, 1, 11],
  [{ law: "sinh", resistance: 1e6, scaleVoltage: 0.2 }, 1e-6, 1e-6, 12],
])(
  "an open row of bent junctions carries nothing: %j between wires of %d and %d ohm",
  (law, row, column, most) => {
    const resistance = law.law === "sinh" ? law.resistance : Number.NaN;
    const scale = law.law === "sinh" ? law.scaleVoltage : Number.NaN;
    const solution = solved(1, row, column, [1, -1], 1, law);
    const { converged, residual, linearSolves, junctionCurrents } = solution;
    expect(converged).toBe(true);
    expect(residual).toBeLessThanOrEqual(1e-10);
    expect(linearSolves).toBeLessThanOrEqual(most);
    const ideal = (scale / resistance) * Math.sinh(2 / scale);
    const slope = Math.cosh(2 / scale) / resistance;
    const drop = ROWS * COLUMNS * (ROWS * column + COLUMNS * row) * slope;
    junctionCurrents.forEach((current, k) => {
      const open = Math.floor(k / COLUMNS) === 8;
      expect(Math.abs(current - (open ? 0 : ideal))).toBeLessThanOrEqual(ideal * drop);
    });
  },
);

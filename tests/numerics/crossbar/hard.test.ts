/** Networks that earlier solvers gave up: parts that carry nothing, or that hardly anything ties to the rest. */
import { expect, test } from "vitest";
import type { CrossbarProblem, JunctionKind } from "../../../src/numerics/crossbar/problem.ts";
import { side, solved } from "./build.ts";

const OPEN = Number.NaN;
const all = (rows: number, columns: number, ohms: number) => ({
  conductance: new Float64Array(rows * columns).fill(1 / ohms),
});
const alternating = (rows: number, columns: number, kinds: readonly JunctionKind[]) => ({
  kinds,
  kindOf: Uint8Array.from(
    { length: rows * columns },
    (_, k) => ((k % columns) + Math.floor(k / columns)) % 2,
  ),
});

test("columns without a terminal carry nothing between equal rows, beside others that do", () => {
  const [rows, columns] = [12, 11];
  const held = new Set([0, 9, 10]);
  const { columnVoltages, rowVoltages, junctionCurrents } = solved({
    rows,
    columns,
    rowResistance: 1,
    columnResistance: 0,
    junctions: all(rows, columns, 3080),
    terminals: {
      right: side(
        rows,
        () => 2.838,
        () => 1,
      ),
      bottom: side(
        columns,
        (j) => (j === 7 ? 1e-12 : 3),
        (j) => (held.has(j) ? 0 : j === 7 ? 100 : OPEN),
      ),
    },
  });
  const most = Math.max(...junctionCurrents.map(Math.abs));
  columnVoltages.forEach((v, k) => {
    if (held.has(k % columns) || k % columns === 7) return;
    expect(Math.abs(v / rowVoltages[k]! - 1)).toBeLessThan(1e-15);
    expect(Math.abs(junctionCurrents[k]!)).toBeLessThan(1e-15 * most);
  });
});

test("columns that wires of 1e12 ohm tie to others have the potential of the nearest one that is driven", () => {
  const [rows, columns] = [17, 4];
  const { columnVoltages } = solved({
    rows,
    columns,
    rowResistance: 1e12,
    columnResistance: 0,
    junctions: all(rows, columns, 1000),
    terminals: {
      bottom: side(
        columns,
        (j) => (j === 2 ? 3.843 : 1.5),
        (j) => [OPEN, OPEN, 100, 0][j]!,
      ),
    },
  });
  // Every row takes the same current from the third column to the fourth.
  const through = 2000 + 1e12;
  const current = (3.843 - 1.5) / (100 * rows + through);
  const third = 3.843 - 100 * rows * current;
  const open = third - 1000 * current;
  for (const [j, want] of [open, open, third, 1.5].entries()) {
    expect(Math.abs(columnVoltages[j]! / want - 1)).toBeLessThan(4e-16);
  }
});

test("2 A through a line without resistance hide no current of 1e-17 A elsewhere on it", () => {
  const [rows, columns] = [12, 4];
  const { columnCurrents, junctionCurrents } = solved({
    rows,
    columns,
    rowResistance: 1,
    columnResistance: 0,
    junctions: all(rows, columns, 3e8),
    terminals: {
      left: side(
        rows,
        () => -1,
        () => 0,
      ),
      right: side(
        rows,
        () => 1e-12,
        (i) => ([0, 2, 3, 5].includes(i) ? 0 : OPEN),
      ),
      top: side(
        columns,
        () => -1,
        () => 1,
      ),
      bottom: side(
        columns,
        (j) => (j === 1 ? 3 : -1),
        () => 1,
      ),
    },
  });
  // What a column's terminals take is what its junctions give.
  for (let j = 0; j < columns; j++) {
    const given = Array.from({ length: rows }, (_, i) => junctionCurrents[i * columns + j]!);
    const size = given.reduce((sum, one) => sum + Math.abs(one), 4 * (j === 1 ? 1 : 0));
    const sum = given.reduce((a, b) => a + b, 0);
    expect(Math.abs(columnCurrents[j]! - sum)).toBeLessThanOrEqual(4e-16 * size);
  }
});

const STEEP: JunctionKind = {
  element: { law: "sinh", resistance: 1970, scaleVoltage: 1 },
  selector: { law: "sinh", resistance: 1e9, scaleVoltage: 1 },
};
const SNAP: JunctionKind = {
  element: {
    law: "threshold",
    onResistance: 100,
    thresholdVoltage: 1,
    widthVoltage: 0.02,
    offResistance: 100,
  },
  selector: {
    law: "threshold",
    onResistance: 826,
    thresholdVoltage: 1,
    widthVoltage: 0.24,
    offResistance: 826,
  },
};

test("a nonlinear network between equal rows, where no current flows at all, is solved", () => {
  const [rows, columns] = [7, 2];
  const { junctionCurrents } = solved({
    rows,
    columns,
    rowResistance: 1,
    columnResistance: 1,
    junctions: alternating(rows, columns, [STEEP, SNAP]),
    terminals: {
      left: side(
        rows,
        () => 1,
        () => 0,
      ),
    },
  });
  for (const current of junctionCurrents) expect(Math.abs(current)).toBeLessThan(1e-18);
});

test("a nonlinear network of columns that wires of 1e12 ohm tie together keeps to Kirchhoff's law", () => {
  const [rows, columns] = [8, 18];
  const on = {
    law: "threshold",
    onResistance: 1e5,
    thresholdVoltage: 1,
    widthVoltage: 0.0141,
    offResistance: 1e5,
  } as const;
  const off = {
    element: { law: "sinh", resistance: 1000, scaleVoltage: 1 },
    selector: { law: "ohmic", resistance: 1 },
  } as const;
  const problem: CrossbarProblem = {
    rows,
    columns,
    rowResistance: 1e12,
    columnResistance: 0,
    junctions: alternating(rows, columns, [off, { element: on }]),
    terminals: {
      left: side(
        rows,
        () => 1.5,
        (i) => ([2, 3, 5].includes(i) ? 0 : OPEN),
      ),
      bottom: side(
        columns,
        () => -1,
        (j) => ([6, 11].includes(j) ? 0 : OPEN),
      ),
    },
  };
  const { rowCurrents, columnCurrents } = solved(problem);
  const sum = (list: Float64Array) => list.reduce((a, b) => a + b, 0);
  expect(Math.abs(sum(rowCurrents) / sum(columnCurrents) - 1)).toBeLessThan(1e-12);
});

test("a resistance of minus zero is none", () => {
  const of = (zero: number) =>
    solved({
      rows: 2,
      columns: 3,
      rowResistance: zero,
      columnResistance: 1,
      junctions: all(2, 3, 1000),
      terminals: {
        left: side(
          2,
          () => 1,
          () => zero,
        ),
        bottom: side(
          3,
          () => 0,
          () => zero,
        ),
      },
    });
  expect(of(-0)).toEqual(of(0));
});

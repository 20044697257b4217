/** Where an iteration starts: lines at their open-circuit voltages (Thevenin), or at given ones. */
import { expect, test } from "vitest";
import { makeEngine } from "../../../src/numerics/crossbar/engine.ts";
import type { CrossbarProblem, StartVoltages } from "../../../src/numerics/crossbar/problem.ts";

const none = Number.NaN;
/** Of both terminals of a line volts and ohms, and the voltage from which its nodes start. */
type Case = readonly [v0: number, r0: number, v1: number, r1: number, start: number];
const CASES: readonly Case[] = [
  [3, none, 7, none, 1.5],
  [3, 5, 7, none, 3],
  [3, none, 7, 5, 7],
  [3, 0, 7, none, 3],
  [3, none, 7, 0, 7],
  [3, 0, 7, 5, 3],
  [3, 5, 7, 0, 7],
  [-4, 2, 6, 8, -2],
  [0.1, 2, 0.1, 3, 0.1],
  [0.2, none, 0.1, 5, 0.1],
  [0.7, 11, 0.7, 13, 0.7],
  [5, none, 0, 4, 0],
  [0, 4, 5, none, 0],
];

function started(turned: boolean, start?: StartVoltages) {
  const count = CASES.length;
  const of = (k: 0 | 1 | 2 | 3) => Float64Array.from(CASES, (one) => one[k]);
  const near = { voltage: of(0), resistance: of(1) };
  const far = { voltage: of(2), resistance: of(3) };
  const [rows, columns] = turned ? [3, count] : [count, 3];
  const problem: CrossbarProblem = {
    ...{ rows, columns, rowResistance: 1, columnResistance: 1 },
    junctions: { conductance: new Float64Array(rows * columns).fill(1e-3) },
    terminals: turned ? { top: near, bottom: far } : { left: near, right: far },
  };
  const engine = makeEngine(problem, start === undefined ? {} : { start });
  const { m, n } = engine.shape;
  const list = (view: Float64Array) =>
    Array.from({ length: rows * columns }, (_, k) => {
      const [i, j] = [Math.floor(k / columns), k % columns];
      return view[(m - rows + i) * n + n - columns + j]!;
    });
  return { rows: list(engine.x.uh.view), columns: list(engine.x.wh.view) };
}

test("a line starts at the voltage that its terminals give it while nothing flows, and floats in the middle", () => {
  // The voltages of the lines reach from -4 + 2 = -2 V to 7 V; what floats starts at their middle, 2.5 V.
  const floats = (-2 + 7) / 2;
  const count = CASES.length;
  const rows = started(false);
  const columns = started(true);
  CASES.forEach(([v0, r0, v1, r1, own], k) => {
    const start = Number.isNaN(r0) && Number.isNaN(r1) ? floats : own;
    const nodes = [r0 === 0 ? v0 : start, start, r1 === 0 ? v1 : start];
    nodes.forEach((v, j) => {
      expect(rows.rows[3 * k + j]).toBe(v);
      expect(columns.columns[count * j + k]).toBe(v);
    });
  });
  expect(rows.columns).toEqual(new Array(3 * count).fill(floats));
  expect(columns.rows).toEqual(new Array(3 * count).fill(floats));
});

test("a line between two ideal sources starts in the middle of them", () => {
  const problem: CrossbarProblem = {
    ...{ rows: 1, columns: 4, rowResistance: 1, columnResistance: 1 },
    junctions: { conductance: new Float64Array(4).fill(1e-3) },
    terminals: {
      left: { voltage: Float64Array.of(1), resistance: Float64Array.of(0) },
      right: { voltage: Float64Array.of(4), resistance: Float64Array.of(0) },
    },
  };
  const { x, shape } = makeEngine(problem, {});
  expect([...x.uh.view.subarray((shape.m - 1) * shape.n)]).toEqual([1, 2.5, 2.5, 4]);
});

test("given voltages are taken as they are, but for nodes that an ideal source holds", () => {
  const size = 3 * CASES.length;
  const start = {
    rowVoltages: Float64Array.from({ length: size }, (_, k) => 100 + k),
    columnVoltages: Float64Array.from({ length: size }, (_, k) => 200 + k),
  };
  const { rows, columns } = started(false, start);
  expect(columns).toEqual([...start.columnVoltages]);
  CASES.forEach(([v0, r0, v1, r1], k) => {
    const given = [...start.rowVoltages.subarray(3 * k, 3 * k + 3)];
    expect(rows.slice(3 * k, 3 * k + 3)).toEqual([
      r0 === 0 ? v0 : given[0],
      given[1],
      r1 === 0 ? v1 : given[2],
    ]);
  });
  const turned = started(true, start);
  expect(turned.rows).toEqual([...start.rowVoltages]);
  CASES.forEach(([v0, r0], k) => {
    expect(turned.columns[k]).toBe(r0 === 0 ? v0 : 200 + k);
  });
});

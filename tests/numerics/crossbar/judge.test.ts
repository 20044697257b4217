/** Kirchhoff's law as the solver judges it, node by node, against the law written out (the sum of currents is zero). */
import { expect, test } from "vitest";
import { makeEngine } from "../../../src/numerics/crossbar/engine.ts";
import type { CrossbarProblem, TerminalSide } from "../../../src/numerics/crossbar/problem.ts";
import { refine } from "../../../src/numerics/crossbar/refine.ts";
import { ohmic, side, solved } from "./build.ts";

/** Part of its current by which one junction is put wrong. */
const WRONG = 0.125;

interface Line {
  /** Of the line's nodes [V], and through its junctions [A]. */
  readonly volts: readonly number[];
  readonly currents: readonly number[];
  readonly resistance: number;
  readonly ends: readonly [number, number];
  readonly volt: readonly [number, number];
}

/** The relative error that a wrong current at node k leaves on its line. */
function errorOn(line: Line, k: number): number {
  const { volts, currents, resistance, ends, volt } = line;
  const last = volts.length - 1;
  const through = ([0, last] as const).map((node, end) =>
    Number.isNaN(ends[end]!) || ends[end] === 0 ? 0 : (volt[end]! - volts[node]!) / ends[end]!,
  );
  const wrong = Math.abs(WRONG * currents[k]!);
  const size = (list: readonly number[]) => list.reduce((sum, x) => sum + Math.abs(x), 0);
  if (resistance === 0 || last === 0) {
    return ends.includes(0) ? 0 : wrong / (size(currents) + wrong + size(through));
  }
  if ((k === 0 && ends[0] === 0) || (k === last && ends[1] === 0)) return 0;
  const around = [currents[k]! * (1 + WRONG)];
  if (k > 0) around.push((volts[k - 1]! - volts[k]!) / resistance);
  else around.push(through[0]!);
  if (k < last) around.push((volts[k]! - volts[k + 1]!) / resistance);
  else around.push(through[1]!);
  return wrong / size(around);
}

function lineOf(p: CrossbarProblem, of: "row" | "column", at: number): Line {
  const { rowVoltages, columnVoltages, junctionCurrents } = solved(p);
  const { left, right, top, bottom } = p.terminals;
  const [count, first, step] =
    of === "row" ? [p.columns, at * p.columns, 1] : [p.rows, at, p.columns];
  const along = (list: Float64Array) =>
    Array.from({ length: count }, (_, k) => list[first + k * step]!);
  const ohms = (one?: TerminalSide) => one?.resistance[at] ?? Number.NaN;
  const volts = (one?: TerminalSide) => one?.voltage[at] ?? 0;
  const [near, far] = of === "row" ? [left, right] : [top, bottom];
  return {
    volts: along(of === "row" ? rowVoltages : columnVoltages),
    currents: along(junctionCurrents),
    resistance: of === "row" ? p.rowResistance : p.columnResistance,
    ends: [ohms(near), ohms(far)],
    volt: [volts(near), volts(far)],
  };
}

/** Every third line floats, if lines may. */
const some = (ideal: number, floats: boolean) => (k: number) =>
  k === ideal ? 0 : floats && k % 3 === 2 ? Number.NaN : 40 + k;
const PROBLEMS = [
  [3, 4, 20, 50],
  [4, 3, 50, 20],
  [5, 6, 1e4, 1e-2],
  [5, 6, 1e-2, 1e4],
  [3, 4, 0, 20],
  [4, 3, 20, 0],
  [1, 4, 20, 20],
  [4, 1, 20, 20],
  [2, 2, 20, 20],
] as const;

test.each(PROBLEMS)("%i x %i, wires of %d and %d ohm", (rows, columns, row, column) => {
  for (const [a, b] of [
    [-1, -1],
    [0, -1],
    [-1, 1],
    [1, 0],
  ] as const) {
    // A floating line of one junction carries nothing, which has no relative error.
    const floats = rows > 1 && columns > 1;
    const p: CrossbarProblem = {
      ...ohmic({ rows, columns, r: 1, decades: [3, 4], seed: 10 * rows + columns }),
      ...{ rowResistance: row, columnResistance: column },
      terminals: {
        left: side(rows, (k) => 1 + k, some(a, floats)),
        right: side(rows, (k) => 2 * k, some(row === 0 || columns === 1 ? -1 : b, floats)),
        top: side(columns, (k) => -k, some(b, floats)),
        bottom: side(columns, (k) => -1 - k, some(column === 0 || rows === 1 ? -1 : a, floats)),
      },
    };
    const rowLines = Array.from({ length: rows }, (_, i) => lineOf(p, "row", i));
    const columnLines = Array.from({ length: columns }, (_, j) => lineOf(p, "column", j));
    // After those, as there is one memory for all.
    const engine = makeEngine(p, {});
    expect(refine(engine, 100).done).toBe(true);
    const { m, n } = engine.shape;
    for (let i = 0; i < rows; i++) {
      for (let j = 0; j < columns; j++) {
        engine.evaluate();
        const k = (m - rows + i) * n + n - columns + j;
        engine.current.view[k]! *= 1 + WRONG;
        const want = Math.max(errorOn(rowLines[i]!, j), errorOn(columnLines[j]!, i));
        const off = Math.abs(engine.judge() - want);
        expect(off, `${i}, ${j}`).toBeLessThanOrEqual(1e-9 * want + 1e-13);
      }
    }
  }
});

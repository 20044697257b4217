/** Terminals on all four sides against elimination by a general-purpose library, which knows nodes and conductances. */
import { lusolve } from "mathjs";
import { expect, test } from "vitest";
import type { CrossbarProblem, SideName } from "../../../src/numerics/crossbar/problem.ts";
import { solved, stream } from "./build.ts";

interface Reference {
  readonly voltages: readonly number[];
  readonly terminals: Record<SideName, number[]>;
}

/** Row nodes first, then column nodes. An ideal source has a conductance beside which all others vanish. */
function reference(p: CrossbarProblem): Reference {
  const { rows: m, columns: n } = p;
  if (!("conductance" in p.junctions)) throw new Error("ohmic only");
  const count = 2 * m * n;
  const matrix = Array.from({ length: count }, () => new Array<number>(count).fill(0));
  const right = new Array<number>(count).fill(0);
  const join = (a: number, b: number, g: number) => {
    matrix[a]![a]! += g;
    matrix[b]![b]! += g;
    matrix[a]![b]! -= g;
    matrix[b]![a]! -= g;
  };
  const row = (i: number, j: number) => i * n + j;
  const column = (i: number, j: number) => m * n + i * n + j;
  for (let i = 0; i < m; i++) {
    for (let j = 0; j < n; j++) {
      join(row(i, j), column(i, j), p.junctions.conductance[i * n + j]!);
      if (j > 0) join(row(i, j - 1), row(i, j), 1 / p.rowResistance);
      if (i > 0) join(column(i - 1, j), column(i, j), 1 / p.columnResistance);
    }
  }
  const node: Record<SideName, (k: number) => number> = {
    left: (k) => row(k, 0),
    right: (k) => row(k, n - 1),
    top: (k) => column(0, k),
    bottom: (k) => column(m - 1, k),
  };
  const held = new Map<number, number>();
  const plain = matrix.map((line) => [...line]);
  const list: { side: SideName; k: number; at: number; volts: number; ohms: number }[] = [];
  for (const [side, { voltage, resistance }] of Object.entries(p.terminals)) {
    for (let k = 0; k < voltage.length; k++) {
      const [volts, ohms] = [voltage[k]!, resistance[k]!];
      if (Number.isNaN(ohms)) continue;
      const at = node[side as SideName](k);
      list.push({ side: side as SideName, k, at, volts, ohms });
      if (ohms === 0) held.set(at, volts);
      else {
        matrix[at]![at]! += 1 / ohms;
        right[at]! += volts / ohms;
      }
    }
  }
  for (const [at, volts] of held) {
    matrix[at]!.fill(0);
    matrix[at]![at] = 1;
    right[at] = volts;
  }
  const voltages = (lusolve(matrix, right) as number[][]).map(([v]) => v!);
  const terminals = {
    left: new Array<number>(m).fill(0),
    right: new Array<number>(m).fill(0),
    top: new Array<number>(n).fill(0),
    bottom: new Array<number>(n).fill(0),
  };
  const into = new Map<number, number>();
  for (const { at, volts, ohms } of list) {
    if (ohms > 0) into.set(at, (into.get(at) ?? 0) + (volts - voltages[at]!) / ohms);
  }
  for (const { side, k, at, volts, ohms } of list) {
    // What an ideal source gives is what its node sends away, less what other sources send there.
    const away = plain[at]!.reduce((sum, g, b) => sum + g * voltages[b]!, 0) - (into.get(at) ?? 0);
    const own = ohms > 0 ? (volts - voltages[at]!) / ohms : away;
    terminals[side][k] = side === "left" || side === "right" ? own : -own;
  }
  return { voltages, terminals };
}

/** Sources on every side; `absent` is the share of lines without one, `ideal` of those without a resistance. */
function random(rows: number, columns: number, seed: number, absent: number, ideal: number) {
  const next = stream(seed);
  const side = (count: number) => ({
    voltage: Float64Array.from({ length: count }, () => 4 * next() - 2),
    resistance: Float64Array.from({ length: count }, () => {
      const dice = next();
      if (dice < absent) return Number.NaN;
      return next() < ideal ? 0 : 10 + 200 * next();
    }),
  });
  return {
    rows,
    columns,
    rowResistance: 3 + 10 * next(),
    columnResistance: 2 + 20 * next(),
    junctions: {
      conductance: Float64Array.from({ length: rows * columns }, () => 10 ** (-2 - 3 * next())),
    },
    terminals: { left: side(rows), right: side(rows), top: side(columns), bottom: side(columns) },
  };
}

function expectNear(got: ArrayLike<number>, want: ArrayLike<number>, what: string): void {
  const scale = Math.max(...Array.from(want, Math.abs));
  expect(got.length).toBe(want.length);
  for (let k = 0; k < want.length; k++) {
    expect(Math.abs(got[k]! - want[k]!), `${what} ${k}`).toBeLessThanOrEqual(1e-10 * scale);
  }
}

test.each([
  [1, 1, 0],
  [1, 5, 0],
  [6, 1, 0],
  [2, 3, 0],
  [4, 4, 0],
  [5, 7, 0],
  [9, 6, 0],
  [5, 7, 0.5],
  [9, 6, 0.5],
  [8, 8, 0.7],
])(
  "%i x %i with sources on all sides, %d of the lines' ends without one",
  (rows, columns, absent) => {
    for (const [seed, ideal] of [
      [1, 0],
      [2, 0],
      [3, 0.3],
      [4, 0.6],
    ] as const) {
      // Two ideal sources on a wire of one junction contradict each other.
      const share = rows === 1 || columns === 1 ? 0 : ideal;
      const p = random(rows, columns, 100 * rows + 10 * columns + seed, absent, share);
      const want = reference(p);
      const size = rows * columns;
      for (const method of ["line", "coarsened"] as const) {
        const got = solved(p, method);
        const { left, right, top, bottom } = want.terminals;
        expectNear(got.rowVoltages, want.voltages.slice(0, size), "row node");
        expectNear(got.columnVoltages, want.voltages.slice(size), "column node");
        for (const side of ["left", "right", "top", "bottom"] as const) {
          expectNear(got.terminalCurrents[side], want.terminals[side], side);
        }
        expectNear(
          got.rowCurrents,
          left.map((x, k) => x + right[k]!),
          "row",
        );
        expectNear(
          got.columnCurrents,
          top.map((x, k) => x + bottom[k]!),
          "column",
        );
        const drops = Array.from({ length: size }, (_, k) => {
          return want.voltages[k]! - want.voltages[size + k]!;
        });
        expectNear(got.junctionVoltages, drops, "junction");
        const g = p.junctions.conductance;
        expectNear(
          got.junctionCurrents,
          drops.map((v, k) => v * g[k]!),
          "junction current",
        );
        const burnt = drops.reduce((sum, v, k) => sum + v * v * g[k]!, 0);
        expect(Math.abs(got.power.junction / burnt - 1)).toBeLessThan(1e-9);
        let driver = 0;
        let source = 0;
        for (const side of ["left", "right", "top", "bottom"] as const) {
          const { voltage, resistance } = p.terminals[side];
          want.terminals[side].forEach((i, k) => {
            if (Number.isNaN(resistance[k]!)) return;
            driver += i * i * resistance[k]!;
            source += (side === "left" || side === "right" ? i : -i) * voltage[k]!;
          });
        }
        const all = Math.abs(source) + driver + burnt;
        expect(Math.abs(got.power.driver - driver)).toBeLessThan(1e-9 * all);
        expect(Math.abs(got.power.source - source)).toBeLessThan(1e-9 * all);
        expect(Math.abs(got.power.wire - (source - driver - burnt))).toBeLessThan(1e-9 * all);
      }
    }
  },
);

/**
 * The node equations of a linear crossbar in 64 decimal digits, solved by elimination along the band with the decimal
 * numbers of mathjs, a general-purpose library.
 */
import { all, type BigNumber, create } from "mathjs";
import type { CrossbarProblem, SideName } from "../../src/numerics/crossbar/problem.ts";

const math = create(all!, { number: "BigNumber", precision: 64 });
const big = (x: number): BigNumber => math.bignumber(x);
const ZERO = big(0);

export interface DenseSolution {
  readonly rowCurrents: number[];
  readonly columnCurrents: number[];
  readonly rowVoltages: number[];
  readonly columnVoltages: number[];
  readonly junctionVoltages: number[];
  readonly junctionCurrents: number[];
  readonly power: { source: number; junction: number; wire: number; driver: number };
}

/** Nodes are ordered row node, column node, junction by junction: the band is 2 * columns wide. */
export function solveDense(problem: CrossbarProblem): DenseSolution {
  const { rows: m, columns: n, junctions, terminals } = problem;
  if (!("conductance" in junctions)) throw new Error("ohmic junctions only");
  const size = 2 * m * n;
  const band = 2 * n;
  const a = Array.from({ length: size }, () => new Array<BigNumber>(band + 1).fill(ZERO));
  const b = new Array<BigNumber>(size).fill(ZERO);
  const node = (i: number, j: number, column: 0 | 1) => 2 * (i * n + j) + column;
  const join = (p: number, q: number, g: BigNumber) => {
    const [low, high] = [Math.min(p, q), Math.max(p, q)];
    a[low]![0] = a[low]![0]!.plus(g);
    a[high]![0] = a[high]![0]!.plus(g);
    a[low]![high - low] = a[low]![high - low]!.minus(g);
  };
  const gr = big(1).div(big(problem.rowResistance));
  const gc = big(1).div(big(problem.columnResistance));
  for (let i = 0; i < m; i++) {
    for (let j = 0; j < n; j++) {
      join(node(i, j, 0), node(i, j, 1), big(junctions.conductance[i * n + j]!));
      if (j < n - 1) join(node(i, j, 0), node(i, j + 1, 0), gr);
      if (i < m - 1) join(node(i, j, 1), node(i + 1, j, 1), gc);
    }
  }
  const ends: { side: SideName; line: number; at: number; g: BigNumber; v: BigNumber }[] = [];
  const places = {
    left: (k: number) => node(k, 0, 0),
    right: (k: number) => node(k, n - 1, 0),
    top: (k: number) => node(0, k, 1),
    bottom: (k: number) => node(m - 1, k, 1),
  };
  for (const side of ["left", "right", "top", "bottom"] as const) {
    terminals[side]?.resistance.forEach((r, line) => {
      if (Number.isNaN(r)) return;
      const g = big(1).div(big(r));
      const v = big(terminals[side]!.voltage[line]!);
      const at = places[side](line);
      ends.push({ side, line, at, g, v });
      a[at]![0] = a[at]![0]!.plus(g);
      b[at] = b[at]!.plus(g.times(v));
    });
  }
  const x = eliminate(a, b, band);
  const out = {
    rowCurrents: new Array<BigNumber>(m).fill(ZERO),
    columnCurrents: new Array<BigNumber>(n).fill(ZERO),
  };
  let [source, driver, junction, wire] = [ZERO, ZERO, ZERO, ZERO];
  for (const { side, line, at, g, v } of ends) {
    const i = g.times(v.minus(x[at]!));
    source = source.plus(v.times(i));
    driver = driver.plus(i.times(i).div(g));
    if (side === "left" || side === "right") out.rowCurrents[line] = out.rowCurrents[line]!.plus(i);
    else out.columnCurrents[line] = out.columnCurrents[line]!.minus(i);
  }
  const junctionVoltages: BigNumber[] = [];
  const junctionCurrents: BigNumber[] = [];
  for (let i = 0; i < m; i++) {
    for (let j = 0; j < n; j++) {
      const v = x[node(i, j, 0)]!.minus(x[node(i, j, 1)]!);
      const current = v.times(big(junctions.conductance[i * n + j]!));
      junctionVoltages.push(v);
      junctionCurrents.push(current);
      junction = junction.plus(v.times(current));
      const drop = (p: number, q: number, g: BigNumber) => {
        const d = x[p]!.minus(x[q]!);
        wire = wire.plus(d.times(d).times(g));
      };
      if (j < n - 1) drop(node(i, j, 0), node(i, j + 1, 0), gr);
      if (i < m - 1) drop(node(i, j, 1), node(i + 1, j, 1), gc);
    }
  }
  const plain = (list: BigNumber[]) => list.map((v) => v.toNumber());
  return {
    rowCurrents: plain(out.rowCurrents),
    columnCurrents: plain(out.columnCurrents),
    rowVoltages: plain(x.filter((_, k) => k % 2 === 0)),
    columnVoltages: plain(x.filter((_, k) => k % 2 === 1)),
    junctionVoltages: plain(junctionVoltages),
    junctionCurrents: plain(junctionCurrents),
    power: {
      source: source.toNumber(),
      junction: junction.toNumber(),
      wire: wire.toNumber(),
      driver: driver.toNumber(),
    },
  };
}

/** Symmetric elimination without exchange; row p holds a[p][0..band] from the diagonal on. */
function eliminate(a: BigNumber[][], b: BigNumber[], band: number): BigNumber[] {
  const size = b.length;
  for (let p = 0; p < size; p++) {
    const pivot = a[p]![0]!;
    for (let k = 1; k <= band && p + k < size; k++) {
      const entry = a[p]![k]!;
      if (entry.isZero()) continue;
      const factor = entry.div(pivot);
      for (let l = k; l <= band && p + l < size; l++) {
        a[p + k]![l - k] = a[p + k]![l - k]!.minus(factor.times(a[p]![l]!));
      }
      b[p + k] = b[p + k]!.minus(factor.times(b[p]!));
    }
  }
  const x = new Array<BigNumber>(size).fill(ZERO);
  for (let p = size - 1; p >= 0; p--) {
    let rest = b[p]!;
    for (let k = 1; k <= band && p + k < size; k++) rest = rest.minus(a[p]![k]!.times(x[p + k]!));
    x[p] = rest.div(a[p]![0]!);
  }
  return x;
}

/** The conductors of a crossbar one by one, as Kirchhoff's law sees them: what arrays of nodes are checked against. */
import type { CrossbarProblem, TerminalSide } from "../../../src/numerics/crossbar/problem.ts";
import { type Network, networkOf } from "../../../src/numerics/crossbar/state.ts";
import { stream } from "./build.ts";

/** Between node `a` and node `b`, or a source of that voltage. */
export interface Conductor {
  readonly a: number;
  readonly b: number | undefined;
  readonly conductance: number;
  readonly voltage: number;
  readonly junction: boolean;
}

export interface Crossbar {
  readonly problem: CrossbarProblem;
  readonly network: Network;
  readonly slopes: readonly number[];
  readonly conductors: readonly Conductor[];
  /** Nodes that an ideal source holds, over the whole line where its wire has no resistance. */
  readonly held: ReadonlySet<number>;
  /** The node that stands for a node: the first of its line where the wire has no resistance. */
  readonly first: (node: number) => number;
  /** Where a node's value stands in the padded arrays. */
  readonly place: (node: number) => number;
}

/** Row nodes are counted first, then column nodes, both row by row. */
export function crossbar(
  rows: number,
  columns: number,
  rowResistance: number,
  columnResistance: number,
  seed: number,
): Crossbar {
  const next = stream(seed);
  for (let k = 0; k < 5; k++) next();
  const count = rows * columns;
  const slopes = Array.from({ length: count }, () => 10 ** (-3 - 6 * next()));
  // Open, ideal and with resistance in turn.
  const side = (lines: number, shift: number): TerminalSide => ({
    voltage: Float64Array.from({ length: lines }, () => 2 * next() - 1),
    resistance: Float64Array.from({ length: lines }, (_, k) =>
      (k + shift) % 3 === 0 ? Number.NaN : (k + shift) % 3 === 1 ? 0 : 10 + 100 * next(),
    ),
  });
  const terminals = {
    left: side(rows, seed),
    right: side(rows, seed + 2),
    top: side(columns, seed + 1),
    bottom: side(columns, seed + 2),
  };
  const problem: CrossbarProblem = {
    ...{ rows, columns, rowResistance, columnResistance, terminals },
    junctions: { conductance: Float64Array.from(slopes) },
  };
  const u = (i: number, j: number) => i * columns + j;
  const w = (i: number, j: number) => count + i * columns + j;
  const conductors: Conductor[] = [];
  const held = new Set<number>();
  const add = (a: number, b: number | undefined, conductance: number, voltage = 0) => {
    conductors.push({ a, b, conductance, voltage, junction: false });
  };
  slopes.forEach((conductance, k) => {
    conductors.push({ a: k, b: count + k, conductance, voltage: 0, junction: true });
  });
  const end = (line: readonly number[], node: number, terminal: TerminalSide, k: number) => {
    const resistance = terminal.resistance[k]!;
    if (resistance === 0) for (const one of line) held.add(one);
    else if (!Number.isNaN(resistance)) add(node, undefined, 1 / resistance, terminal.voltage[k]!);
  };
  const wire = (
    line: readonly number[],
    resistance: number,
    [near, far]: readonly [TerminalSide, TerminalSide],
    k: number,
  ) => {
    const [from, to] = [line[0]!, line.at(-1)!];
    end(resistance > 0 ? [from] : line, from, near, k);
    end(resistance > 0 ? [to] : line, to, far, k);
    for (let at = 1; at < line.length && resistance > 0; at++) {
      add(line[at - 1]!, line[at]!, 1 / resistance);
    }
  };
  const range = (length: number) => Array.from({ length }, (_, k) => k);
  for (const i of range(rows)) {
    const line = range(columns).map((j) => u(i, j));
    wire(line, rowResistance, [terminals.left, terminals.right], i);
  }
  for (const j of range(columns)) {
    const line = range(rows).map((i) => w(i, j));
    wire(line, columnResistance, [terminals.top, terminals.bottom], j);
  }
  const network = networkOf(problem);
  const { n, top, left } = network.shape;
  const at = (k: number) => (Math.floor(k / columns) + top) * n + (k % columns) + left;
  return {
    ...{ problem, network, slopes, conductors, held },
    first: (node) => {
      if (node < count) return rowResistance > 0 ? node : node - (node % columns);
      return columnResistance > 0 ? node : count + (node % columns);
    },
    place: (node) => at(node % count),
  };
}

/** Values of all nodes, row nodes first, in the padded arrays. */
export function scatter({ network, place }: Crossbar, values: readonly number[]) {
  const { m, n } = network.shape;
  const out = { u: new Float64Array(m * n), w: new Float64Array(m * n) };
  values.forEach((v, node) => {
    (node < values.length / 2 ? out.u : out.w)[place(node)] = v;
  });
  return out;
}

/** Source of the references: mathjs, a general-purpose library, in 64 decimal digits. */
import { all, type BigNumber, create } from "mathjs";
import { expect, test } from "vitest";
import { factorDirectly, nodesOf } from "../../../src/numerics/crossbar/direct.ts";
import { stream } from "./build.ts";
import { type Crossbar, crossbar, scatter } from "./conductors.ts";

// Comparisons of the library are exact only so: its tolerances drop what is below 1e-15.
const math = create(all!, { number: "BigNumber", precision: 64, relTol: 1e-60, absTol: 1e-300 });

/** Voltages of all nodes for currents into them, all sources at zero. */
function reference({ conductors, held, first }: Crossbar, currents: readonly number[]): number[] {
  const nodes = [...new Set(currents.map((_, node) => first(node)))].filter((n) => !held.has(n));
  const number = new Map(nodes.map((node, k) => [node, k]));
  const zero = math.bignumber(0);
  const matrix = nodes.map(() => new Array<BigNumber>(nodes.length).fill(zero));
  const right = new Array<BigNumber>(nodes.length).fill(zero);
  for (const { a, b, conductance } of conductors) {
    const g = math.bignumber(conductance);
    const ends = [a, b].map((node) => (node === undefined ? undefined : number.get(first(node))));
    for (const [k, own] of ends.entries()) {
      if (own === undefined) continue;
      const other = ends[1 - k];
      matrix[own]![own] = matrix[own]![own]!.plus(g);
      if (other !== undefined) matrix[own]![other] = matrix[own]![other]!.minus(g);
    }
  }
  currents.forEach((current, node) => {
    const k = number.get(first(node));
    if (k !== undefined) right[k] = right[k]!.plus(current);
  });
  const solution = math.lusolve(matrix, right) as unknown as BigNumber[][];
  return currents.map((_, node) => {
    const k = number.get(first(node));
    return k === undefined ? 0 : solution[k]![0]!.toNumber();
  });
}

test.each([
  [3, 2, 1e-3, 1e5],
  [2, 3, 5, 0],
  [3, 4, 0, 7],
  [4, 3, 0, 0],
  [1, 5, 2, 3],
  [5, 1, 2, 3],
])(
  "steps of %i x %i crossbars with wires of %d and %d ohm are right to 1e-13",
  (rows, columns, rowResistance, columnResistance) => {
    for (const seed of [1, 2, 3]) {
      const made = crossbar(rows, columns, rowResistance, columnResistance, seed);
      const { network, slopes, place } = made;
      const next = stream(seed);
      const currents = Array.from({ length: 2 * rows * columns }, () => next());
      const slope = scatter(made, [...slopes, ...slopes]).u;
      const steps = scatter(made, new Array(currents.length).fill(Number.NaN));
      const solve = factorDirectly(network, slope);
      // Twice, since the factors are used again.
      solve(scatter(made, [...currents].reverse()), steps);
      solve(scatter(made, currents), steps);
      reference(made, currents).forEach((want, node) => {
        const got = (node < currents.length / 2 ? steps.u : steps.w)[place(node)]!;
        if (want === 0) expect(got).toBe(0);
        else expect(Math.abs(got / want - 1)).toBeLessThan(1e-13);
      });
    }
  },
);

test("a line without resistance is one node", () => {
  const nodes = (rowResistance: number, columnResistance: number) =>
    nodesOf(crossbar(3, 5, rowResistance, columnResistance, 1).network);
  expect(nodes(1, 1)).toBe(30);
  expect(nodes(0, 1)).toBe(3 + 15);
  expect(nodes(1, 0)).toBe(15 + 5);
  expect(nodes(0, 0)).toBe(3 + 5);
});

/** Source of the references: mathjs, a general-purpose library, in 64 decimal digits. */
import { all, type BigNumber, create } from "mathjs";
import { describe, expect, test } from "vitest";
import { StarMesh } from "../../../src/numerics/crossbar/star-mesh.ts";
import { stream } from "./build.ts";

// Comparisons of the library are exact only so: its tolerances drop what is below 1e-15.
const math = create(all!, { number: "BigNumber", precision: 64, relTol: 1e-60, absTol: 1e-300 });

type Link = readonly [a: number, b: number, conductance: number];

/** Voltages of the nodes; links to node -1 go to the reference. */
function bySixtyFourDigits(
  nodes: number,
  links: readonly Link[],
  currents: readonly number[],
): number[] {
  const zero = math.bignumber(0);
  const matrix = Array.from({ length: nodes }, () => new Array<BigNumber>(nodes).fill(zero));
  for (const [a, b, conductance] of links) {
    const g = math.bignumber(conductance);
    matrix[a]![a] = matrix[a]![a]!.plus(g);
    if (b < 0) continue;
    matrix[b]![b] = matrix[b]![b]!.plus(g);
    matrix[a]![b] = matrix[a]![b]!.minus(g);
    matrix[b]![a] = matrix[b]![a]!.minus(g);
  }
  const right = currents.map((current) => math.bignumber(current));
  return (math.lusolve(matrix, right) as unknown as BigNumber[][]).map(([v]) => v!.toNumber());
}

function byElimination(
  nodes: number,
  links: readonly Link[],
  currents: readonly number[],
): Float64Array {
  const mesh = new StarMesh(nodes);
  for (const [a, b, conductance] of links) {
    if (b < 0) mesh.tie(a, conductance);
    else mesh.join(a, b, conductance);
  }
  mesh.factor();
  const values = Float64Array.from(currents);
  mesh.solve(values);
  return values;
}

test("a star of conductances from 1e-15 to 1e15 S has the voltages of its divider", () => {
  const links = [-15, -5, 0, 5, 15].map((power, k): Link => [k + 1, 0, 10 ** power]);
  const currents = [0, 1e-15, 1e-5, 1, 1e5, 1e15];
  const sum = currents.reduce((a, b) => a + b);
  const got = byElimination(6, [...links, [0, -1, 1e-3]], currents);
  const centre = sum / 1e-3;
  currents.forEach((current, k) => {
    const want = centre + (k === 0 ? 0 : current / links[k - 1]![2]);
    expect(Math.abs(got[k]! - want) / want).toBeLessThan(4e-15);
  });
});

describe("random networks over 30 decades", () => {
  test.each([1, 2, 3, 4, 5, 6, 7, 8])(
    "answers to positive currents are right to 1e-13, seed %i",
    (seed) => {
      const next = stream(seed);
      for (let k = 0; k < 5; k++) next();
      const nodes = 12;
      const links: Link[] = [[seed % nodes, -1, 1e-15]];
      for (let a = 1; a < nodes; a++) {
        links.push([Math.floor(next() * a), a, 10 ** (15 - 30 * next())]);
        if (next() < 0.7) links.push([Math.floor(next() * a), a, 10 ** (15 - 30 * next())]);
      }
      const currents = Array.from({ length: nodes }, () => next());
      const want = bySixtyFourDigits(nodes, links, currents);
      byElimination(nodes, links, currents).forEach((v, k) => {
        expect(Math.abs(v - want[k]!) / want[k]!).toBeLessThan(1e-13);
      });
    },
  );
});

test("a held node stays at the reference, and ties its neighbours to it", () => {
  const mesh = new StarMesh(3);
  mesh.join(0, 1, 2);
  mesh.join(1, 2, 3);
  mesh.hold(0);
  mesh.factor();
  const values = Float64Array.of(0, 0, 6);
  mesh.solve(values);
  // 6 A through 3 S and then 2 S: 3 V at the middle, 5 V at the end.
  expect([...values]).toEqual([0, 3, 5]);
});

test("what nothing joins stays at the reference", () => {
  const mesh = new StarMesh(2);
  mesh.tie(1, 4);
  mesh.join(0, 1, 0);
  mesh.factor();
  const values = Float64Array.of(1, 8);
  mesh.solve(values);
  expect([...values]).toEqual([0, 2]);
});

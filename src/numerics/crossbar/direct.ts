/** The linearised network of a crossbar for the star–mesh transformation: slow, and right for far conductances. */
import { StarMesh } from "./star-mesh.ts";
import type { Network } from "./state.ts";

/** Nodes up to which a network is solved so. */
export const MOST_NODES = 8192;

/** Values of the row nodes and of the column nodes, padded like the network. */
export interface NodeValues {
  readonly u: Float64Array;
  readonly w: Float64Array;
}

/** Steps of all potentials [V] for the currents that are missing at every node [A]. */
export type DirectSolve = (missing: NodeValues, steps: NodeValues) => void;

/** Nodes of a network; a line without resistance is one. */
export function nodesOf({ shape, rowResistance, columnResistance }: Network): number {
  const [rows, columns] = [shape.m - shape.top, shape.n - shape.left];
  return rows * (rowResistance > 0 ? columns : 1) + columns * (columnResistance > 0 ? rows : 1);
}

/**
 * Factors a network.
 *
 * @param slope conductance of every junction [S], padded like the network
 */
export function factorDirectly(network: Network, slope: Float64Array): DirectSolve {
  const { shape, ends, rowResistance, columnResistance } = network;
  const { m, n, top, left } = shape;
  const [rows, columns] = [m - top, n - left];
  const rowNodes = rowResistance > 0 ? rows * columns : rows;
  const u = (i: number, j: number) =>
    rowResistance > 0 ? (i - top) * columns + j - left : i - top;
  const w = (i: number, j: number) =>
    rowNodes + (columnResistance > 0 ? (i - top) * columns + j - left : j - left);
  const mesh = new StarMesh(nodesOf(network));
  const held = new Set<number>();
  const end = (node: number, conductance: number) => {
    if (conductance === Infinity) held.add(node);
    else mesh.tie(node, conductance);
  };
  for (let i = top; i < m; i++) {
    for (let j = left; j < n; j++) {
      mesh.join(u(i, j), w(i, j), slope[i * n + j]!);
      if (rowResistance > 0 && j > left) mesh.join(u(i, j - 1), u(i, j), 1 / rowResistance);
      if (columnResistance > 0 && i > top) mesh.join(w(i - 1, j), w(i, j), 1 / columnResistance);
    }
    end(u(i, left), ends.left[i]!);
    end(u(i, n - 1), ends.right[i]!);
  }
  for (let j = left; j < n; j++) {
    end(w(top, j), ends.top[j]!);
    end(w(m - 1, j), ends.bottom[j]!);
  }
  for (const node of held) mesh.hold(node);
  mesh.factor();
  const values = new Float64Array(nodesOf(network));
  return (missing, steps) => {
    values.fill(0);
    for (let i = top; i < m; i++) {
      for (let j = left; j < n; j++) {
        values[u(i, j)]! += missing.u[i * n + j]!;
        values[w(i, j)]! += missing.w[i * n + j]!;
      }
    }
    for (const node of held) values[node] = 0;
    mesh.solve(values);
    for (let i = top; i < m; i++) {
      for (let j = left; j < n; j++) {
        steps.u[i * n + j] = values[u(i, j)]!;
        steps.w[i * n + j] = values[w(i, j)]!;
      }
    }
  };
}

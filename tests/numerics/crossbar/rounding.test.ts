/** Currents at nodes against a list of all conductors, each with Ohm's law by itself. */
import { describe, expect, test } from "vitest";
import type { Block } from "../../../src/numerics/crossbar/kernels/instance.ts";
import {
  largestError,
  roundedOff,
  sizesOf,
  stirred,
} from "../../../src/numerics/crossbar/rounding.ts";
import { stream } from "./build.ts";
import { type Crossbar, crossbar, scatter } from "./conductors.ts";

/** Random potentials as pairs of doubles, junction currents of their own, steps and missing currents. */
function drawn(made: Crossbar, seed: number) {
  const { rows, columns } = made.problem;
  const count = rows * columns;
  const next = stream(seed);
  const draw = (length: number) => Array.from({ length }, () => 2 * next() - 1);
  const [high, low, steps] = [draw(2 * count), draw(2 * count), draw(2 * count)];
  const [v, current, missing] = [draw(count), draw(count), draw(2 * count)];
  const block = (view: Float64Array) => ({ view }) as unknown as Block;
  const [h, l] = [scatter(made, high), scatter(made, low)];
  const spread = (values: readonly number[]) => scatter(made, [...values, ...values]).u;
  return {
    ...{ steps, v, current, missing },
    potential: high.map((value, node) => value + low[node]!),
    x: { uh: block(h.u), ul: block(l.u), wh: block(h.w), wl: block(l.w) },
    junctions: { v: spread(v), current: spread(current), slope: spread(made.slopes) },
  };
}

/** The sum at every node of what each conductor adds there. */
function summed(made: Crossbar, part: (index: number) => number): number[] {
  const out = new Array<number>(2 * made.slopes.length).fill(0);
  made.conductors.forEach(({ a, b }, index) => {
    out[a]! += part(index);
    if (b !== undefined) out[b]! += part(index);
  });
  return out;
}

const gathered = (made: Crossbar, { u, w }: { u: Float64Array; w: Float64Array }) =>
  Array.from({ length: 2 * made.slopes.length }, (_, node) =>
    node < made.slopes.length ? u[made.place(node)]! : w[made.place(node)]!,
  );

function expectSame(got: readonly number[], want: readonly number[]): void {
  expect(got).toHaveLength(want.length);
  want.forEach((value, node) => {
    if (value === 0) expect(got[node]).toBe(0);
    else expect(Math.abs(got[node]! / value - 1)).toBeLessThan(1e-14);
  });
}

const CASES = [
  [3, 2, 0.5, 20],
  [2, 3, 5, 0],
  [3, 4, 0, 7],
  [4, 3, 0, 0],
  [1, 5, 2, 3],
  [5, 1, 2, 3],
] as const;

describe.each(CASES)("%i x %i junctions between wires of %d and %d ohm", (...shape) => {
  const cases = [1, 2, 3].map((seed) => {
    const made = crossbar(...shape, seed);
    const values = drawn(made, seed);
    const sizes = summed(made, (index) => {
      const { a, b, conductance, voltage, junction } = made.conductors[index]!;
      if (junction) return Math.abs(values.current[index]!);
      const across = values.potential[a]! - (b === undefined ? voltage : values.potential[b]!);
      return conductance * Math.abs(across);
    });
    const stir = summed(made, (index) => {
      const { a, b, conductance } = made.conductors[index]!;
      const other = b === undefined ? 0 : Math.abs(values.steps[b]!);
      return conductance * (Math.abs(values.steps[a]!) + other);
    });
    return { made, values, sizes, stir };
  });

  test("currents at a node are those of all its conductors", () => {
    for (const { made, values, sizes } of cases) {
      expectSame(gathered(made, sizesOf(made.network, values.x, values.junctions)), sizes);
    }
  });

  test("2^-50 of a node's currents may be rounded off, and of its junction's voltage", () => {
    for (const { made, values, sizes } of cases) {
      const { network, slopes, held } = made;
      const want = sizes.map((size, node) => {
        const k = node % slopes.length;
        return held.has(node) ? 0 : 2 ** -50 * (size + slopes[k]! * Math.abs(values.v[k]!));
      });
      const off = roundedOff(network, values.x, values.junctions, scatter(made, sizes));
      expectSame(gathered(made, off), want);
    }
  });

  test("a step stirs up its voltage times the conductance of all that it reaches", () => {
    for (const { made, values, stir } of cases) {
      const steps = scatter(made, values.steps);
      expectSame(gathered(made, stirred(made.network, values.x, values.junctions, steps)), stir);
    }
  });

  test("the worst node, or line without resistance, is found wherever it is", () => {
    for (const { made, values, sizes, stir } of cases) {
      const { network, held, first } = made;
      const [nothing, error] = [0.01, 0.5];
      const worst = (missing: readonly number[]) => {
        const args = [missing, sizes, stir].map((list) => scatter(made, list));
        return largestError(network, values.x, args[0]!, args[1]!, args[2]!, nothing, error);
      };
      const total = (list: readonly number[], node: number) =>
        list.reduce((sum, value, k) => (first(k) === first(node) ? sum + value : sum), 0);
      const part = (missing: readonly number[], node: number) =>
        held.has(first(node))
          ? 0
          : Math.abs(total(missing, node)) /
            (total(sizes, node) + total(stir, node) / error + nothing);
      values.missing.forEach((_, node) => {
        const single = values.missing.map((value, k) => (k === node ? value : 0));
        expect(worst(single)).toBeCloseTo(part(single, node), 14);
      });
      const parts = values.missing.map((_, node) => part(values.missing, node));
      expect(worst(values.missing) / Math.max(...parts)).toBeCloseTo(1, 13);
    }
  });
});

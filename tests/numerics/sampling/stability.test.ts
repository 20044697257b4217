/** JCGM 101:2008, 7.9.4, by its own formulas over the values that were drawn. */
import { describe, expect, test } from "vitest";
import {
  adaptiveMonteCarlo,
  type MonteCarloOptions,
  meanOf,
  RandomStream,
  shortestInterval,
  sorted,
  symmetricInterval,
  varianceOf,
} from "../../../src/numerics/index.ts";

/** Skew draws of two outputs of unlike spread. */
function run(options: MonteCarloOptions, shape = (u: number) => u * u) {
  const stream = new RandomStream(5, "draws");
  return adaptiveMonteCarlo(
    (start, count, [a, b]) => {
      for (let i = 0; i < count; i++) {
        a![i] = 3 + shape(stream.uniform(start + i));
        b![i] = 100 * shape(stream.uniform(1_000_000 + start + i));
      }
    },
    2,
    options,
  );
}

const INTERVALS = { symmetric: symmetricInterval, shortest: shortestInterval };

describe.each(["symmetric", "shortest"] as const)("with the %s interval", (interval) => {
  test.each([1, 2, 3, 5])("figures are those of all draws, from %i batches", (batches) => {
    const options = { interval, batch: 60, most: 60 * batches, digits: 3, probability: 0.9 };
    const { outputs, values, draws } = run(options);
    expect(draws).toBe(60 * batches);
    const find = INTERVALS[interval];
    outputs.forEach((output, k) => {
      const all = values[k]!;
      expect(output.mean / meanOf(all)).toBeCloseTo(1, 14);
      expect(output.uncertainty / Math.sqrt(varianceOf(all))).toBeCloseTo(1, 13);
      expect(output.interval).toEqual(find(sorted(all), 0.9));
      expect(output.stable).toBe(false);
      if (batches === 1) return;
      const parts = Array.from({ length: batches }, (_, i) => all.slice(60 * i, 60 * (i + 1)));
      const ends = parts.map((part) => find(sorted(part), 0.9));
      const figures = [
        parts.map((part) => meanOf(part)),
        parts.map((part) => Math.sqrt(varianceOf(part))),
        ends.map(({ low }) => low),
        ends.map(({ high }) => high),
      ];
      const errors = figures.map((series) => {
        const middle = meanOf(series);
        const sum = series.reduce((total, v) => total + (v - middle) ** 2, 0);
        return 2 * Math.sqrt(sum / (batches * (batches - 1)));
      });
      expect(output.unsteadiness / Math.max(...errors)).toBeCloseTo(1, 10);
      // Spreads of about 0.3 and 30: three digits are half a unit of 1e-3 and of 1e-1.
      expect(output.tolerance).toBe([0.0005, 0.05][k]);
    });
  });
});

test("intervals are symmetric, and two digits are asked for, unless said", () => {
  const { outputs, values } = run({ batch: 60, most: 120 });
  expect(outputs[0]!.interval).toEqual(symmetricInterval(sorted(values[0]!), 0.95));
  expect(outputs.map(({ tolerance }) => tolerance)).toEqual([0.005, 0.5]);
});

test("an interval of one's own is asked for with the output's number", () => {
  const asked = new Set<number>();
  const intervalOf = (rising: Float64Array, probability: number, output: number) => {
    asked.add(output);
    expect(probability).toBe(0.95);
    return { low: rising[0]!, high: output };
  };
  const { outputs, values } = run({ batch: 60, most: 120, intervalOf });
  expect([...asked]).toEqual([0, 1]);
  expect(outputs.map(({ interval }) => interval)).toEqual([
    { low: Math.min(...values[0]!), high: 0 },
    { low: Math.min(...values[1]!), high: 1 },
  ]);
});

test("outputs that never change are stable after two batches, and all outputs must be", () => {
  const still = run({ batch: 60, most: 600 }, () => 0.25);
  expect(still.draws).toBe(120);
  expect(still.outputs.map(({ stable }) => stable)).toEqual([true, true]);
  // One batch alone says nothing of stability.
  expect(run({ batch: 60, most: 60 }, () => 0.25).outputs[0]!.stable).toBe(false);
  const stream = new RandomStream(5, "draws");
  const mixed = adaptiveMonteCarlo(
    (start, count, [a, b]) => {
      a!.fill(7);
      for (let i = 0; i < count; i++) b![i] = stream.uniform(start + i);
    },
    2,
    { batch: 60, most: 600 },
  );
  expect(mixed.draws).toBe(600);
  expect(mixed.outputs.map(({ stable }) => stable)).toEqual([true, false]);
});

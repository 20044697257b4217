/** How much the adaptive procedure of JCGM 101:2008, 7.9.4, draws: batches of max(10^4, 100/(1 - p)), two at least. */
import { expect, test } from "vitest";
import { adaptiveMonteCarlo } from "../../../src/numerics/index.ts";
import { numericalTolerance } from "../../../src/numerics/sampling/monte-carlo.ts";

function run(options: Parameters<typeof adaptiveMonteCarlo>[2], spread = 0) {
  const calls: [start: number, count: number][] = [];
  const result = adaptiveMonteCarlo(
    (start, count, outputs) => {
      calls.push([start, count]);
      for (const column of outputs) {
        // A new mean for each batch: never stable, unless there is no spread.
        for (let i = 0; i < count; i++) column[i] = (i % 100) / 100 + spread * calls.length;
      }
    },
    2,
    options,
  );
  return { calls, result };
}

test("batches are of ten thousand draws, and of more for a probability near one", () => {
  expect(run({}).calls).toEqual([
    [0, 10_000],
    [10_000, 10_000],
  ]);
  expect(run({ probability: 0.98 }).calls[0]).toEqual([0, 10_000]);
  const [, count] = run({ probability: 0.999 }).calls[0]!;
  expect(Math.abs(count - 100_000)).toBeLessThanOrEqual(1);
});

test("two batches are the least, and the limit is never passed", () => {
  const { calls, result } = run({ batch: 500 });
  expect(calls).toEqual([
    [0, 500],
    [500, 500],
  ]);
  expect(result.draws).toBe(1000);
  expect(result.values).toHaveLength(2);
  expect(result.values[0]).toHaveLength(1000);
  expect(run({ batch: 500, most: 2400 }, 1).calls).toHaveLength(4);
  expect(run({ batch: 500, most: 2500 }, 1).calls).toHaveLength(5);
  expect(run({ batch: 500, most: 400 }, 1).calls).toHaveLength(1);
});

test("the tolerance is half a unit of the last digit: the examples of 7.9.2", () => {
  // u = 0.35 g: 35 x 10^-2, so that it is 0.005 g; 2 K with one digit: 0.5 K.
  expect(numericalTolerance(0.35, 2)).toBe(0.005);
  expect(numericalTolerance(2, 1)).toBe(0.5);
  expect(numericalTolerance(1000, 2)).toBe(50);
  expect(numericalTolerance(9.96, 2)).toBe(0.5);
  expect(numericalTolerance(9.94, 2)).toBe(0.05);
});

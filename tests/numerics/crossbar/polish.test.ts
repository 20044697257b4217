/** When the last steps of a solve end, over an engine whose residuals are given. */
import { expect, test } from "vitest";
import type { Engine } from "../../../src/numerics/crossbar/engine.ts";
import { Gains, polish } from "../../../src/numerics/crossbar/polish.ts";

/** An engine with these residuals after each step, the last for ever. */
function given(residuals: readonly number[], rounded: number) {
  const calls: string[] = [];
  let solves = 0;
  const engine = {
    solveExactly: () => {
      calls.push("solve");
      return 10 + solves;
    },
    advance: (share: number) => calls.push(`advance ${share}`),
    evaluate: () => calls.push("evaluate"),
    judge: () => residuals[Math.min(solves++, residuals.length - 1)]!,
    judgeRounded: (error: number) => {
      calls.push(`rounded ${error}`);
      return rounded;
    },
  };
  return { calls, engine: engine as unknown as Engine };
}

const BEFORE = { iterations: 100, solves: 7 };

test("whole steps until every node is clean, counted with those before", () => {
  const { calls, engine } = given([1e-9, 1e-11, 1e-12], 1);
  const end = polish(engine, BEFORE, 50);
  expect(end).toEqual({ done: true, residual: 1e-12, iterations: 133, solves: 10 });
  expect(calls.slice(0, 3)).toEqual(["solve", "advance 1", "evaluate"]);
  expect(calls).toHaveLength(9);
});

test("three steps in a row without half the residual are the last, and rounding is judged", () => {
  const { calls, engine } = given([1e-6, 0.51e-6, 4e-7, 3e-7, 2.1e-7, 2.05e-7, 2.04e-7], 1e-10);
  const end = polish(engine, BEFORE, 50);
  // Each is more than half of the least so far: 0.51 of 1, 0.4 of 0.51, 0.3 of 0.4.
  expect(end).toEqual({ done: true, residual: 1e-10, iterations: 146, solves: 11 });
  expect(calls.at(-1)).toBe("rounded 1e-12");
});

test("halves of the residual go on as long as there are any, up to the solves allowed", () => {
  const falling = Array.from({ length: 30 }, (_, k) => 1e-2 * 0.49 ** k);
  expect(polish(given(falling, 2e-10).engine, BEFORE, 15)).toEqual({
    ...{ done: false, residual: 2e-10, solves: 15 },
    iterations: 100 + 8 * 10 + 28,
  });
  expect(polish(given(falling, 2e-10).engine, BEFORE, 7)).toMatchObject({ solves: 7 });
});

test("a gain is half of the error or half of the residual, against the least so far", () => {
  const gains = new Gains();
  expect(gains.stuck(8, 8)).toBe(0);
  expect(gains.stuck(4, 4)).toBe(1);
  expect(gains.stuck(1.9, 9)).toBe(0);
  expect(gains.stuck(9, 1.9)).toBe(0);
  expect(gains.stuck(1, 1)).toBe(1);
  expect(gains.stuck(0.96, 0.96)).toBe(2);
  // Twice from the start, but not of the least.
  expect(gains.stuck(0.5, 0.5)).toBe(3);
  expect(gains.stuck(0.2, 0.5)).toBe(0);
});

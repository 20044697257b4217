/**
 * Resampled refits of a mean, in closed form: with residuals drawn again from the pool a refit's mean is the best value
 * less the mean of the drawn, its standard error their deviation over the root of their number.
 */
import { describe, expect, test } from "vitest";
import { TenfoldError } from "../../../src/errors/problem.ts";
import {
  fitLeastSquares,
  quantile,
  RandomStream,
  type Residuals,
  resampledIntervals,
  sorted,
} from "../../../src/numerics/index.ts";

const Y = [1.1, 2.3, 2.9, 4.2, 5.1, 5.9, 7.4];
const mean = (values: readonly number[]) => values.reduce((a, b) => a + b) / values.length;
const level: Residuals = ([a]) => Y.map((v) => a! - v);

test.each([undefined, 0.8])("intervals are those of Student's ratios, confidence %s", (given) => {
  const fit = fitLeastSquares(level, [4]);
  const pool = Y.map((v) => mean(Y) - v);
  const stream = RandomStream.of(7, "refits");
  const n = Y.length;
  const ratios = Array.from({ length: 60 }, (_, trial) => {
    const drawn = Y.map((_v, i) => pool[Math.floor(n * stream.uniform(n * trial + i))]!);
    const middle = mean(drawn);
    const variance = drawn.reduce((sum, d) => sum + (d - middle) ** 2, 0) / (n - 1);
    return -middle / Math.sqrt(variance / n);
  });
  const tail = (1 - (given ?? 0.95)) / 2;
  const rising = sorted(ratios);
  const error = fit.errors[0]!;
  const draw = { refits: 60, seed: 7, ...(given !== undefined && { confidence: given }) };
  const { intervals, refits, failed } = resampledIntervals(level, fit, draw);
  expect(intervals).toHaveLength(1);
  expect(intervals[0]!.low).toBeCloseTo(mean(Y) - quantile(rising, 1 - tail) * error, 7);
  expect(intervals[0]!.high).toBeCloseTo(mean(Y) - quantile(rising, tail) * error, 7);
  expect([refits, failed]).toEqual([60, 0]);
});

describe("refits without a minimum", () => {
  const fit = fitLeastSquares(level, [4]);
  /** Residuals that are no numbers in the first refits: each starts at the best value itself. */
  const failing = (count: number): Residuals => {
    let begun = 0;
    return (p) => {
      if (p[0] === fit.parameters[0]) begun++;
      return begun <= count ? Y.map(() => Number.NaN) : level(p);
    };
  };

  test("are counted and left out, up to a tenth of them", () => {
    const { failed, intervals } = resampledIntervals(failing(2), fit, { refits: 20, seed: 7 });
    expect(failed).toBe(2);
    expect(intervals[0]!.low).toBeLessThan(mean(Y));
    expect(intervals[0]!.high).toBeGreaterThan(mean(Y));
  });

  test("are refused with their number where they are more", () => {
    const refused = () => resampledIntervals(failing(3), fit, { refits: 20, seed: 7 });
    expect(refused).toThrow(TenfoldError);
    try {
      refused();
    } catch (error) {
      expect((error as TenfoldError).problems[0]).toMatchObject({
        code: "fit-not-settled",
        what: "refits to resampled residuals find no minimum",
        got: "3 of 20",
        fix: "fit fewer parameters, or measure more points",
      });
    }
  });

  test("are not what anything else that is thrown is taken for", () => {
    const broken: Residuals = () => {
      throw new RangeError("of its own");
    };
    expect(() => resampledIntervals(broken, fit, { refits: 5, seed: 1 })).toThrow(RangeError);
  });
});

/** Ends of intervals by refits where the sum of squares over the other parameters has a closed form. */
import { describe, expect, test } from "vitest";
import { fail } from "../../../src/errors/problem.ts";
import {
  type FitOptions,
  fitIntervals,
  fitLeastSquares,
  profileIntervals,
  type Residuals,
} from "../../../src/numerics/index.ts";

const squares = (values: readonly number[]) => values.reduce((sum, v) => sum + v * v, 0);
const mean = (values: readonly number[]) => values.reduce((a, b) => a + b) / values.length;

/** Student's 97.5 % points, from tables. */
const STUDENT: Record<number, number> = {
  1: 12.7062,
  2: 4.30265,
  3: 3.18245,
  4: 2.77645,
  5: 2.57058,
};

function intervalsOf(residuals: Residuals, start: readonly number[], options: FitOptions = {}) {
  const fit = fitLeastSquares(residuals, start, options);
  return { fit, intervals: profileIntervals(residuals, fit, 0.95, options) };
}

test("of three parameters of a parabola are Student's", () => {
  const x = [-3, -2, -1, 0, 1, 2, 4];
  const y = [9.2, 4.1, 0.7, 0.2, 1.3, 3.6, 16.1];
  const parabola: Residuals = ([a, b, c]) => x.map((v, i) => a! + b! * v + c! * v * v - y[i]!);
  const { fit, intervals } = intervalsOf(parabola, [0, 0, 0.5]);
  expect(fit.degrees).toBe(4);
  const student = fitIntervals(fit);
  intervals.forEach(({ low, high }, k) => {
    expect(Math.abs(low - student[k]!.low)).toBeLessThan(2e-3 * fit.errors[k]!);
    expect(Math.abs(high - student[k]!.high)).toBeLessThan(2e-3 * fit.errors[k]!);
  });
});

describe("of a decay", () => {
  const x = [0, 1, 2, 3, 4];
  const y = [5.3, 2.1, 1.6, 0.3, 0.5];
  /** The least sum of squares at a rate: the height in closed form, sum of y e over sum of e e. */
  const least = (rate: number) => {
    const e = x.map((v) => Math.exp(-rate * v));
    const height = y.reduce((sum, v, i) => sum + v * e[i]!, 0) / squares(e);
    return squares(y.map((v, i) => v - height * e[i]!));
  };

  test.each([0, 1])("the rate ends where the sum has risen by t^2 variances, parameter %i", (k) => {
    const decay: Residuals = (p) => x.map((v, i) => p[1 - k]! * Math.exp(-p[k]! * v) - y[i]!);
    const { fit, intervals } = intervalsOf(decay, k === 0 ? [0.8, 5] : [5, 0.8]);
    const { low, high } = intervals[k]!;
    const rise = (rate: number) =>
      Math.sqrt((least(rate) / least(fit.parameters[k]!) - 1) * fit.degrees);
    expect(rise(low) / STUDENT[3]!).toBeCloseTo(1, 2);
    expect(rise(high) / STUDENT[3]!).toBeCloseTo(1, 2);
    // It is not the interval of the slopes.
    const student = fitIntervals(fit)[k]!;
    expect(high - student.high).toBeGreaterThan(0.1 * fit.errors[k]!);
  });
});

describe("ranges", () => {
  const y = [1, 2, 4, 5];
  const level: Residuals = ([a]) => y.map((v) => a! - v);
  /** Standard error of the mean, by hand: squares of 2, 1, 1, 2 over three, over four. */
  const error = Math.sqrt(10 / 3 / 4);

  test("end an interval on each side, and nothing is asked for beyond", () => {
    const ranges = { low: [3 - 0.5 * error], high: [3 + 2 * error] };
    const asked: number[] = [];
    const watched: Residuals = (p) => {
      asked.push(p[0]!);
      return level(p);
    };
    const { intervals } = intervalsOf(watched, [2.9], ranges);
    expect(intervals).toEqual([{ low: ranges.low[0], high: ranges.high[0] }]);
    expect(Math.min(...asked)).toBeGreaterThanOrEqual(ranges.low[0]!);
    expect(Math.max(...asked)).toBeLessThanOrEqual(ranges.high[0]!);
  });

  test("of one side alone leave the other as it is", () => {
    const [below] = intervalsOf(level, [2.9], { low: [2.9] }).intervals;
    expect(below!.low).toBe(2.9);
    expect((below!.high - 3) / error / STUDENT[3]!).toBeCloseTo(1, 3);
    const [above] = intervalsOf(level, [2.9], { high: [3.1] }).intervals;
    expect(above!.high).toBe(3.1);
    expect((3 - above!.low) / error / STUDENT[3]!).toBeCloseTo(1, 3);
  });

  test("of the other parameters hold in refits", () => {
    // Sum over b in its range of (a - b)^2 + 4 (b - B)^2 + 2 (a - A)^2 and a rest: b at best (a + 4 B)/5.
    const range = [-0.05, 0.1] as const;
    for (const k of [0, 1]) {
      const skew: Residuals = (p) => {
        const [a, b] = [p[k]!, p[1 - k]!];
        return [a - b, 2 * b, Math.SQRT2 * a, 0.9, -0.9];
      };
      const b = (a: number) => Math.min(Math.max(a / 5, range[0]), range[1]);
      const sum = (a: number) => squares([a - b(a), 2 * b(a), Math.SQRT2 * a, 0.9, 0.9]);
      const ends = (own: number, other: number) => (k === 0 ? [own, other] : [other, own]);
      const options = { low: ends(-8, range[0]), high: ends(9, range[1]) };
      const { fit, intervals } = intervalsOf(skew, [0.1, 0.1], options);
      const { low, high } = intervals[k]!;
      expect(fit.degrees).toBe(3);
      for (const end of [low, high]) {
        const rise = Math.sqrt((sum(end) / sum(0) - 1) * 3);
        expect(rise / STUDENT[3]!).toBeCloseTo(1, 2);
      }
      expect(low).toBeGreaterThan(-8);
      expect(high).toBeLessThan(9);
      // Without the ranges both ends were Student's, further out.
      expect(fitIntervals(fit)[k]!.high).toBeGreaterThan(1.01 * high);
      expect(fitIntervals(fit)[k]!.low).toBeLessThan(1.01 * low);
    }
  });

  test("hold a parameter, whose interval ends where the sum has risen as far", () => {
    // With a at 2 the variance is 10/3 + 1 a point: t^2 of them further, 4 (3 - a)^2 = 4 + t^2 14/4.
    // A held parameter is not fitted: four degrees of freedom.
    const end = 3 - Math.sqrt(1 + (STUDENT[4]! ** 2 * (14 / 4)) / 4);
    for (const low of [-1e3, Number.NEGATIVE_INFINITY, -20]) {
      const { fit, intervals } = intervalsOf(level, [1.5], { low: [low], high: [2] });
      expect(fit.held).toEqual([true]);
      expect(fit.degrees).toBe(4);
      expect(intervals[0]!.high).toBe(2);
      // An end is found to 1e-3 of a fortieth of the range.
      const precise = (1e-3 * (low > -Infinity ? 2 - low : 2)) / 40;
      expect(Math.abs(intervals[0]!.low - end)).toBeLessThan(precise);
    }
    const { intervals } = intervalsOf(([a]) => level([-a!]), [-1.5], { low: [-2] });
    expect(intervals[0]!.low).toBe(-2);
    expect(Math.abs(intervals[0]!.high + end)).toBeLessThan(1e-4);
  });
});

test("a side on which the points bound nothing has no end", () => {
  // exp(-p) to vanish: as p grows the sum rises to that of the points themselves.
  const y = [0.1, -0.08, 0.05, -0.03];
  const { fit, intervals } = intervalsOf(([p]) => y.map((v) => Math.exp(-p!) - v), [4]);
  expect(Math.exp(-fit.parameters[0]!) / mean(y)).toBeCloseTo(1, 6);
  expect(intervals[0]!.high).toBe(Number.POSITIVE_INFINITY);
  const half = (STUDENT[3]! * fit.deviation) / 2;
  expect(Math.exp(-intervals[0]!.low) / (mean(y) + half)).toBeCloseTo(1, 2);
  const mirrored = intervalsOf(([p]) => y.map((v) => Math.exp(p!) - v), [-4]).intervals[0]!;
  expect(mirrored.low).toBe(Number.NEGATIVE_INFINITY);
  expect(mirrored.high / -intervals[0]!.low).toBeCloseTo(1, 6);
});

describe("where the others cannot be fitted", () => {
  const y = [1.2, 2.8, 2.2, 1.8];
  /** Below one the second parameter has no effect. */
  const lame = (a: number, b: number) => [...y.map((v) => a - v), Math.max(0, a - 1) * b];

  test("they stay as they are", () => {
    const { fit, intervals } = intervalsOf(([a, b]) => lame(a!, b!), [2, 0.1]);
    // b at best is zero, so that the first alone make the sum: four points about 2.
    const variance = squares(y.map((v) => v - 2)) / 3;
    expect(fit.degrees).toBe(3);
    const half = STUDENT[3]! * Math.sqrt(variance / 4);
    expect(2 - half).toBeLessThan(1);
    expect(Math.abs(intervals[0]!.low - (2 - half))).toBeLessThan(1e-3);
    expect(Math.abs(intervals[0]!.high - (2 + half))).toBeLessThan(1e-3);
  });

  test("what is no refusal of a fit is passed on", () => {
    const fit = fitLeastSquares(([a, b]) => lame(a!, b!), [2, 0.1]);
    const broken: Residuals = () => {
      throw new RangeError("of its own");
    };
    expect(() => profileIntervals(broken, fit)).toThrow(RangeError);
    let calls = 0;
    const later: Residuals = ([a, b]) => {
      if (++calls % 7 === 0) fail({ code: "fit-not-settled", what: "as a refit would" });
      return lame(a!, b!);
    };
    // A refit that is refused now and then leaves the start by the slopes.
    calls = 0;
    expect(() => profileIntervals(later, fit)).not.toThrow(RangeError);
  });
});

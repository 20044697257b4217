/**
 * The control of the step, "Solving Ordinary Differential Equations I", section II.4, ISBN 978-3-540-56670-0: the next
 * step is 0.9 h (error / allowed)^(-1/order of the error), no less than a fifth and no more than eight times the last.
 * Slopes that depend on the time alone make the estimates known in closed form.
 */
import { describe, expect, test } from "vitest";
import type { TenfoldError } from "../../../src/errors/problem.ts";
import { EXPLICIT } from "../../../src/numerics/ode/explicit.ts";
import { IMPLICIT } from "../../../src/numerics/ode/implicit.ts";
import { integrate, type OdeOptions } from "../../../src/numerics/ode/integrate.ts";
import type { Derivative } from "../../../src/numerics/ode/step.ts";

/** The weights of both rules of the explicit pair and its nodes, doi 10.1016/0771-050X(80)90013-3, table 2. */
const FIFTH = [35 / 384, 0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84, 0];
const FOURTH = [5179 / 57600, 0, 7571 / 16695, 393 / 640, -92097 / 339200, 187 / 2100, 1 / 40];
const NODES = [0, 1 / 5, 3 / 10, 4 / 5, 8 / 9, 1, 1];
const DIFFERENCE = NODES.reduce((sum, c, i) => sum + (FIFTH[i]! - FOURTH[i]!) * c ** 4, 0);
/** The real eigenvalue of the inverse of the implicit method's matrix. */
const EIGENVALUE = 3 + Math.cbrt(9) - Math.cbrt(3);

const METHODS = [
  // The rules differ in degree 4 alone; for the implicit method see implicit-estimate.test.ts.
  { method: "explicit", degree: 4, factor: Math.abs(DIFFERENCE) },
  { method: "implicit", degree: 3, factor: 1 / (10 * EIGENVALUE) },
] as const;

/** Times after each step of y' = t^degree. */
function times(degree: number, until: number, options: OdeOptions, start = [0]) {
  const reached: number[] = [];
  const slope: Derivative = (t, _y, s) => s.fill(t ** degree);
  const onStep = (t: number) => reached.push(t);
  return { reached, ...integrate(slope, start, 0, until, { ...options, onStep }) };
}

describe.each(METHODS)("the steps of the $method method", ({ method, degree, factor }) => {
  const estimate = (h: number) => factor * h ** (degree + 1);
  const next = (h: number, ratio: number) => 0.9 * h * ratio ** (-1 / (degree + 1));

  test("follow an accepted error, and keep their length where the error stays", () => {
    for (const ratio of [0.99, 0.5, 0.01]) {
      const options = { method, relative: 0, absolute: estimate(0.5) / ratio, firstStep: 0.5 };
      const { reached, rejected } = times(degree, 40, options);
      expect(rejected).toBe(0);
      expect(reached[0]).toBe(0.5);
      // The error of the second step is 0.9^order of what is allowed: the third is as long.
      const second = next(0.5, ratio);
      expect((reached[1]! - reached[0]!) / second).toBeCloseTo(1, 9);
      expect((reached[2]! - reached[1]!) / second).toBeCloseTo(1, 6);
    }
  });

  test("are taken back by the same rule, and by no more than a fifth at a time", () => {
    for (const ratio of [1.01, 3, 100]) {
      const options = { method, relative: 0, absolute: estimate(0.5) / ratio, firstStep: 0.5 };
      const { reached, rejected } = times(degree, 1, options);
      expect(rejected).toBe(1);
      expect(reached[0]! / next(0.5, ratio)).toBeCloseTo(1, 9);
    }
    const ratio = 5 ** (2 * (degree + 1)) * 3;
    const options = { method, relative: 0, absolute: estimate(0.5) / ratio, firstStep: 0.5 };
    const { reached, rejected } = times(degree, 1, options);
    expect(rejected).toBe(3);
    expect(reached[0]! / next(0.5 / 25, 3)).toBeCloseTo(1, 6);
  });

  test("grow to eight times and no more", () => {
    const options = { method, relative: 0, absolute: 1e9, firstStep: 1 };
    expect(times(degree, 73, options).reached).toEqual([1, 9, 73]);
    // No error at all.
    const still: number[] = [];
    const rest: Derivative = (_t, _y, s) => s.fill(0);
    const onStep = (t: number) => still.push(t);
    for (const start of [
      [0, 3],
      [3, 0],
    ]) {
      still.length = 0;
      const { y } = integrate(rest, start, 0, 73, { method, firstStep: 1, onStep });
      expect(still).toEqual([1, 9, 73]);
      expect([...y]).toEqual(start);
    }
  });

  test("allow an error relative to the larger end of a step, and the least of all components", () => {
    const h = 0.5;
    const gained = h ** (degree + 1) / (degree + 1);
    const relative = estimate(h) / gained / 0.5;
    for (const start of [[0], [0, 1e6], [1e6, 0], [-gained]]) {
      const { reached } = times(degree, 9, { method, relative, firstStep: h }, start);
      expect((reached[1]! - h) / next(h, 0.5)).toBeCloseTo(1, 6);
    }
    const absolute = [estimate(h) / 0.1, estimate(h) / 0.5, estimate(h) / 0.2];
    const options = { method, relative: 0, absolute, firstStep: h };
    const { reached } = times(degree, 9, options, [0, 0, 0]);
    expect((reached[1]! - h) / next(h, 0.5)).toBeCloseTo(1, 9);
    // Both allowances add up.
    const both = { method, relative: relative / 2, absolute: estimate(h), firstStep: h };
    expect((times(degree, 9, both).reached[1]! - h) / next(h, 0.5)).toBeCloseTo(1, 9);
  });

  test("are a millionth of the time at first, and no longer than allowed", () => {
    const { reached } = times(degree, 100, { method, relative: 0, absolute: 1e9 });
    expect(reached[0]! / 1e-4).toBeCloseTo(1, 14);
    const short = times(degree, 1, { method, absolute: 1e9, firstStep: 0.25, longestStep: 0.25 });
    expect(short.reached).toEqual([0.25, 0.5, 0.75, 1]);
  });

  test("count the calls of the derivative, and are themselves counted", () => {
    let calls = 0;
    const decay: Derivative = (_t, y, s) => {
      calls++;
      s[0] = -y[0]!;
    };
    const { evaluations, steps, rejected } = integrate(decay, [1], 0, 5, { method, firstStep: 5 });
    expect(evaluations).toBe(calls);
    expect(rejected).toBeGreaterThan(0);
    const most = steps + rejected;
    const limited = (mostSteps: number) =>
      integrate(decay, [1], 0, 5, { method, firstStep: 5, mostSteps });
    expect(limited(most).t).toBe(5);
    let refused: unknown;
    try {
      limited(most - 1);
    } catch (error) {
      refused = error;
    }
    expect((refused as TenfoldError).problems[0]).toMatchObject({
      code: "ode-stuck",
      what: "the integration in time makes no progress",
      got: expect.stringMatching(`^step [\\de.-]+ at time [\\d.]+ after ${most - 1} steps$`),
      fix: "allow a larger error, or use the implicit method",
    });
  });

  test("that no double can add to the time are refused at once", () => {
    let calls = 0;
    const slope: Derivative = (_t, _y, s) => {
      calls++;
      s[0] = 1;
    };
    expect(() => integrate(slope, [0], 1e16, 1e16 + 4, { method })).toThrow(/ode-stuck/);
    expect(() => integrate(slope, [0], 0, 1, { method, firstStep: 0 })).toThrow(/ode-stuck/);
    // Half a digit is rounded down to the even neighbour here, and up from the number before.
    const half = { method, firstStep: 1, mostSteps: 9 };
    expect(() => integrate(slope, [0], 2 ** 53, 2 ** 53 + 8, half)).toThrow(/ode-stuck/);
    expect(calls).toBe(0);
  });

  test("end at an event on whichever side it starts, and none is where it starts at zero", () => {
    const slope: Derivative = (_t, _y, s) => s.fill(1);
    const through = (event: (t: number, y: Float64Array) => number, options: OdeOptions = {}) => {
      const seen: number[] = [];
      const onStep = (t: number) => seen.push(t);
      const run = { method, absolute: 1, firstStep: 1, longestStep: 1, ...options, event, onStep };
      return { seen, ...integrate(slope, [0], 0, 4, run) };
    };
    const crossed = [(_t: number, y: Float64Array) => y[0]! - 2.5, (t: number) => 2.5 - t];
    for (const event of crossed) {
      const { seen, t, y, stopped } = through(event);
      expect(stopped).toBe(true);
      expect(t).toBeCloseTo(2.5, 13);
      expect(y[0]).toBeCloseTo(2.5, 13);
      expect(seen).toEqual([1, 2, t]);
      const shorter = through(event, { firstStep: 0.375, longestStep: 0.375 });
      expect(shorter.t).toBeCloseTo(2.5, 13);
      expect(shorter.y[0]).toBeCloseTo(2.5, 13);
    }
    const never = through((t) => t);
    expect(never.stopped).toBe(false);
    expect(never.seen).toEqual([1, 2, 3, 4]);
    // From zero on, one sign; then the other.
    expect(through((t) => t * (2.25 - t)).t).toBeCloseTo(2.25, 13);
    // Exactly at the end of a step.
    const touched = through((t) => t - 2);
    expect([touched.t, touched.stopped, touched.seen]).toEqual([2, true, [1, 2]]);
    // A jump right after the start.
    const jumped = through((t) => (t > 0 ? 1 : -1));
    expect(jumped.stopped).toBe(true);
    expect(jumped.t).toBeLessThan(1e-15);
    expect(jumped.y[0]).toBe(jumped.t);
  });
});

test("the error of the explicit pair is its own weights less those of fourth order", () => {
  const [next, error] = [new Float64Array(1), new Float64Array(1)];
  const stepper = EXPLICIT.stepper((t, _y, s) => s.fill(t ** 4), 1);
  expect(stepper.step(0, Float64Array.of(2), 0.5, next, error)).toBe(true);
  expect(next[0]).toBeCloseTo(2 + 0.5 ** 5 / 5, 15);
  expect(error[0]! / (DIFFERENCE * 0.5 ** 5)).toBeCloseTo(1, 10);
});

test.each(["explicit", "implicit"] as const)(
  "a first step out of where slopes are defined is taken back: %s",
  (method) => {
    // y' = -sqrt(y) from 1: (1 - t/2)^2, beyond whose root there is none.
    const emptied: Derivative = (_t, y, s) => s.fill(-Math.sqrt(y[0]!));
    for (const firstStep of [4, 40, 1e4]) {
      const { y, t, rejected } = integrate(emptied, [1], 0, 1.5, { method, firstStep: 1.5 });
      expect(t).toBe(1.5);
      expect(y[0]! / 0.0625).toBeCloseTo(1, 6);
      expect(rejected).toBeGreaterThan(0);
      const event = (_t: number, at: Float64Array) => at[0]! - 0.25;
      const stopped = integrate(emptied, [1], 0, 2 * firstStep, { method, firstStep, event });
      expect(stopped.t).toBeCloseTo(1, 7);
    }
  },
);

describe("a step that leaves the doubles is not solved", () => {
  /** What a step of length one from `start` says. */
  const step = (method: typeof EXPLICIT, derivative: Derivative, start: number) => {
    const [next, error] = [new Float64Array(1), new Float64Array(1)];
    const solved = method.stepper(derivative, 1).step(0, Float64Array.of(start), 1, next, error);
    return { solved, next: next[0]!, error: error[0]! };
  };

  test.each([EXPLICIT, IMPLICIT])("of its new state alone: $name", (method) => {
    const { solved, next, error } = step(method, (_t, _y, s) => s.fill(1e308), 1.7e308);
    expect(next).toBe(Number.POSITIVE_INFINITY);
    expect(Number.isFinite(error)).toBe(true);
    expect(solved).toBe(false);
  });

  test.each([EXPLICIT, IMPLICIT])("of one of two components: $name", (method) => {
    for (const start of [
      [1.7e308, 1],
      [1, 1.7e308],
    ]) {
      const slope: Derivative = (_t, _y, s) => {
        s[0] = start[0]! / 1.7;
        s[1] = start[1]! / 1.7;
      };
      const [next, error] = [new Float64Array(2), new Float64Array(2)];
      const from = Float64Array.from(start);
      expect(method.stepper(slope, 2).step(0, from, 1, next, error)).toBe(false);
      expect([...next].filter(Number.isFinite)).toHaveLength(1);
    }
  });

  test("of its error alone", () => {
    // The seventh stage of the explicit pair enters its error only.
    let calls = 0;
    const last: Derivative = (_t, _y, s) => s.fill(++calls === 7 ? Number.NaN : 1);
    const explicit = step(EXPLICIT, last, 1);
    expect(explicit.next).toBeCloseTo(2, 14);
    expect(explicit.solved).toBe(false);
    // The slope at the start enters the implicit method's error only.
    const first: Derivative = (t, _y, s) => s.fill(t === 0 ? 1.7e308 : -1e308);
    const implicit = step(IMPLICIT, first, 0);
    expect(implicit.next / -1e308).toBeCloseTo(1, 12);
    expect(implicit.error).toBe(Number.POSITIVE_INFINITY);
    expect(implicit.solved).toBe(false);
  });
});

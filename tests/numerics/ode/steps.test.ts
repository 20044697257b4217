/** How steps of an integration are chosen, counted and ended: the control's own rule, by hand. */
import { describe, expect, test } from "vitest";
import { TenfoldError } from "../../../src/errors/problem.ts";
import { EXPLICIT } from "../../../src/numerics/ode/explicit.ts";
import { IMPLICIT } from "../../../src/numerics/ode/implicit.ts";
import { integrate, type OdeOptions } from "../../../src/numerics/ode/integrate.ts";
import type { Derivative } from "../../../src/numerics/ode/step.ts";

const constant: Derivative = (_t, _y, slope) => slope.fill(1);
const sixth: Derivative = (t, _y, slope) => {
  slope[0] = t ** 5;
};

/** Whose error falls from step to step, so that none is repeated. */
const falling: Derivative = (t, _y, slope) => {
  slope[0] = (3 - t) ** 5;
};

/** The ends of all steps. */
function ends(derivative: Derivative, t0: number, t1: number, options: OdeOptions): number[] {
  const all: number[] = [];
  integrate(derivative, [1], t0, t1, { ...options, onStep: (t) => all.push(t) });
  return all;
}

/** The explicit method's own estimate for a step from t = 0 and y = 1, over what is allowed of it. */
function sizeOf(f: Derivative, h: number, relative: number, absolute: number): number {
  const [next, error] = [new Float64Array(1), new Float64Array(1)];
  EXPLICIT.stepper(f, 1).step(0, Float64Array.of(1), h, next, error);
  return Math.abs(error[0]!) / (absolute + relative * Math.max(1, next[0]!));
}

describe("steps", () => {
  test("start with a millionth of the span, and grow eightfold where there is no error", () => {
    const reached = ends(constant, 3, 5, {});
    let [t, h] = [3, 2e-6];
    for (const end of reached.slice(0, -1)) {
      t += h;
      h *= 8;
      expect(Math.abs(end - t)).toBeLessThan(1e-14);
    }
    expect(reached).toHaveLength(8);
    expect(reached.at(-1)).toBe(5);
  });

  test("never are longer than allowed", () => {
    const options = { firstStep: 2, longestStep: 0.25 };
    expect(ends(constant, 0, 1, options)).toEqual([0.25, 0.5, 0.75, 1]);
  });

  test("are followed by 0.9 of the length at which the error would be just allowed, within 0.2 and 8", () => {
    for (const [relative, absolute] of [
      [1e-4, 0],
      [1e-6, 1e-5],
      [1e-7, 1e-5],
    ] as const) {
      const h = 0.1;
      const size = sizeOf(falling, h, relative, absolute);
      expect(size).toBeLessThan(1);
      const [first, second] = ends(falling, 0, 2, { relative, absolute, firstStep: h });
      expect(first).toBe(h);
      expect((second! - h) / (h * Math.min(8, 0.9 * size ** -0.2))).toBeCloseTo(1, 12);
    }
  });

  test("that err too much are repeated with the same rule, and counted", () => {
    const relative = 1e-5;
    for (const h of [1, 1.2]) {
      const size = sizeOf(sixth, h, relative, 0);
      expect(size).toBeGreaterThan(1);
      const [first] = ends(sixth, 0, 50, { relative, firstStep: h });
      expect(first! / (h * Math.max(0.2, 0.9 * size ** -0.2))).toBeCloseTo(1, 12);
    }
    const once = integrate(sixth, [1], 0, 1, { relative, firstStep: 1 });
    expect(once.rejected).toBeGreaterThan(0);
    expect(once.evaluations).toBe(7 * (once.steps + once.rejected));
  });

  test("without a number are repeated at a fifth", () => {
    let calls = 0;
    // The other component has no error, which must not hide that this one has no number.
    const broken: Derivative = (_t, _y, slope) => {
      slope.fill(1);
      if (++calls <= 7) slope[0] = Number.NaN;
    };
    let first = 0;
    const onStep = (t: number) => {
      first ||= t;
    };
    const { y, rejected } = integrate(broken, [0, 0], 0, 4, { firstStep: 1, onStep });
    expect([first, rejected]).toEqual([0.2, 1]);
    expect(Math.abs(y[0]! - 4)).toBeLessThan(1e-14);
    for (const method of [EXPLICIT, IMPLICIT]) {
      const stepper = method.stepper((_t, _y, slope) => slope.fill(Number.NaN), 1);
      const [next, error] = [new Float64Array(1), new Float64Array(1)];
      expect(stepper.step(0, Float64Array.of(1), 1, next, error)).toBe(false);
    }
  });

  test("that are too many are refused, one fewer are not", () => {
    const options = { firstStep: 1, longestStep: 1 };
    expect(integrate(constant, [0], 0, 10, { ...options, mostSteps: 10 }).steps).toBe(10);
    try {
      integrate(constant, [0], 0, 10, { ...options, mostSteps: 9 });
      expect.unreachable();
    } catch (error) {
      expect((error as TenfoldError).problems[0]).toEqual({
        code: "ode-stuck",
        what: "the integration in time makes no progress",
        got: "step 8 at time 9 after 9 steps",
        fix: "allow a larger error, or use the implicit method",
      });
    }
  });

  test("are judged by the component of the largest error, wherever it stands, and not by one at zero", () => {
    const both = (place: number): Derivative => {
      return (t, _y, slope) => {
        slope.fill(0);
        slope[place] = (3 - t) ** 5;
      };
    };
    const run = (place: number) => integrate(both(place), [0, 0], 0, 2, { relative: 1e-6 });
    const [first, last] = [run(0), run(1)];
    expect(first.y[0]! / ((3 ** 6 - 1) / 6)).toBeCloseTo(1, 6);
    expect([last.steps, last.rejected]).toEqual([first.steps, first.rejected]);
    expect([last.y[1], last.y[0]]).toEqual([first.y[0], 0]);
  });

  test("that were repeated count among those that are allowed", () => {
    const never: Derivative = (_t, _y, slope) => slope.fill(Number.NaN);
    let got: string | undefined;
    try {
      integrate(never, [1], 0, 1, { firstStep: 1, mostSteps: 3 });
    } catch (error) {
      got = (error as TenfoldError).problems[0]!.got;
    }
    expect(got).toMatch(/^step 0\.008\d* at time 0 after 3 steps$/);
  });

  test("shorter than time can hold are refused, but for the last", () => {
    const tiny = { firstStep: 1e-20 };
    expect(() => integrate(constant, [0], 1, 2, tiny)).toThrow(TenfoldError);
    expect(() => integrate(constant, [0], -3, -1, tiny)).toThrow(TenfoldError);
    // Half of the distance to the next double above one, which is that to the one below.
    expect(() => integrate(constant, [0], 1, 2, { firstStep: 2 ** -53 })).toThrow(TenfoldError);
    expect(integrate(constant, [0], 1, 1 + 2 ** -52, { firstStep: 1 }).t).toBe(1 + 2 ** -52);
  });
});

describe("an event", () => {
  test("within the first step ends it", () => {
    const event = (_t: number, y: Float64Array) => y[0]! - 0.5;
    const { t, y, stopped } = integrate(constant, [0], 0, 2, { firstStep: 1, event });
    expect([t, stopped]).toEqual([0.5, true]);
    expect(Math.abs(y[0]! - 0.5)).toBeLessThan(1e-15);
  });

  test("that holds at the start is that of the next time: sin t from 0 ends at pi", () => {
    const sine: Derivative = (t, _y, slope) => {
      slope[0] = Math.cos(t);
    };
    const seen: number[] = [];
    const options = {
      relative: 1e-12,
      absolute: 1e-12,
      event: (_t: number, y: Float64Array) => y[0]!,
    };
    const { t, stopped } = integrate(sine, [0], 0, 4, {
      ...options,
      onStep: (at) => seen.push(at),
    });
    expect(stopped).toBe(true);
    expect(Math.abs(t - Math.PI)).toBeLessThan(1e-10);
    expect(seen.at(-1)).toBe(t);
  });

  test("of time alone is where that time is", () => {
    const event = (t: number) => t - 1.3;
    const { t, y } = integrate(constant, [0], 1, 2, { firstStep: 0.5, event });
    expect(Math.abs(t - 1.3)).toBeLessThan(1e-15);
    expect(Math.abs(y[0]! - 0.3)).toBeLessThan(1e-15);
  });

  test("that does not come lets the integration end", () => {
    const { t, stopped } = integrate(constant, [0], 0, 2, { event: () => 1 });
    expect([t, stopped]).toEqual([2, false]);
  });
});

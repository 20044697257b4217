import { describe, expect, test } from "vitest";
import { EXPLICIT } from "../../../src/numerics/ode/explicit.ts";
import { IMPLICIT } from "../../../src/numerics/ode/implicit.ts";
import { integrate } from "../../../src/numerics/ode/integrate.ts";
import type { Derivative } from "../../../src/numerics/ode/step.ts";

/** A single equation dy/dt = f(t, y). */
function scalar(f: (t: number, y: number) => number): Derivative {
  return (t, y, slope) => {
    slope[0] = f(t, y[0]!);
  };
}

/** y1 = sin t (as a system) and y3 = exp(sin t). */
function smooth(t: number, y: Float64Array, slope: Float64Array): void {
  slope[0] = y[1]!;
  slope[1] = -y[0]!;
  slope[2] = y[2]! * Math.cos(t);
}

function errorsAt(method: typeof EXPLICIT, steps: number): { error: number; estimate: number } {
  const stepper = method.stepper(smooth, 3);
  let y = Float64Array.of(0, 1, 1);
  let next = new Float64Array(3);
  const errors = new Float64Array(3);
  let estimate = 0;
  for (let k = 0; k < steps; k++) {
    stepper.step((3 * k) / steps, y, 3 / steps, next, errors);
    estimate = Math.max(estimate, ...errors.map(Math.abs));
    [y, next] = [next, y];
  }
  const error = Math.abs(y[0]! - Math.sin(3)) + Math.abs(y[2]! - Math.exp(Math.sin(3)));
  return { error, estimate };
}

describe("each method shows its order on five meshes", () => {
  for (const method of [EXPLICIT, IMPLICIT]) {
    test(`${method.name}: error falls as h^${method.order}`, () => {
      const meshes = [8, 16, 32, 64, 128].map((n) => errorsAt(method, n));
      for (let i = 2; i < meshes.length; i++) {
        const observed = Math.log2(meshes[i - 1]!.error / meshes[i]!.error);
        expect(observed).toBeGreaterThan(method.order - 0.05);
        expect(observed).toBeLessThan(method.order + 0.5);
        const estimated = Math.log2(meshes[i - 1]!.estimate / meshes[i]!.estimate);
        expect(Math.abs(estimated - method.errorOrder)).toBeLessThan(0.3);
      }
    });
  }
});

describe("both methods meet closed forms", () => {
  for (const method of ["explicit", "implicit"] as const) {
    test(`${method}: decay over 20 time constants keeps its relative error`, () => {
      const decay = integrate(
        scalar((_t, y) => -y),
        [1],
        0,
        20,
        {
          method,
          relative: 1e-11,
        },
      );
      expect(Math.abs(decay.y[0]! / Math.exp(-20) - 1)).toBeLessThan(1e-10);
      expect(decay.t).toBe(20);
    });

    test(`${method}: a blow-up 1/(1-t) is stopped by its event at the exact time`, () => {
      const blowUp = integrate(
        scalar((_t, y) => y * y),
        [1],
        0,
        2,
        {
          method,
          relative: 1e-11,
          event: (_t, y) => y[0]! - 1e6,
        },
      );
      expect(blowUp.stopped).toBe(true);
      expect(Math.abs(blowUp.t - (1 - 1e-6))).toBeLessThan(1e-11);
      expect(Math.abs(blowUp.y[0]! / 1e6 - 1)).toBeLessThan(1e-9);
    });

    test(`${method}: scaling state by 1e9 and time by 1e-9 scales the answer exactly so`, () => {
      const solve = (size: number, time: number) =>
        integrate(
          scalar((t, y) => (-y * Math.cos(t / time)) / time),
          [size],
          0,
          time,
          {
            method,
            relative: 1e-9,
          },
        );
      const expected = Math.exp(-Math.sin(1));
      for (const [size, time] of [
        [1, 1],
        [1e9, 1e-9],
        [1e-9, 1e9],
      ] as const) {
        expect(Math.abs(solve(size, time).y[0]! / size / expected - 1)).toBeLessThan(1e-8);
      }
    });
  }
});

describe("a rotation loses exactly what the explicit method takes from it", () => {
  const rotate: Derivative = (_t, y, s) => {
    s[0] = y[1]!;
    s[1] = -y[0]!;
  };
  // One step multiplies the amplitude by R(ih), R(z) = 1 + z + ... + z^5/120 + z^6/600 for this
  // pair: the last coefficient follows from its table, the others from its order.
  const squareOfR = (h: number) => {
    const real = 1 - h ** 2 / 2 + h ** 4 / 24 - h ** 6 / 600;
    const imaginary = h - h ** 3 / 6 + h ** 5 / 120;
    return real * real + imaginary * imaginary;
  };

  test("steps of one length: |R(ih)|^2 to the power of their number, to rounding", () => {
    const h = 0.125;
    const options = { relative: 1, absolute: 1, firstStep: h, longestStep: h };
    const { y, steps } = integrate(rotate, [1, 0], 0, 100, options);
    expect(steps).toBe(800);
    const energy = y[0]! ** 2 + y[1]! ** 2;
    // -h^6/1800 per step to leading order: seven decades above rounding.
    // One rounding a step.
    expect(Math.abs(energy / squareOfR(h) ** 800 - 1)).toBeLessThan(800 * 2 ** -52);
    expect((squareOfR(h) - 1) / (-(h ** 6) / 1800)).toBeCloseTo(1, 1);
  });

  test("steps as the error control chooses them, over a hundred turns: the product of theirs", () => {
    let before = 0;
    let product = 1;
    const { y, steps } = integrate(rotate, [1, 0], 0, 200 * Math.PI, {
      relative: 1e-11,
      absolute: 1e-11,
      onStep: (t) => {
        product *= squareOfR(t - before);
        before = t;
      },
    });
    const energy = y[0]! ** 2 + y[1]! ** 2;
    expect(Math.abs(energy - product)).toBeLessThan(1e-12);
    expect(1 - product).toBeGreaterThan(1e-10);
    // An error e within the allowed 1e-11 (1 + |y|) of each component changes the energy by
    // 2 y.e, at most 2e-11 (1 + |y0| + |y1|) <= 4.83e-11 a step.
    expect(Math.abs(energy - 1)).toBeLessThan(steps * 2e-11 * (1 + Math.SQRT2));
  });
});

test("the stiff chemical problem of the textbooks is right after 4e10 seconds", () => {
  // Three-species autocatalytic reaction, ISBN 978-3-540-60452-5, section IV.10: published
  // 5.2083e-8, 2.0833e-13, 0.99999994792.
  const rate = (_t: number, y: Float64Array, s: Float64Array): void => {
    s[0] = -0.04 * y[0]! + 1e4 * y[1]! * y[2]!;
    s[2] = 3e7 * y[1]! * y[1]!;
    s[1] = -s[0]! - s[2]!;
  };
  const result = integrate(rate, [1, 0, 0], 0, 4e10, {
    method: "implicit",
    relative: 1e-9,
    absolute: [1e-14, 1e-18, 1e-14],
    firstStep: 1e-6,
  });
  expect(result.y[0]!).toBeCloseTo(5.2083e-8, 12);
  expect(result.y[1]!).toBeCloseTo(2.0833e-13, 17);
  expect(result.y[2]!).toBeCloseTo(0.99999994792, 10);
  expect(Math.abs(result.y[0]! + result.y[1]! + result.y[2]! - 1)).toBeLessThan(1e-12);
});

test("a first step that is too long is taken back, whatever it would have given", () => {
  for (const method of ["explicit", "implicit"] as const) {
    const decay = integrate(
      scalar((_t, y) => -y),
      [1],
      0,
      20,
      { method, firstStep: 20 },
    );
    expect(decay.rejected).toBeGreaterThan(0);
    expect(Math.abs(decay.y[0]! / Math.exp(-20) - 1)).toBeLessThan(20e-9);
    // Also one that misses the allowed error by a small factor.
    for (const relative of [1e-4, 1e-5, 1e-6, 1e-7, 1e-8]) {
      const short = { method, firstStep: 1, relative };
      const once = integrate(
        scalar((_t, y) => -y),
        [1],
        0,
        1,
        short,
      );
      expect(Math.abs(once.y[0]! / Math.exp(-1) - 1)).toBeLessThan(once.steps * relative);
    }
  }
});

test("the error stays in proportion to what is allowed over six decades", () => {
  for (const relative of [1e-4, 1e-6, 1e-8, 1e-10]) {
    const grown = integrate(
      scalar((t, y) => y * Math.cos(t)),
      [1],
      0,
      10,
      { relative },
    );
    const error = Math.abs(grown.y[0]! / Math.exp(Math.sin(10)) - 1);
    expect(error).toBeLessThan(relative * grown.steps);
  }
});

test("a solution that ceases to exist is refused with its time", () => {
  const blowUp = () =>
    integrate(
      scalar((_t, y) => y * y),
      [1],
      0,
      2,
    );
  expect(blowUp).toThrow(/ode-stuck/);
});

/** Laws far out, and voltages for currents, against the closed forms of elements in series (common practice). */
import { describe, expect, test } from "vitest";
import { junctionVoltageFor, lawVoltage } from "../../../src/numerics/crossbar/inverse.ts";
import { evaluateJunction, evaluateLaw } from "../../../src/numerics/crossbar/laws.ts";
import type { JunctionKind, Law } from "../../../src/numerics/crossbar/problem.ts";

const point = { current: 0, slope: 0 };
function of(law: Law, v: number) {
  evaluateLaw(law, v, point);
  return { ...point };
}
function across(kind: JunctionKind, v: number) {
  evaluateJunction(kind, v, point);
  return { ...point };
}

const sinh = (scaleVoltage: number, resistance = 1e8): Law => {
  return { law: "sinh", resistance, scaleVoltage };
};
const diode = (emissionVoltage: number, leakResistance?: number): Law => ({
  law: "diode",
  saturationCurrent: 1e-10,
  emissionVoltage,
  ...(leakResistance === undefined ? {} : { leakResistance }),
});
const threshold: Law = {
  law: "threshold",
  onResistance: 1e3,
  offResistance: 1e8,
  thresholdVoltage: 0.6,
  widthVoltage: 0.01,
};

test("a hyperbolic sine is 0 at 0, and infinite where doubles end", () => {
  expect(of(sinh(0.05), 0)).toEqual({ current: 0, slope: 1e-8 });
  for (const v of [-40, 40]) {
    expect(of(sinh(0.05), v)).toEqual({ current: v * Infinity, slope: Infinity });
  }
});

test("a reversed diode behind a resistor carries its saturation current and what leaks", () => {
  const resistor = { law: "ohmic", resistance: 1e4 } as const;
  for (const v of [-1, -20, -60]) {
    for (const leak of [undefined, 1e9]) {
      // I = -Is + (v - I R) / leak.
      const share = leak === undefined ? 0 : 1 / leak;
      const current = (-1e-10 + v * share) / (1 + 1e4 * share);
      const there = diode(0.026, leak);
      for (const kind of [
        { element: resistor, selector: there },
        { element: there, selector: resistor },
      ]) {
        expect(Math.abs(across(kind, v).current / current - 1), `${v} V`).toBeLessThan(1e-12);
      }
    }
  }
});

describe("two equal elements in series share the voltage", () => {
  test.each([
    ["sinh", sinh(0.05), [-60, -16, -1, 1e-9, 0.3, 14, 16, 31, 60]],
    ["diode", diode(0.026), [-0.05, 1e-9, 0.3, 7, 16, 30]],
    ["leaking diode", diode(0.026, 1e9), [-5, -0.05, 1e-9, 0.3, 7, 16]],
    ["threshold", threshold, [-3, -1e-3, 1e-3, 0.5, 1.15, 3]],
    ["ohmic", { law: "ohmic", resistance: 50 } as const, [-3, 1e-300, 1e-200, 1, 1e6]],
  ])("%s", (_, law, voltages) => {
    for (const v of voltages as number[]) {
      const both = across({ element: law as Law, selector: law as Law }, v);
      const one = of(law as Law, v / 2);
      // An exponent of x carries x roundings.
      expect(Math.abs(both.current / one.current - 1), `${v} V`).toBeLessThan(1e-12);
      expect(Math.abs((2 * both.slope) / one.slope - 1), `${v} V`).toBeLessThan(1e-6);
    }
  });
});

test("two exponentials in series far out: voltages as their scales, corrected by their sizes", () => {
  const [s1, s2, r1, r2] = [0.05, 0.02, 1e8, 1e5];
  for (const v of [20, 30, 40]) {
    // s1/(2 r1) e^(v1/s1) = s2/(2 r2) e^((v - v1)/s2).
    const v1 = (v / s2 + Math.log((s2 * r1) / (s1 * r2))) / (1 / s1 + 1 / s2);
    const { current, slope } = across({ element: sinh(s1, r1), selector: sinh(s2, r2) }, v);
    const logarithm = Math.log(s1 / r1 / 2) + v1 / s1;
    expect(Math.abs(Math.log(current) / logarithm - 1)).toBeLessThan(1e-13);
    expect(Math.abs((slope / current) * (s1 + s2) - 1)).toBeLessThan(1e-9);
  }
  const [e1, e2] = [0.026, 0.05];
  for (const v of [12, 25, 40]) {
    const { current, slope } = across({ element: diode(e1), selector: diode(e2) }, v);
    const logarithm = Math.log(1e-10) + v / (e1 + e2);
    expect(Math.abs(Math.log(current) / logarithm - 1)).toBeLessThan(1e-12);
    expect(Math.abs((slope / current) * (e1 + e2) - 1)).toBeLessThan(1e-9);
  }
});

test("a steep element limited by a resistor carries what the resistor lets through", () => {
  const resistor = { law: "ohmic", resistance: 1e4 } as const;
  for (const kind of [
    { element: resistor, selector: diode(0.026) },
    { element: diode(0.026), selector: resistor },
    { element: sinh(0.05), selector: resistor },
  ]) {
    for (const v of [5, 20, 100]) {
      const { current, slope } = across(kind, v);
      const law = [kind.element, kind.selector].find(({ law: name }) => name !== "ohmic")!;
      const rest = v - current * 1e4;
      expect(Math.abs(of(law, rest).current / current - 1)).toBeLessThan(1e-9);
      const expected = 1 / (1e4 + 1 / of(law, rest).slope);
      expect(Math.abs(slope / expected - 1)).toBeLessThan(1e-6);
    }
  }
});

describe("the voltage for a current", () => {
  test("gives that current back where the law has an inverse", () => {
    const laws: [Law, number[]][] = [
      [{ law: "ohmic", resistance: 300 }, [-2, 0, 1e-9]],
      [sinh(0.07), [-1e-3, -1e-12, 0, 1e-15, 1e-6]],
      [diode(0.03), [-0.89e-10, -1e-12, 0, 1e-13, 1e-3]],
    ];
    for (const [law, currents] of laws) {
      for (const i of currents) {
        const back = of(law, lawVoltage(law, i)).current;
        expect(Math.abs(back - i)).toBeLessThanOrEqual(1e-13 * Math.abs(i));
      }
    }
  });

  test("of a diode is that of its leak where that takes less voltage", () => {
    const leaking = diode(0.03, 1e9);
    for (const leak of [1e9, 1e6]) {
      for (const i of [1e-12, 1e-10, 1e-6]) {
        const least = Math.min(0.03 * Math.log1p(i / 1e-10), i * leak);
        expect(Math.abs(lawVoltage(diode(0.03, leak), i) / least - 1)).toBeLessThan(1e-14);
      }
    }
    // Reversed, all beyond the saturation current goes through the leak.
    for (const i of [-1e-8, -1e-7]) {
      expect(Math.abs(of(leaking, lawVoltage(leaking, i)).current / i - 1)).toBeLessThan(0.01);
    }
    // Below it the diode takes its own, and the leak beside it less.
    for (const i of [-5e-11, -1e-11]) {
      expect(lawVoltage(leaking, i)).toBe(lawVoltage(diode(0.03), i));
    }
    // Without a leak nothing more than the saturation current flows, whatever the voltage.
    const least = 0.03 * Math.log1p(-0.9);
    expect(Math.abs(lawVoltage(diode(0.03), -1e-6) / least - 1)).toBeLessThan(1e-14);
    expect(Math.abs(lawVoltage(diode(0.03), -0.9e-10) / least - 1)).toBeLessThan(1e-14);
  });

  test("of a threshold is that of its off or on state, or the threshold itself", () => {
    for (const [i, v] of [
      [1e-9, 0.1],
      [1e-6, 0.6],
      [1e-4, 0.6],
      [1e-3, 1],
    ] as const) {
      expect(Math.abs(lawVoltage(threshold, i) / v - 1)).toBeLessThan(1e-14);
      expect(Math.abs(lawVoltage(threshold, -i) / -v - 1)).toBeLessThan(1e-14);
    }
    expect(lawVoltage(threshold, 0)).toBe(0);
  });

  test("of elements in series is their sum; none where nothing is steep", () => {
    const resistor = { law: "ohmic", resistance: 1e4 } as const;
    const sum = junctionVoltageFor({ element: resistor, selector: sinh(0.05) }, 1e-4);
    expect(sum).toBe(1 + lawVoltage(sinh(0.05), 1e-4));
    expect(junctionVoltageFor({ element: diode(0.03) }, 1e-4)).toBe(lawVoltage(diode(0.03), 1e-4));
    expect(junctionVoltageFor({ element: threshold, selector: diode(0.03) }, 1e-4)).toBe(
      0.6 + lawVoltage(diode(0.03), 1e-4),
    );
    expect(junctionVoltageFor({ element: resistor, selector: threshold }, 1e-4)).toBeNaN();
    expect(junctionVoltageFor({ element: resistor }, 1e-4)).toBeNaN();
  });
});

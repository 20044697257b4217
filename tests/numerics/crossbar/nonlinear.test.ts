/** Nonlinear junctions: Kirchhoff and energy on hard cases, the inner solve of a selector. */
import { expect, test } from "vitest";
import { evaluateJunction, evaluateLaw } from "../../../src/numerics/crossbar/laws.ts";
import type { CrossbarProblem, JunctionKind, Law } from "../../../src/numerics/crossbar/problem.ts";
import { side, solved, stream } from "./build.ts";

const LAWS: Law[] = [
  { law: "ohmic", resistance: 1e4 },
  { law: "sinh", resistance: 1e8, scaleVoltage: 0.05 },
  { law: "diode", saturationCurrent: 1e-12, emissionVoltage: 0.026 },
  { law: "diode", saturationCurrent: 1e-10, emissionVoltage: 0.03, leakResistance: 1e9 },
  {
    law: "threshold",
    onResistance: 1e3,
    offResistance: 1e8,
    thresholdVoltage: 0.6,
    widthVoltage: 0.01,
  },
];

test("slopes are the derivatives of the currents", () => {
  const point = { current: 0, slope: 0 };
  for (const law of LAWS) {
    for (const v of [-1.1, -0.61, -1e-3, 0, 1e-3, 0.3, 0.59, 0.61, 1.1]) {
      const h = 1e-6;
      const at = (x: number) => {
        evaluateLaw(law, x, point);
        return point.current;
      };
      const slope = (at(v + h) - at(v - h)) / (2 * h);
      at(v);
      const rounding = 1e-9 * Math.abs(point.current);
      expect(Math.abs(point.slope - slope)).toBeLessThan(1e-4 * slope + rounding);
    }
  }
});

test("elements in series carry one current and share the voltage", () => {
  const point = { current: 0, slope: 0 };
  for (const element of LAWS) {
    for (const selector of LAWS) {
      for (const v of [-2, -0.3, -1e-9, 1e-12, 0.02, 0.7, 1.5, 5]) {
        // The current of a reversed diode says nothing of its voltage: bisection on it has no answer.
        if (v < 0 && element.law === "diode") continue;
        evaluateJunction({ element, selector }, v, point);
        const { current, slope } = point;
        expect(Math.sign(current)).toBe(Math.sign(v));
        expect(slope).toBeGreaterThan(0);
        // Find the element's voltage for this current by bisection; the selector must carry the same at the rest.
        let [low, high] = [Math.min(0, v), Math.max(0, v)];
        for (let k = 0; k < 2000 && low < high; k++) {
          const middle = low / 2 + high / 2;
          if (middle === low || middle === high) break;
          evaluateLaw(element, middle, point);
          if (point.current < current) low = middle;
          else high = middle;
        }
        const near = (x: number) => {
          evaluateLaw(selector, v - x, point);
          return point.current;
        };
        const ends = [near(low), near(high)];
        // Some roundings of x move the selector's current by its slope.
        const slack = 1e-9 * Math.abs(current) + 1e-14 * Math.abs(v) * point.slope;
        expect(Math.min(...ends)).toBeLessThanOrEqual(current + slack);
        expect(Math.max(...ends)).toBeGreaterThanOrEqual(current - slack);
      }
    }
  }
});

function mixed(
  n: number,
  kinds: readonly JunctionKind[],
  scheme: "half" | "third" | "grounded" | "floating",
  V: number,
): CrossbarProblem {
  const next = stream(3);
  const kindOf = Uint8Array.from({ length: n * n }, () => Math.floor(next() * kinds.length));
  const idle = {
    half: [V / 2, V / 2],
    third: [V / 3, (2 * V) / 3],
    grounded: [0, 0],
    floating: [0, 0],
  };
  const [a, b] = idle[scheme] as [number, number];
  const r = scheme === "floating" ? Number.NaN : 100;
  return {
    rows: n,
    columns: n,
    rowResistance: 10,
    columnResistance: 10,
    junctions: { kinds, kindOf },
    terminals: {
      left: side(
        n,
        (k) => (k === 0 ? V : a),
        (k) => (k === 0 ? 100 : r),
      ),
      bottom: side(
        n,
        (k) => (k === n - 1 ? 0 : b),
        (k) => (k === n - 1 ? 100 : r),
      ),
    },
  };
}

const SCHEMES = ["half", "third", "grounded", "floating"] as const;
const sinh = (scaleVoltage: number): JunctionKind[] =>
  [0, 1, 2, 3].map((k) => ({ element: { law: "sinh", resistance: 1e6 * 5 ** k, scaleVoltage } }));
const threshold = (widthVoltage: number): JunctionKind[] => [
  { element: { ...(LAWS[4] as Extract<Law, { law: "threshold" }>), widthVoltage } },
  {
    element: LAWS[0]!,
    selector: { ...(LAWS[4] as Extract<Law, { law: "threshold" }>), widthVoltage },
  },
];

test.each([0.5, 0.1, 0.05])(
  "sinh junctions of scale %f V under 2 V take at most 13 solves",
  (S) => {
    for (const scheme of SCHEMES) {
      expect(solved(mixed(48, sinh(S), scheme, 2)).linearSolves).toBeLessThanOrEqual(13);
    }
  },
);

test.each([0.05, 0.01, 0.002])("thresholds of width %f V are solved", (width) => {
  for (const scheme of SCHEMES) solved(mixed(32, threshold(width), scheme, 1.3));
});

test.each([0.06, 0.026, 0.01])("diodes of emission voltage %f V are solved", (emissionVoltage) => {
  const diode = { law: "diode", saturationCurrent: 1e-12, emissionVoltage } as const;
  const kinds = [1e4, 1e6].map((resistance) => ({
    element: { law: "ohmic", resistance } as const,
    selector: diode,
  }));
  for (const scheme of SCHEMES) solved(mixed(32, kinds, scheme, 1.3));
});

test("an iteration that is cut short says that it did not converge", async () => {
  const { solveCrossbar } = await import("../../../src/numerics/crossbar/solve.ts");
  const cut = solveCrossbar(mixed(16, sinh(0.05), "half", 2), { maxSolves: 1 });
  expect(cut.converged).toBe(false);
});

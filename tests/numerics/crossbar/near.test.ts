/** What is remembered from one evaluation or solve to the next changes the way there and not the answer. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { evaluateJunction } from "../../../src/numerics/crossbar/laws.ts";
import type { CrossbarProblem, Law } from "../../../src/numerics/crossbar/problem.ts";
import { solveCrossbar } from "../../../src/numerics/crossbar/solve.ts";
import { side, solved, stream } from "./build.ts";

const decades = (from: number, to: number) =>
  fc.double({ min: from, max: to, noNaN: true }).map((x) => 10 ** x);
const law: fc.Arbitrary<Law> = fc.oneof(
  fc.record({ law: fc.constant("ohmic" as const), resistance: decades(2, 10) }),
  fc.record({
    law: fc.constant("sinh" as const),
    resistance: decades(3, 12),
    scaleVoltage: decades(-2, 0),
  }),
  fc.record({
    law: fc.constant("diode" as const),
    saturationCurrent: decades(-15, -6),
    emissionVoltage: fc.double({ min: 0.025, max: 0.1, noNaN: true }),
    leakResistance: decades(6, 12),
  }),
  fc.record({
    law: fc.constant("threshold" as const),
    onResistance: decades(2, 5),
    offResistance: decades(6, 10),
    thresholdVoltage: fc.double({ min: 0.2, max: 2, noNaN: true }),
    widthVoltage: decades(-3, -1),
  }),
);
const voltages = fc.array(fc.oneof(fc.double({ min: -4, max: 4, noNaN: true }), decades(-18, 0)), {
  minLength: 2,
  maxLength: 12,
});

test("a junction that starts where it was left has the current and slope of one that starts afresh", () => {
  fc.assert(
    fc.property(
      law,
      law,
      voltages,
      fc.double({ min: -1, max: 1 }),
      (element, selector, all, bad) => {
        const kind = { element, selector };
        // Also from a guess that nothing led to.
        const memory = Float64Array.of(Number.isNaN(bad) ? 0.5 : bad);
        const [warm, fresh] = [
          { current: 0, slope: 0 },
          { current: 0, slope: 0 },
        ];
        for (const v of all) {
          evaluateJunction(kind, v, warm, memory);
          evaluateJunction(kind, v, fresh);
          expect(Math.abs(warm.current - fresh.current)).toBeLessThanOrEqual(
            2e-12 * Math.abs(fresh.current),
          );
          expect(Math.abs(warm.slope - fresh.slope)).toBeLessThanOrEqual(1e-7 * fresh.slope);
        }
      },
    ),
    { seed: 20261125, numRuns: 2000 },
  );
});

/** An array of switches with selectors; one half of the voltage at what is not selected. */
function problem(voltage: number, far: number, rows = 24, columns = 20): CrossbarProblem {
  const next = stream(7);
  const kindOf = Uint8Array.from({ length: rows * columns }, () => (next() < 0.5 ? 1 : 2));
  kindOf[columns - 1] = 0;
  const selector: Law = { law: "sinh", resistance: 1e9, scaleVoltage: 0.03 };
  return {
    rows,
    columns,
    rowResistance: 20,
    columnResistance: 20,
    junctions: {
      kinds: [
        { element: { law: "ohmic", resistance: far } },
        { element: { law: "ohmic", resistance: 1e4 }, selector },
        { element: { law: "ohmic", resistance: 1e6 }, selector },
      ],
      kindOf,
    },
    terminals: {
      left: side(
        rows,
        (k) => (k === 0 ? voltage : voltage / 2),
        () => 0,
      ),
      bottom: side(
        columns,
        (k) => (k === columns - 1 ? 0 : voltage / 2),
        () => 0,
      ),
    },
  };
}

test("a solve from the solution of a network like it ends at the same voltages, in fewer linear solves", () => {
  for (const [voltage, far] of [
    [1.6, 1e4],
    [1.7, 1e4],
    [1.5, 5e4],
    [3, 1e4],
  ] as const) {
    const start = solveCrossbar(problem(1.5, 1e4));
    const cold = solved(problem(voltage, far));
    const warm = solveCrossbar(problem(voltage, far), { start });
    expect(warm.converged).toBe(true);
    if (voltage < 2) expect(warm.linearSolves).toBeLessThan(cold.linearSolves);
    cold.junctionCurrents.forEach((current, k) => {
      expect(Math.abs(warm.junctionCurrents[k]! - current)).toBeLessThanOrEqual(
        1e-9 * Math.abs(current),
      );
    });
  }
});

test.each([
  [24, 20],
  [23, 19],
  [22, 17],
])(
  "a solve of %i x %i that starts from its own solution needs no more than one linear solve",
  (m, n) => {
    const start = solved(problem(1.5, 1e4, m, n));
    const again = solveCrossbar(problem(1.5, 1e4, m, n), { start });
    expect(again.converged).toBe(true);
    expect(again.linearSolves).toBeLessThanOrEqual(1);
  },
);

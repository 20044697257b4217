/**
 * How much work the solver does. Its arithmetic is the same everywhere, so that the counts are exact, and
 * those of today are the most that are allowed: a change that raises one makes the solver slower.
 */
import { describe, expect, test } from "vitest";
import type { CrossbarProblem, JunctionKind } from "../../../src/numerics/crossbar/problem.ts";
import { solveCrossbar } from "../../../src/numerics/crossbar/solve.ts";
import { ohmic, side, solved, stream } from "./build.ts";

/** Two interleaved networks: lines of one kind are tied to each other, hardly to those of the other. */
function interleaved(rows: number, columns: number, kindOf: (line: number) => number) {
  const p = ohmic({ rows, columns, r: 1, scheme: "floating" });
  const conductance = Float64Array.from({ length: rows * columns }, (_, k) =>
    kindOf(Math.floor(k / columns)) === kindOf(k % columns) ? 1e-2 : 1e-9,
  );
  return { ...p, junctions: { conductance } };
}

/** The network turned by half a turn: what was at the left and the bottom is at the right and the top. */
function turned(p: CrossbarProblem): CrossbarProblem {
  if (!("conductance" in p.junctions)) throw new Error("ohmic only");
  const { left, bottom } = p.terminals;
  const back = ({ voltage, resistance }: NonNullable<typeof left>) => ({
    voltage: voltage.slice().reverse(),
    resistance: resistance.slice().reverse(),
  });
  return {
    ...p,
    junctions: { conductance: p.junctions.conductance.slice().reverse() },
    terminals: { right: back(left!), top: back(bottom!) },
  };
}

/** By the name of a network: itself, and iterations by the line method and over coarser networks. */
const LINEAR: Record<string, () => CrossbarProblem> = {
  "32 x 32, floating": () => ohmic({ rows: 32, columns: 32, r: 20, scheme: "floating" }),
  "64 x 64, floating": () => ohmic({ rows: 64, columns: 64, r: 20, scheme: "floating" }),
  "128 x 128, floating": () => ohmic({ rows: 128, columns: 128, r: 20, scheme: "floating" }),
  "61 x 47, one half": () => ohmic({ rows: 61, columns: 47, r: 5, scheme: "one-half" }),
  "61 x 47, from the right and the top": () =>
    turned(ohmic({ rows: 61, columns: 47, r: 5, scheme: "one-half" })),
  "tied strongly": () => ohmic({ rows: 64, columns: 64, r: 20, decades: [1.7, 1.7] }),
  "of twelve decades": () => ohmic({ rows: 48, columns: 80, r: 20, decades: [0, 12] }),
  "joined in neighbours": () => interleaved(61, 47, (k) => (k >> 1) & 1),
  "joined in alternate lines": () => interleaved(61, 47, (k) => k & 1),
  "joined in outer lines": () => interleaved(61, 47, (k) => [0, 1, 1, 0][k & 3]!),
};
const ITERATIONS: Record<string, readonly [line: number, coarsened: number]> = {
  "32 x 32, floating": [29, 15],
  "64 x 64, floating": [22, 10],
  "128 x 128, floating": [36, 12],
  "61 x 47, one half": [12, 6],
  "61 x 47, from the right and the top": [12, 6],
  "tied strongly": [115, 15],
  "of twelve decades": [385, 127],
  "joined in neighbours": [62, 25],
  "joined in alternate lines": [71, 29],
  "joined in outer lines": [56, 23],
};

describe("a linear network", () => {
  test.each(Object.keys(LINEAR))("%s", (name) => {
    const problem = LINEAR[name]!();
    const [line, coarsened] = (["line", "coarsened"] as const).map(
      (method) => solved(problem, method).iterations,
    );
    expect(line).toBeLessThanOrEqual(ITERATIONS[name]![0]);
    expect(coarsened).toBeLessThanOrEqual(ITERATIONS[name]![1]);
  });
});

test.each([
  [8, 64, "line"],
  [64, 8, "line"],
  [23, 30, "line"],
  [24, 40, "coarsened"],
  [40, 24, "coarsened"],
] as const)(
  "%i x %i is solved by the %s method unless another is asked for",
  (rows, columns, method) => {
    const problem = ohmic({ rows, columns, r: 20, scheme: "floating" });
    const iterations = {
      line: solved(problem, "line").iterations,
      coarsened: solved(problem, "coarsened").iterations,
    };
    expect(iterations.coarsened).toBeLessThan(iterations.line);
    expect(solved(problem).iterations).toBe(iterations[method]);
  },
);

const threshold = (widthVoltage: number) =>
  ({
    law: "threshold",
    onResistance: 1e3,
    offResistance: 1e8,
    thresholdVoltage: 0.6,
    widthVoltage,
  }) as const;
const KINDS: Record<string, JunctionKind[]> = {
  sinh: [0, 1, 2].map((k) => ({
    element: { law: "sinh", resistance: 1e6 * 5 ** k, scaleVoltage: 0.07 },
  })),
  selectors: [1e4, 1e6].map((resistance) => ({
    element: { law: "ohmic", resistance },
    selector: { law: "sinh", resistance: 1e9, scaleVoltage: 0.05 },
  })),
  diodes: [1e4, 1e6].map((resistance) => ({
    element: { law: "ohmic", resistance },
    selector: { law: "diode", saturationCurrent: 1e-12, emissionVoltage: 0.03 },
  })),
  thresholds: [{ element: threshold(0.05) }, { element: threshold(0.1) }],
};
const SCHEMES = ["half", "grounded", "floating"] as const;
const STEPS: Record<string, readonly [solves: number, iterations: number]> = {
  "sinh half": [7, 14],
  "thresholds half": [7, 14],
  "sinh grounded": [10, 20],
  "sinh floating": [10, 22],
  "selectors half": [4, 6],
  "selectors grounded": [4, 6],
  "diodes half": [4, 6],
  "diodes grounded": [4, 6],
  "selectors floating": [11, 16],
  "diodes floating": [7, 7],
  "thresholds grounded": [6, 12],
  "thresholds floating": [11, 28],
};

function mixed(kinds: JunctionKind[], scheme: (typeof SCHEMES)[number]): CrossbarProblem {
  const next = stream(11);
  const [rows, columns, volts] = [28, 33, 1.4];
  const kindOf = Uint8Array.from({ length: rows * columns }, () => next() * kinds.length);
  const idle = scheme === "half" ? volts / 2 : 0;
  const idleOhms = scheme === "floating" ? Number.NaN : 100;
  return {
    rows,
    columns,
    rowResistance: 10,
    columnResistance: 10,
    junctions: { kinds, kindOf },
    terminals: {
      left: side(
        rows,
        (k) => (k === 0 ? volts : idle),
        (k) => (k === 0 ? 100 : idleOhms),
      ),
      bottom: side(
        columns,
        (k) => (k === columns - 1 ? 0 : idle),
        (k) => (k === columns - 1 ? 100 : idleOhms),
      ),
    },
  };
}

describe("a network that bends", () => {
  const all = Object.keys(KINDS).flatMap((kind) => SCHEMES.map((one) => [kind, one] as const));
  test.each(all)("of %s, %s", (kind, scheme) => {
    const { linearSolves, iterations } = solved(mixed(KINDS[kind]!, scheme));
    expect(linearSolves).toBeLessThanOrEqual(STEPS[`${kind} ${scheme}`]![0]);
    expect(iterations).toBeLessThanOrEqual(STEPS[`${kind} ${scheme}`]![1]);
  });

  test("takes no more solves than it is allowed, and says what is left", () => {
    const problem = mixed(KINDS.sinh!, "half");
    for (const maxSolves of [1, 2, 3]) {
      const cut = solveCrossbar(problem, { maxSolves });
      expect(cut.converged).toBe(false);
      expect(cut.residual).toBeGreaterThan(1e-10);
    }
  });
});

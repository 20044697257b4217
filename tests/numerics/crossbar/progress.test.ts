/** What an iteration says of itself is what it did, and it ends where nothing more is to be gained. */
import { expect, test } from "vitest";
import { type Engine, makeEngine } from "../../../src/numerics/crossbar/engine.ts";
import { newton } from "../../../src/numerics/crossbar/newton.ts";
import { Gains } from "../../../src/numerics/crossbar/polish.ts";
import type { CrossbarProblem, Law } from "../../../src/numerics/crossbar/problem.ts";
import { refine } from "../../../src/numerics/crossbar/refine.ts";
import { solveCrossbar } from "../../../src/numerics/crossbar/solve.ts";
import { ohmic, side, solved } from "./build.ts";

function bent(law: Law, scheme: "one-half" | "floating" = "one-half"): CrossbarProblem {
  const { junctions: _none, ...rest } = ohmic({ rows: 6, columns: 5, r: 20, scheme });
  return { ...rest, junctions: { kinds: [{ element: law }], kindOf: new Uint8Array(30) } };
}
const sinh: Law = { law: "sinh", resistance: 1e6, scaleVoltage: 0.05 };
const threshold: Law = {
  ...{ law: "threshold", onResistance: 1e3, offResistance: 1e7 },
  ...{ thresholdVoltage: 0.4, widthVoltage: 0.02 },
};

/** An engine that writes down what it was asked for. */
function watched(problem: CrossbarProblem) {
  const engine = makeEngine(problem, {});
  const did = { iterations: 0, solves: 0, evaluations: 0 };
  const watching: Engine = {
    ...engine,
    solve(tolerance, most) {
      const result = engine.solve(tolerance, most);
      did.solves++;
      did.iterations += result.iterations;
      return result;
    },
    evaluate() {
      did.evaluations++;
      engine.evaluate();
    },
  };
  return { engine: watching, did };
}

test("iterations and solves are those that were done, to the last one allowed", () => {
  for (const [run, problem] of [
    [refine, ohmic({ rows: 9, columns: 13, r: 20, scheme: "floating" })],
    [refine, ohmic({ rows: 12, columns: 7, r: 20, decades: [0, 12] })],
    [newton, bent(sinh)],
    [newton, bent(threshold, "floating")],
  ] as const) {
    for (const most of [1, 2, 100]) {
      const { engine, did } = watched(problem);
      const { iterations, solves } = run(engine, most);
      expect({ iterations, solves }).toEqual({ iterations: did.iterations, solves: did.solves });
      expect(iterations).toBeGreaterThan(0);
    }
    const { did, engine } = watched(problem);
    expect(run(engine, 100).done).toBe(true);
    const short = watched(problem);
    expect(run(short.engine, did.solves - 1).done).toBe(false);
    expect(short.did.solves).toBe(did.solves - 1);
  }
});

test("every step of Newton's method takes one evaluation where it need not be cut", () => {
  // Those of today are the most that are allowed.
  for (const [law, scheme, most] of [
    [sinh, "one-half", 8],
    [sinh, "floating", 5],
    [threshold, "one-half", 10],
    [threshold, "floating", 15],
  ] as const) {
    const { engine, did } = watched(bent(law, scheme));
    newton(engine, 100);
    expect(did.evaluations).toBeLessThanOrEqual(most);
  }
});

test("a bent network that rounding leaves unsolved is none", () => {
  const { junctions: _none, ...rest } = bent(sinh);
  const kinds = [1e200, 1e-200].map((resistance) => ({ element: { ...sinh, resistance } }));
  const kindOf = Uint8Array.from({ length: 30 }, (_, k) => ((k * k) % 3) & 1);
  const problem = { ...rest, junctions: { kinds, kindOf } };
  const { converged, residual } = solveCrossbar(problem);
  expect(converged).toBe(false);
  expect(newton(makeEngine(problem, {}), 100).done).toBe(false);
  expect(residual).not.toBeLessThanOrEqual(1e-10);
});

test("a bent array without a voltage is at rest", () => {
  const { terminals, ...array } = bent(sinh);
  const solution = solved({
    ...array,
    terminals: { left: { ...terminals.left!, voltage: new Float64Array(6) } },
  });
  expect(solution).toMatchObject({ residual: 0, energyError: 0, linearSolves: 0, iterations: 0 });
});

test("solves that bring neither error nor residual down by half are counted until one does", () => {
  const gains = new Gains();
  const stuck = (error: number, residual: number) => gains.stuck(error, residual);
  expect(stuck(1, 1)).toBe(0);
  expect(stuck(0.49, 1)).toBe(0);
  expect(stuck(0.4, 0.6)).toBe(1);
  expect(stuck(0.3, 0.5)).toBe(2);
  // A half is not below a half.
  expect(stuck(0.15, 0.25)).toBe(3);
  expect(stuck(7, 7)).toBe(4);
  expect(stuck(7, 0.12)).toBe(0);
  expect(stuck(0.07, 0.12)).toBe(0);
  expect(stuck(0.07, Number.NaN)).toBe(1);
});

test("a solution whose energies do not add up is none: a volt at a height of a billion volts", () => {
  const p = ohmic({ rows: 3, columns: 2, r: 10 });
  const at = (list: Float64Array) =>
    side(
      list.length,
      (k) => 1e9 + list[k]!,
      () => 100,
    );
  const { left, bottom } = p.terminals;
  const terminals = { left: at(left!.voltage), bottom: at(bottom!.voltage) };
  const { residual, energyError, converged } = solveCrossbar({ ...p, terminals });
  expect(residual).toBeLessThan(1e-12);
  expect(energyError).toBeGreaterThan(1e-10);
  expect(converged).toBe(false);
});

test("an iteration takes no more steps than allowed, and ends where doubles do", () => {
  const solve = (mostSteps: number) => {
    const problem = ohmic({ rows: 24, columns: 24, r: 20, decades: [0, 12] });
    const engine = makeEngine(problem, { method: "line" });
    engine.evaluate();
    engine.judge();
    engine.prepare();
    return engine.solve(0, mostSteps);
  };
  expect(solve(7).iterations).toBe(7);
  const all = solve(5000);
  expect(all.iterations).toBeLessThan(1000);
  expect(all.reduction).toBeLessThan(1e-100);
  expect(all.work).toBeGreaterThan(0);
});

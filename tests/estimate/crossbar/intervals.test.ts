// Intervals of a solved tile are those of the closed forms times the ratio of solve and closed form
// at the nominal parameters. How far that is from solving each draw is measured here.
import { expect, test } from "vitest";
import {
  crossbarSolve,
  SOLVED_NAMES,
  solveInputs,
} from "../../../src/estimate/crossbar/procedure.ts";
import { Draws } from "../../../src/estimate/draws.ts";
import { modelOf } from "../study.ts";

const TOP = { technology: "cmos-65" };
const SWITCH = {
  from: "interface-oxide",
  on_resistance: "150 kohm",
  off_resistance: "10 Mohm",
};
const BARE = {
  cell: { switch: SWITCH, selector: { kind: "none" } },
  bias: { read: "grounded", write: "one-half" },
  tile: { rows: 96, columns: 96 },
  wires: { rows: { resistivity: "1.5e-7 ohm m" } },
};
const NONLINEAR = {
  ...BARE,
  cell: { switch: SWITCH, selector: "nonlinear-tunnel" },
  bias: "one-half",
  tile: { rows: 64, columns: 64 },
  wires: { rows: { resistivity: "2e-6 ohm m" } },
};
const DRAWS = 24;

test.each([
  ["bare", "none", BARE, 1e-3, 0.03],
  ["nonlinear", "tunnel", NONLINEAR, 0.01, 0.12],
] as const)(
  "samples of a solved %s tile stay close to solving each draw",
  (_, kind, keys, far, all) => {
    const model = modelOf(keys, TOP);
    expect(model.corner?.by).toBe("network solve");
    expect(model.corner!.drop).toBeGreaterThan(0.05);
    const inputs = solveInputs(kind);
    const samples = model.sample(new Draws(7, DRAWS), [...inputs, ...SOLVED_NAMES]);
    const solve = crossbarSolve(kind, model.design.cell.schemes!);
    const out = new Float64Array(SOLVED_NAMES.length);
    const errors = new Map<string, number>();
    for (let i = 0; i < DRAWS; i++) {
      solve.run(
        Float64Array.from(inputs, (name) => samples.get(name)![i]!),
        out,
      );
      SOLVED_NAMES.forEach((name, k) => {
        if (out[k] === 0) return;
        const error = Math.abs(samples.get(name)![i]! / out[k]! - 1);
        errors.set(name, Math.max(errors.get(name) ?? 0, error));
      });
    }
    for (const name of ["cell_on_current", "read_on_column_current", "write_delivered_voltage"]) {
      expect(errors.get(name)!, name).toBeLessThan(far);
    }
    for (const [name, error] of errors) expect(error, name).toBeLessThan(all);
  },
  60000,
);

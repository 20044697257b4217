/** The crossbar solver: Newton's method on the network, every linear system by conjugate gradients. */
import { checkProblem } from "./check.ts";
import { coarsenAll } from "./coarsen.ts";
import { junctionModel } from "./junctions.ts";
import { factor, makeLevel } from "./level.ts";
import { solveStep } from "./linear.ts";
import { powers, terminalCurrents } from "./outputs.ts";
import type { CrossbarProblem, CrossbarSolution, SolveOptions } from "./problem.ts";
import { junctionVoltages, kirchhoff } from "./residual.ts";
import { advance, networkOf, startPotentials } from "./state.ts";

/** Solves one crossbar. */
export function solveCrossbar(
  problem: CrossbarProblem,
  options: SolveOptions = {},
): CrossbarSolution {
  checkProblem(problem);
  const network = networkOf(problem);
  const { m, n, top, ends } = network;
  const size = m * n;
  const g = new Float64Array(size);
  const model = junctionModel(problem, top, g);
  const x = startPotentials(network);
  const v = new Float64Array(size);
  const current = new Float64Array(size);
  junctionVoltages(x, v);
  model.evaluate(v, current, g);
  const level = makeLevel(
    { m, n, top },
    { row: network.rowResistance, column: network.columnResistance },
    g,
    ends,
  );
  if (options.method === "coarsened") coarsenAll(level);
  const missing = { u: new Float64Array(size), w: new Float64Array(size) };
  const vectors = {
    r: level.r,
    s: new Float64Array(size),
    p: new Float64Array(size),
    q: new Float64Array(size),
    w: missing.w,
  };
  let residual = 1;
  let iterations = 0;
  let solves = 0;
  const most = options.maxSolves ?? 60;
  for (; ; solves++) {
    let largest = 0;
    for (let k = 0; k < size; k++) largest = Math.max(largest, Math.abs(current[k]!));
    residual = kirchhoff(network, x, current, missing, Math.max(1e-15 * largest, Number.MIN_VALUE));

    if (residual < 1e-13 || solves === most) break;
    const result = solveStep(level, missing, vectors, 1e-10, 10000);
    iterations += result.iterations;
    advance(x.uh, x.ul, missing.u, 1);
    advance(x.wh, x.wl, vectors.w, 1);
    junctionVoltages(x, v);
    model.evaluate(v, current, g);
    if (!model.linear) factor(level);
  }
  const flows = terminalCurrents(network, x, current);
  const power = powers(network, x, v, current, flows.terminalCurrents);
  const used = power.junction + power.wire + power.driver;
  const cut = top * n;
  return {
    converged: true,
    residual,
    energyError: Math.abs(power.source - used) / (Math.abs(power.source) + used || 1),
    iterations,
    linearSolves: solves,
    rowVoltages: x.uh.slice(cut),
    columnVoltages: x.wh.slice(cut),
    junctionVoltages: v.slice(cut),
    junctionCurrents: current.slice(cut),
    ...flows,
    power,
  };
}

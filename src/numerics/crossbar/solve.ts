/** The crossbar solver: Newton's method on the network, every linear system by conjugate gradients. */
import { checkProblem } from "./check.ts";
import { type Engine, makeEngine } from "./engine.ts";
import type { Shape } from "./lines.ts";
import { newton } from "./newton.ts";
import { powers, terminalCurrents } from "./outputs.ts";
import type { Progress } from "./polish.ts";
import type { CrossbarProblem, CrossbarSolution, SolveOptions } from "./problem.ts";
import { refine } from "./refine.ts";

/** Largest mismatch of supplied and dissipated power that a solution may have. */
const ENERGY = 1e-10;

/**
 * Solves one crossbar. A solution that says `converged` obeys Kirchhoff's law at every node and conserves energy to
 * 1e-10; check it, or use `failUnlessSolved`.
 * @throws TenfoldError when the problem has no solution or no meaning
 */
export function solveCrossbar(
  problem: CrossbarProblem,
  options: SolveOptions = {},
): CrossbarSolution {
  checkProblem(problem);
  const engine = makeEngine(problem, options);
  const run = engine.model.linear ? refine : newton;
  return solutionOf(engine, run(engine, options.maxSolves ?? 100));
}

function solutionOf(engine: Engine, progress: Progress): CrossbarSolution {
  const { network, x, shape } = engine;
  const v = engine.v.view;
  const current = engine.current.view;
  const flows = terminalCurrents(network, x, current);
  const power = powers(network, x, v, current, flows.terminalCurrents);
  const used = power.junction + power.wire + power.driver;
  const moved = Math.abs(power.source) + used;
  const energyError = moved === 0 ? 0 : Math.abs(power.source - used) / moved;
  return {
    converged: progress.done && energyError <= ENERGY,
    residual: progress.residual,
    energyError,
    iterations: progress.iterations,
    linearSolves: progress.solves,
    rowVoltages: unpadded(x.uh.view, shape),
    columnVoltages: unpadded(x.wh.view, shape),
    junctionVoltages: unpadded(v, shape),
    junctionCurrents: unpadded(current, shape),
    ...flows,
    power,
  };
}

function unpadded(values: Float64Array, shape: Shape): Float64Array {
  const { m, n, top, left } = shape;
  if (left === 0) return values.slice(top * n);
  const columns = n - left;
  const out = new Float64Array((m - top) * columns);
  for (let i = top, to = 0; i < m; i++, to += columns) {
    out.set(values.subarray(i * n + left, i * n + n), to);
  }
  return out;
}

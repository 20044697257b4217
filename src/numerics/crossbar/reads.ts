/**
 * All single-cell reads of one ohmic array. Seen from its sources the array is a network of one port per line; the
 * conductances between ports take one solve per line, and every read is then a sum over that small network.
 */
import { fail, refuse } from "../../errors/problem.ts";
import { checkProblem } from "./check.ts";
import { makeEngine } from "./engine.ts";
import { terminalCurrents } from "./outputs.ts";
import { effectiveResistances } from "./ports.ts";
import type { CrossbarProblem, Junctions, TerminalSide } from "./problem.ts";
import { refine } from "./refine.ts";

const MOST_SOLVES = 100;

/** The array that is read: rows are driven at their left ends, columns sensed at their bottom ends. */
export type ReadArray = Omit<CrossbarProblem, "terminals">;

export interface ReadScheme {
  /** Of the selected row's source [V]; the selected column is sensed at 0 V. */
  readonly voltage: number;
  /** Of all row terminals and of all column terminals [ohm]. */
  readonly rowTerminal: number;
  readonly columnTerminal: number;
  /** Voltages of the other rows and columns, from 0 to `voltage` [V]; without them they float. */
  readonly others?: { readonly rows: number; readonly columns: number };
}

export interface Reads {
  /** Current out of the selected column for every selected cell, rows x columns [A]. */
  readonly sensed: Float64Array;
  /** Current into the selected row [A]. */
  readonly driven: Float64Array;
  /** Crossbars solved. */
  readonly solves: number;
}

function idle(count: number, resistance: number): TerminalSide {
  return {
    voltage: new Float64Array(count),
    resistance: new Float64Array(count).fill(resistance),
  };
}

/**
 * Conductances between the sources of all lines (rows, then columns), p x p: entry (a, b) is the current that arrives
 * at b per volt at a, all other sources at zero. Never negative; symmetric; the diagonal is left zero. The line
 * factors and coarser levels are made once.
 */
export function portConductances(
  array: ReadArray,
  rowTerminal: number,
  columnTerminal: number,
): Float64Array {
  const { rows: m, columns: n } = array;
  const p = m + n;
  const problem = {
    ...array,
    terminals: { left: idle(m, rowTerminal), bottom: idle(n, columnTerminal) },
  };
  checkProblem(problem);
  const engine = makeEngine(problem, {});
  const { sources, shape } = engine.network;
  const out = new Float64Array(p * p);
  // By symmetry the last line needs no solve of its own.
  for (let a = 0; a < p - 1; a++) {
    const [side, at] = a < m ? [sources.left, a + shape.top] : [sources.bottom, a - m + shape.left];
    side[at] = 1;
    engine.restart();
    const { done, residual } = refine(engine, MOST_SOLVES);
    if (!done) {
      fail({
        code: "not-converged",
        what: `the solve for line ${a} did not converge`,
        got: `a Kirchhoff error of ${residual}`,
      });
    }
    const { left, bottom } = terminalCurrents(
      engine.network,
      engine.x,
      engine.current.view,
    ).terminalCurrents;
    side[at] = 0;
    for (let b = a + 1; b < p; b++) {
      const current = b < m ? -left[b]! : bottom[b - m]!;
      out[a * p + b] = Math.max(0, current);
      out[b * p + a] = out[a * p + b]!;
    }
  }
  return out;
}

function isOhmic(junctions: Junctions): boolean {
  if ("conductance" in junctions) return true;
  return junctions.kinds.every(
    (k) => k.element.law === "ohmic" && (k.selector === undefined || k.selector.law === "ohmic"),
  );
}

/**
 * Reads every cell once.
 * @throws TenfoldError when a junction is not ohmic: reads of a nonlinear array do not add up
 */
export function allReads(array: ReadArray, scheme: ReadScheme): Reads {
  if (!isOhmic(array.junctions)) {
    refuse({
      code: "not-linear",
      what: "reads are solved together for ohmic junctions only",
      fix: "solve each read of a nonlinear array on its own",
    });
  }
  const { rows: m, columns: n } = array;
  const p = m + n;
  const sensed = new Float64Array(m * n);
  const driven = new Float64Array(m * n);
  const { voltage, rowTerminal, columnTerminal, others } = scheme;
  if (others === undefined) {
    // The two selected terminals are in series with the array between their lines.
    const y = portConductances(array, 0, 0);
    const between = effectiveResistances(y, p);
    for (let i = 0, k = 0; i < m; i++) {
      for (let j = 0; j < n; j++, k++) {
        const current = voltage / (rowTerminal + columnTerminal + between[i * p + m + j]!);
        sensed[k] = current;
        driven[k] = current;
      }
    }
    return { sensed, driven, solves: p - 1 };
  }
  const y = portConductances(array, rowTerminal, columnTerminal);
  const rowSum = new Float64Array(p);
  const columnSum = new Float64Array(p);
  for (let a = 0; a < p; a++) {
    for (let b = 0; b < m; b++) rowSum[a]! += y[a * p + b]!;
    for (let b = m; b < p; b++) columnSum[a]! += y[a * p + b]!;
  }
  // Every source lies between the selected two, so all terms have one sign.
  for (let i = 0, k = 0; i < m; i++) {
    for (let j = 0; j < n; j++, k++) {
      const c = m + j;
      const own = y[i * p + c]!;
      sensed[k] = voltage * own + others.rows * (rowSum[c]! - own) + others.columns * columnSum[c]!;
      driven[k] =
        voltage * own +
        (voltage - others.rows) * rowSum[i]! +
        (voltage - others.columns) * (columnSum[i]! - own);
    }
  }
  return { sensed, driven, solves: p - 1 };
}

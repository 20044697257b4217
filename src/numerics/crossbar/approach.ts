/**
 * Brings a nonlinear network near its solution. Newton's method alone would come down an exponential one scale voltage
 * per step. Here every junction is linearised at a point of its own law, which need not be its present voltage: where
 * the law lies far above its tangent, the network limits the current, and the next tangent is taken at that current.
 */
import type { Engine } from "./engine.ts";
import type { Progress } from "./polish.ts";

/** A junction is limited when its law gives more than this times the current of its tangent. */
const ABOVE = 2;
const MOST_ROUNDS = 12;
const TOLERANCE = 1e-2;
const MOST_ITERATIONS = 400;
/** Currents below this part of the largest do not matter here. */
const SMALL = 1e-6;

export function approach(engine: Engine): Pick<Progress, "iterations" | "solves"> {
  const { v, current, slopes, size, voltageFor, evaluateAt } = engine;
  const point = new Float64Array(size);
  const held = new Float64Array(size);
  engine.useChords();
  // The chord is a tangent through the origin.
  for (let k = 0; k < size; k++) current.view[k] = slopes.view[k]! * v.view[k]!;
  engine.judge();
  let iterations = 0;
  for (let solves = 1; ; solves++) {
    engine.prepare();
    iterations += engine.solve(TOLERANCE, MOST_ITERATIONS).iterations;
    engine.advance(1);
    engine.readVoltages();
    let largest = 0;
    for (let k = 0; k < size; k++) {
      held[k] = held[k]! + slopes.view[k]! * (v.view[k]! - point[k]!);
      largest = Math.max(largest, Math.abs(held[k]!));
    }
    // held: the current of the tangent at the new voltage.
    evaluateAt(v.view, current.view, slopes.view);
    let limited = 0;
    for (let k = 0; k < size; k++) {
      const tangent = held[k]!;
      const own = current.view[k]!;
      point[k] = v.view[k]!;
      if (Math.abs(own) <= ABOVE * Math.abs(tangent) + SMALL * largest) continue;
      const there = voltageFor(k, tangent);
      if (Number.isNaN(there)) continue;
      point[k] = there;
      limited++;
    }
    if (limited === 0 || solves === MOST_ROUNDS) return { iterations, solves };
    evaluateAt(point, held, slopes.view);
    for (let k = 0; k < size; k++) {
      current.view[k] = held[k]! + slopes.view[k]! * (v.view[k]! - point[k]!);
    }
    engine.judge();
  }
}

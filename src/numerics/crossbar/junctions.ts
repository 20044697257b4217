/** All junctions of an array at once. */
import { evaluateJunction, type Point } from "./laws.ts";
import type { CrossbarProblem } from "./problem.ts";

/** Evaluates all junctions: voltages to currents and slopes. Arrays are padded like the network's. */
export interface JunctionModel {
  readonly linear: boolean;
  /** Current [A] and slope [S] at the voltages v. A linear model leaves the slopes alone. */
  evaluate(v: Float64Array, current: Float64Array, slope: Float64Array): void;
}

/** The model of a problem's junctions, and the conductance at zero voltage in `slope`. */
export function junctionModel(
  problem: CrossbarProblem,
  top: number,
  slope: Float64Array,
): JunctionModel {
  const { columns: n, junctions } = problem;
  const shift = top * n;
  if ("conductance" in junctions) {
    slope.set(junctions.conductance, shift);
    return linearModel(shift);
  }
  const { kinds, kindOf } = junctions;
  if (kinds.every((k) => k.element.law === "ohmic" && (k.selector?.law ?? "ohmic") === "ohmic")) {
    const point: Point = { current: 0, slope: 0 };
    const values = kinds.map((kind) => {
      evaluateJunction(kind, 0, point);
      return point.slope;
    });
    for (let k = 0; k < kindOf.length; k++) slope[shift + k] = values[kindOf[k]!]!;
    return linearModel(shift);
  }
  const point: Point = { current: 0, slope: 0 };
  return {
    linear: false,
    evaluate(v, current, out) {
      for (let k = 0; k < kindOf.length; k++) {
        evaluateJunction(kinds[kindOf[k]!]!, v[shift + k]!, point);
        current[shift + k] = point.current;
        out[shift + k] = point.slope;
      }
    },
  };
}

function linearModel(shift: number): JunctionModel {
  return {
    linear: true,
    evaluate(v, current, slope) {
      for (let k = shift; k < v.length; k++) current[k] = slope[k]! * v[k]!;
    },
  };
}

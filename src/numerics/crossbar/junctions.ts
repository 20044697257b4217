/** All junctions of an array at once. */
import { junctionVoltageFor } from "./inverse.ts";
import { evaluateJunction, type Point } from "./laws.ts";
import type { Shape } from "./lines.ts";
import type { CrossbarProblem } from "./problem.ts";

/** Evaluates all junctions: voltages to currents and slopes. Arrays are padded like the network's. */
export interface JunctionModel {
  readonly linear: boolean;
  /** Current [A] and slope [S] at the voltages v. A linear model does nothing: slopes times voltages will do. */
  evaluate(v: Float64Array, current: Float64Array, slope: Float64Array): void;
  /** About the voltage at which the junction at k of the padded arrays carries a current. */
  voltageFor(k: number, current: number): number;
}

/** The model of a problem's junctions, and the conductance at zero voltage in `slope`. */
export function junctionModel(
  problem: CrossbarProblem,
  shape: Shape,
  slope: Float64Array,
): JunctionModel {
  const { junctions, columns } = problem;
  const { m, n, top, left } = shape;
  slope.fill(0);
  if ("conductance" in junctions) {
    place(junctions.conductance, columns, shape, slope);
    return LINEAR;
  }
  const { kinds, kindOf } = junctions;
  if (kinds.every((k) => k.element.law === "ohmic" && (k.selector?.law ?? "ohmic") === "ohmic")) {
    const point: Point = { current: 0, slope: 0 };
    const values = kinds.map((kind) => {
      evaluateJunction(kind, 0, point);
      return point.slope;
    });
    for (let i = top, from = 0; i < m; i++) {
      for (let j = left; j < n; j++) slope[i * n + j] = values[kindOf[from++]!]!;
    }
    return LINEAR;
  }
  const point: Point = { current: 0, slope: 0 };
  const memory = new Float64Array(m * n);
  return {
    linear: false,
    evaluate(v, current, out) {
      for (let i = top, from = 0; i < m; i++) {
        for (let k = i * n + left; k < i * n + n; k++) {
          evaluateJunction(kinds[kindOf[from++]!]!, v[k]!, point, memory, k);
          current[k] = point.current;
          out[k] = point.slope;
        }
      }
    },
    voltageFor(k, current) {
      const i = Math.floor(k / n) - top;
      const j = (k % n) - left;
      return i < 0 || j < 0 ? 0 : junctionVoltageFor(kinds[kindOf[i * columns + j]!]!, current);
    },
  };
}

/** Copies an unpadded array into a padded one. */
function place(values: Float64Array, columns: number, shape: Shape, out: Float64Array): void {
  const { m, n, top, left } = shape;
  for (let i = top, from = 0; i < m; i++, from += columns) {
    out.set(values.subarray(from, from + columns), i * n + left);
  }
}

const LINEAR: JunctionModel = { linear: true, evaluate: () => undefined, voltageFor: () => 0 };

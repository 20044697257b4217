/** How far the resistances of a network lie apart, and what drives it. */
import type { CrossbarProblem } from "../../numerics/crossbar/problem.ts";

/** Least and largest resistance [ohm] of a network; ideal wires and terminals are none. */
export interface Extremes {
  readonly least: number;
  readonly most: number;
  /** Largest of all sources, without sign [V]. */
  readonly voltage: number;
  /** The least and the largest source voltage [V]. */
  readonly lowest: number;
  readonly highest: number;
}

export function extremesOf(problem: CrossbarProblem): Extremes {
  let least = Number.POSITIVE_INFINITY;
  let most = 0;
  const note = (resistance: number): void => {
    if (!(resistance > 0 && resistance < Number.POSITIVE_INFINITY)) return;
    least = Math.min(least, resistance);
    most = Math.max(most, resistance);
  };
  note(problem.rowResistance);
  note(problem.columnResistance);
  let [voltage, lowest, highest] = [0, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const side of Object.values(problem.terminals)) {
    side?.resistance.forEach((resistance, k) => {
      note(resistance);
      if (!(resistance >= 0)) return;
      const v = side.voltage[k]!;
      voltage = Math.max(voltage, Math.abs(v));
      lowest = Math.min(lowest, v);
      highest = Math.max(highest, v);
    });
  }
  const { junctions } = problem;
  if ("conductance" in junctions) for (const g of junctions.conductance) note(1 / g);
  else {
    for (const { element, selector } of junctions.kinds) {
      for (const law of [element, selector]) {
        for (const [key, value] of Object.entries(law ?? {})) {
          if (/resistance/i.test(key) && typeof value === "number") note(value);
        }
      }
    }
  }
  return { least, most, voltage, lowest, highest };
}

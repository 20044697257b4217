/** The outputs of a solved case, by their names. */

import { evaluateJunction, type Point } from "../../numerics/crossbar/laws.ts";
import type { CrossbarSolution, JunctionKind } from "../../numerics/crossbar/problem.ts";
import type { CrossbarCase } from "./case.ts";

/** Output name to a number or a list of numbers, all in SI. */
export type Outputs = Record<string, number | number[]>;

function selectedOutputs(theCase: CrossbarCase, solution: CrossbarSolution, out: Outputs): void {
  const { rows, columns } = theCase.problem;
  const { row, column } = theCase.selected!;
  const { junctionVoltages: v, junctionCurrents: current } = solution;
  const chosen = row * columns + column;
  out["selected_voltage"] = v[chosen]!;
  out["selected_current"] = current[chosen]!;
  if (rows * columns === 1) return;
  let worst = 0;
  for (let k = 0; k < v.length; k++) {
    if (k !== chosen) worst = Math.max(worst, Math.abs(v[k]!));
  }
  out["worst_unselected_voltage"] = worst;
  let power = 0;
  for (let j = 0; j < columns; j++) {
    const k = row * columns + j;
    if (k !== chosen) power += v[k]! * current[k]!;
  }
  for (let i = 0; i < rows; i++) {
    const k = i * columns + column;
    if (k !== chosen) power += v[k]! * current[k]!;
  }
  out["half_selected_power"] = power;
}

/** The source voltage of every line of two sides; 0 for a floating one. */
function sourceVoltages(
  theCase: CrossbarCase,
  sides: readonly ["left" | "top", "right" | "bottom"],
) {
  const count = sides[0] === "left" ? theCase.problem.rows : theCase.problem.columns;
  const out = new Float64Array(count);
  for (const side of [sides[1], sides[0]]) {
    const terminals = theCase.problem.terminals[side];
    if (terminals === undefined) continue;
    for (let k = 0; k < count; k++) {
      if (!Number.isNaN(terminals.resistance[k]!)) out[k] = terminals.voltage[k]!;
    }
  }
  return out;
}

/** Column currents with all wires and terminals ideal. */
function idealColumnCurrents(theCase: CrossbarCase): number[] {
  const { rows, columns, junctions } = theCase.problem;
  const x = sourceVoltages(theCase, ["left", "right"]);
  const c = sourceVoltages(theCase, ["top", "bottom"]);
  const out = new Array<number>(columns).fill(0);
  const point: Point = { current: 0, slope: 0 };
  const current = (k: number, v: number): number => {
    if ("conductance" in junctions) return junctions.conductance[k]! * v;
    evaluateJunction(junctions.kinds[junctions.kindOf[k]!] as JunctionKind, v, point);
    return point.current;
  };
  for (let i = 0, k = 0; i < rows; i++) {
    for (let j = 0; j < columns; j++, k++) out[j]! += current(k, x[i]! - c[j]!);
  }
  return out;
}

/** By how much every junction's voltage misses that with ideal wires and terminals [V]. */
export function voltageErrors(theCase: CrossbarCase, solution: CrossbarSolution): Float64Array {
  const { columns } = theCase.problem;
  const x = sourceVoltages(theCase, ["left", "right"]);
  const c = sourceVoltages(theCase, ["top", "bottom"]);
  return solution.junctionVoltages.map(
    (v, k) => v - (x[Math.floor(k / columns)]! - c[k % columns]!),
  );
}

/** All outputs that the case asks for. */
export function outputsOf(theCase: CrossbarCase, solution: CrossbarSolution): Outputs {
  const { problem } = theCase;
  const out: Outputs = {
    row_currents: [...solution.rowCurrents],
    column_currents: [...solution.columnCurrents],
  };
  const has = (side: "left" | "right" | "top" | "bottom") =>
    problem.terminals[side]?.resistance.some((r) => !Number.isNaN(r)) === true;
  for (const [first, far] of [
    ["left", "right"],
    ["top", "bottom"],
  ] as const) {
    if (!has(first) || !has(far)) continue;
    out[`${first}_currents`] = [...solution.terminalCurrents[first]];
    out[`${far}_currents`] = [...solution.terminalCurrents[far]];
  }
  if (theCase.selected !== undefined) selectedOutputs(theCase, solution, out);
  if (theCase.probes.length > 0) {
    const places = theCase.probes.map(([i, j]) => i * problem.columns + j);
    out["probe_voltages"] = places.map((k) => solution.junctionVoltages[k]!);
    out["probe_currents"] = places.map((k) => solution.junctionCurrents[k]!);
  }
  const { source, junction, wire, driver } = solution.power;
  out["source_power"] = source;
  out["junction_power"] = junction;
  out["wire_power"] = wire;
  out["driver_power"] = driver;
  out["dissipated_power"] = junction + wire + driver;
  if (theCase.bias === "dot-product") {
    const ideal = idealColumnCurrents(theCase);
    // Without the wires that limit it, a steep law's current may be larger than any number.
    if (!ideal.every(Number.isFinite)) return out;
    out["ideal_column_currents"] = ideal;
    // Over no current there is no relative error.
    if (ideal.includes(0)) return out;
    const errors = ideal.map((current, j) => solution.columnCurrents[j]! / current - 1);
    out["column_errors"] = errors;
    out["worst_column_error"] = errors.reduce((most, e) => Math.max(most, Math.abs(e)), 0);
  }
  return out;
}

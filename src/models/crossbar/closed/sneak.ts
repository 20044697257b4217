import { type Procedure, procedure } from "../../../formulas/sheet.ts";
import { acosh } from "../../../numerics/special/elementary.ts";
import { formula, inputsOf, model } from "../../define.ts";
import { type Law, ohmic, series, sinhThrough } from "../../junction.ts";

/** Sneak path of a crossbar of equal resistances whose unselected lines float, ideal wires. */
export const sneakResistance = model({
  name: "sneak_resistance",
  title: "Sneak resistance",
  about:
    "All junctions alike but the selected one, floating lines, ideal wires: three groups in " +
    "series, exact.",
  inputs: {
    junction_resistance: {
      unit: "ohm",
      meaning: "resistance of each unselected junction",
      symbol: "R",
    },
  },
  formulas: {
    sneak_path_resistance: formula(
      "ohm",
      "junction_resistance / (columns - 1) + junction_resistance / ((rows - 1) * (columns - " +
        "1)) + junction_resistance / (rows - 1)",
      "resistance in parallel with the selected junction",
      "cross",
      { symbol: "R_{sneak}" },
    ),
  },
});

/** `count` equal junctions in parallel. */
function parallel(law: Law, count: number): Law {
  return {
    current: (v) => count * law.current(v),
    most: (v) => count * (law.most?.(v) ?? law.current(v)),
    voltage: (i) => law.voltage(i / count),
    resistance: (i) => law.resistance(i / count) / count,
  };
}

/** The current through three groups of equal junctions in series, at a voltage. */
export function sneakCurrent(law: Law, rows: number, columns: number, voltage: number): number {
  if (rows < 2 || columns < 2) return 0;
  const groups = [columns - 1, (rows - 1) * (columns - 1), rows - 1];
  return series(...groups.map((count) => parallel(law, count))).current(voltage);
}

/**
 * The law through the currents at a voltage and at half of it: ohmic, or sinh where it is steeper.
 */
function lawThrough(voltage: number, full: number, half: number): Law {
  const ratio = full / half;
  if (!(ratio > 2 * (1 + 1e-9))) return ohmic(voltage / full);
  return sinhThrough(voltage, full, voltage / (2 * acosh(ratio / 2)));
}

/** Sneak current of a nonlinear crossbar with floating lines. */
export const sneakPath: Procedure = procedure({
  name: "sneak_path",
  title: "Sneak current of a crossbar with floating lines",
  about:
    "Three groups of equal junctions in series, ideal wires, solved inside a bracket to the " +
    "last digits. Each junction follows the sinh law through its currents at the voltage and " +
    "at half of it, which is exact for ohmic and sinh junctions; a diode blocks the middle " +
    "group, so that for it the result is an upper bound.",
  source: "this project",
  inputs: inputsOf(["rows", "columns", "path_voltage", "path_full", "path_half"], {
    path_voltage: { unit: "V", meaning: "voltage between the selected lines" },
    path_full: { unit: "A", meaning: "current of an unselected junction at that voltage" },
    path_half: { unit: "A", meaning: "current of an unselected junction at half of it" },
  }),
  outputs: { sneak_current: { unit: "A", meaning: "current past the selected junction" } },
  run(inputs, outputs) {
    const [rows, columns, voltage, full, half] = inputs as unknown as number[];
    outputs[0] = sneakCurrent(lawThrough(voltage!, full!, half!), rows!, columns!, voltage!);
  },
});

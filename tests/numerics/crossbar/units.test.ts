/**
 * No unit is better than another: a power of two changes no digit of a double, so that currents or voltages in another
 * unit take the same steps to the same digits (scaling of linear and of homogeneous equations).
 */
import { expect, test } from "vitest";
import type { CrossbarProblem, Law, SideName } from "../../../src/numerics/crossbar/problem.ts";
import { solveCrossbar } from "../../../src/numerics/crossbar/solve.ts";
import { ohmic, side } from "./build.ts";

function lawIn(law: Law, volt: number, ohm: number): Law {
  const scaled = Object.entries(law).map(([key, value]) => {
    if (typeof value !== "number") return [key, value];
    const unit = key.endsWith("Current") ? volt / ohm : key.endsWith("Voltage") ? volt : ohm;
    return [key, value * unit];
  });
  return Object.fromEntries(scaled) as Law;
}

function problemIn(p: CrossbarProblem, volt: number, ohm: number): CrossbarProblem {
  const terminals = Object.entries(p.terminals).map(([name, { voltage, resistance }]) => [
    name as SideName,
    { voltage: voltage.map((v) => v * volt), resistance: resistance.map((r) => r * ohm) },
  ]);
  const { junctions } = p;
  return {
    ...p,
    rowResistance: p.rowResistance * ohm,
    columnResistance: p.columnResistance * ohm,
    junctions:
      "conductance" in junctions
        ? { conductance: junctions.conductance.map((g) => g / ohm) }
        : {
            ...junctions,
            kinds: junctions.kinds.map(({ element }) => ({ element: lawIn(element, volt, ohm) })),
          },
    terminals: Object.fromEntries(terminals),
  };
}

/** An open row between rows at 1 V and columns at -1 V: what it carries is rounding. */
function openRow(junction: number, row: number, column: number, driver = 0): CrossbarProblem {
  const [rows, columns] = [12, 7];
  return {
    rows,
    columns,
    rowResistance: row,
    columnResistance: column,
    junctions: { conductance: new Float64Array(rows * columns).fill(1 / junction) },
    terminals: {
      left: side(
        rows,
        () => 1,
        (k) => (k === 8 ? Number.NaN : driver),
      ),
      bottom: side(
        columns,
        () => -1,
        () => driver,
      ),
    },
  };
}

function bent(element: Law): CrossbarProblem {
  const { junctions: _none, ...rest } = ohmic({ rows: 6, columns: 5, r: 20, scheme: "one-half" });
  return { ...rest, junctions: { kinds: [{ element }], kindOf: new Uint8Array(30) } };
}

const PROBLEMS: [string, CrossbarProblem][] = [
  ["resistors, floating", ohmic({ rows: 9, columns: 13, r: 20, scheme: "floating" })],
  ["resistors over coarser networks", ohmic({ rows: 30, columns: 26, r: 20, decades: [2, 8] })],
  ["an open row of weak junctions", openRow(1e12, 1e-3, 1e-3)],
  ["an open row behind resistances", openRow(1e9, 0.01, 1, 50)],
  ["an open row of strong junctions", openRow(1e-3, 1e3, 1e3)],
  ["sinh", bent({ law: "sinh", resistance: 1e6, scaleVoltage: 0.07 })],
  ["diodes", bent({ law: "diode", saturationCurrent: 1e-9, emissionVoltage: 0.04 })],
  [
    "thresholds",
    bent({
      law: "threshold",
      onResistance: 1e3,
      offResistance: 1e7,
      thresholdVoltage: 0.4,
      widthVoltage: 0.05,
    }),
  ],
];

test.each(PROBLEMS)("%s: the same digits in volts or microvolts, ohms or teraohms", (_, p) => {
  const plain = solveCrossbar(p);
  expect(plain.converged).toBe(true);
  for (const [volt, ohm] of [
    [2 ** 20, 1],
    [2 ** -20, 1],
    [1, 2 ** 40],
    [1, 2 ** -40],
  ] as const) {
    const other = solveCrossbar(problemIn(p, volt, ohm));
    const { converged, residual, iterations, linearSolves } = plain;
    expect(other).toMatchObject({ converged, residual, iterations, linearSolves });
    expect(other.columnVoltages).toEqual(plain.columnVoltages.map((v) => v * volt));
    expect(other.junctionCurrents).toEqual(plain.junctionCurrents.map((i) => (i * volt) / ohm));
  }
});

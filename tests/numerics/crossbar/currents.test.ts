/** Currents of terminals and power in wires where they are small differences, by hand (Kirchhoff's laws). */
import { expect, test } from "vitest";
import { solveCrossbar } from "../../../src/numerics/crossbar/solve.ts";
import { ohmic, side, solved } from "./build.ts";

const every = (value: number) => () => value;

test("at a line of one junction both ends together give what that junction takes", () => {
  const conductance = Float64Array.of(1e-3, 2e-4, 5e-5);
  const wires = { rowResistance: 2, columnResistance: 3, junctions: { conductance } };
  const volts = (k: number) => 1 + k;
  for (const ideal of [0, 1, 2]) {
    const near = (k: number) => (k === ideal ? 0 : 20);
    for (const [a, b] of [
      ["left", "right"],
      ["right", "left"],
    ] as const) {
      const { terminalCurrents, rowCurrents, junctionCurrents, rowVoltages } = solved({
        ...{ rows: 3, columns: 1, ...wires },
        terminals: {
          [a]: side(3, volts, near),
          [b]: side(3, every(1), every(1e4)),
          bottom: side(1, every(0), every(10)),
        },
      });
      expect(rowCurrents).toEqual(junctionCurrents);
      expect(rowVoltages[ideal]).toBe(volts(ideal));
      rowVoltages.forEach((u, k) => {
        const far = (1 - u) / 1e4;
        const taken = junctionCurrents[k]! - far;
        expect(Math.abs(terminalCurrents[b][k]! - far)).toBeLessThanOrEqual(1e-15);
        expect(Math.abs(terminalCurrents[a][k]! - taken)).toBeLessThanOrEqual(1e-15);
      });
    }
    for (const [a, b] of [
      ["top", "bottom"],
      ["bottom", "top"],
    ] as const) {
      const { terminalCurrents, columnCurrents, junctionCurrents, columnVoltages } = solved({
        ...{ rows: 1, columns: 3, ...wires },
        terminals: {
          [a]: side(3, volts, near),
          [b]: side(3, every(1), every(1e4)),
          left: side(1, every(0), every(10)),
        },
      });
      expect(columnCurrents).toEqual(junctionCurrents);
      expect(columnVoltages[ideal]).toBe(volts(ideal));
      columnVoltages.forEach((w, k) => {
        const far = (w - 1) / 1e4;
        const taken = junctionCurrents[k]! - far;
        expect(Math.abs(terminalCurrents[b][k]! - far)).toBeLessThanOrEqual(1e-15);
        expect(Math.abs(terminalCurrents[a][k]! - taken)).toBeLessThanOrEqual(1e-15);
      });
    }
  }
});

test("a line that ten amperes pass through loses the picoamperes of its junctions, to the digit", () => {
  const [n, g] = [5, 1e-12];
  const { rowCurrents, columnCurrents, junctionCurrents } = solved({
    ...{ rows: 1, columns: n, rowResistance: 0.01, columnResistance: 0.01 },
    junctions: { conductance: new Float64Array(n).fill(g) },
    terminals: {
      left: side(1, every(1), every(0.03)),
      right: side(1, every(0), every(0.03)),
      bottom: side(n, every(-1), every(10)),
    },
  });
  // 1 V over 0.1 ohm: the nodes lie at 0.7, 0.6 ... 0.3 V.
  for (let k = 0; k < n; k++) {
    expect(Math.abs(junctionCurrents[k]! / (g * (1.7 - k / 10)) - 1)).toBeLessThan(1e-10);
    expect(Math.abs(columnCurrents[k]! / junctionCurrents[k]! - 1)).toBeLessThan(1e-10);
  }
  expect(Math.abs(rowCurrents[0]! / (7.5 * g) - 1)).toBeLessThan(1e-10);
});

test.each([
  ["rows", 1e-9],
  ["rows", 1.3e-7],
  ["columns", 1e-9],
  ["columns", 1.3e-7],
] as const)(
  "the power in wires of %s whose segments of %d ohm drop about a last digit of the voltage",
  (along, r) => {
    const [n, R] = [6, 1e9];
    const inRows = along === "rows";
    const { power } = solved({
      ...(inRows ? { rows: 1, columns: n } : { rows: n, columns: 1 }),
      ...{ rowResistance: inRows ? r : 0, columnResistance: inRows ? 0 : r },
      junctions: { conductance: new Float64Array(n).fill(1 / R) },
      terminals: {
        left: side(inRows ? 1 : n, every(inRows ? 1 : 0), every(0)),
        bottom: side(inRows ? n : 1, every(inRows ? 0 : -1), every(0)),
      },
    });
    // Every segment carries the currents of all junctions beyond it: (1 + 4 + 9 + 16 + 25) (1 V / R)^2 r.
    expect(Math.abs((power.wire * R * R) / r / 55 - 1)).toBeLessThan(1e-12);
  },
);

test("an ideal wire held at its first end feeds the ladders across it", () => {
  const [m, n, r, R, Rs] = [9, 6, 7, 2000, 30];
  const junctions = { conductance: new Float64Array(m * n).fill(1 / R) };
  const columns = solved({
    ...{ rows: m, columns: n, rowResistance: 0, columnResistance: r, junctions },
    terminals: { left: side(m, every(1), every(0)), bottom: side(n, every(0), every(Rs)) },
  });
  const rows = solved({
    ...{ rows: n, columns: m, rowResistance: r, columnResistance: 0, junctions },
    terminals: { right: side(n, every(0), every(Rs)), top: side(m, every(1), every(0)) },
  });
  // The hyperbolic ladder of m equal junctions, seen from the end of its wire.
  const a = 2 * Math.asinh(Math.sqrt(r / R) / 2);
  const input = (r * Math.cosh((m - 0.5) * a)) / (2 * Math.sinh(m * a) * Math.sinh(a / 2));
  for (let k = 0; k < n; k++) {
    expect(Math.abs(columns.columnCurrents[k]! * (Rs + input) - 1)).toBeLessThan(1e-12);
    expect(Math.abs(-rows.rowCurrents[k]! * (Rs + input) - 1)).toBeLessThan(1e-12);
  }
});

test("three equal resistors in a row carry a third of the current of one", () => {
  for (const [near, far] of [
    ["left", "bottom"],
    ["right", "bottom"],
    ["right", "top"],
  ] as const) {
    const { junctionCurrents, rowVoltages, columnVoltages } = solved({
      ...{ rows: 1, columns: 1, rowResistance: 1, columnResistance: 1 },
      junctions: { conductance: Float64Array.of(1e-3) },
      terminals: { [near]: side(1, every(3), every(1e3)), [far]: side(1, every(0), every(1e3)) },
    });
    expect(Math.abs(junctionCurrents[0]! / 1e-3 - 1)).toBeLessThan(1e-15);
    expect(Math.abs(rowVoltages[0]! - 2)).toBeLessThan(1e-15);
    expect(Math.abs(columnVoltages[0]! - 1)).toBeLessThan(1e-15);
  }
});

test("an array without a voltage is at rest: nothing flows and nothing is missing", () => {
  const solution = solved({
    ...{ rows: 5, columns: 4, rowResistance: 1, columnResistance: 1 },
    junctions: { conductance: new Float64Array(20).fill(1e-3) },
    terminals: { left: side(5, every(0), every(10)), bottom: side(4, every(0), every(10)) },
  });
  expect(solution).toMatchObject({ residual: 0, energyError: 0, linearSolves: 0 });
  expect([...solution.junctionCurrents]).toEqual(new Array(20).fill(0));
});

test("the energy error is what sources supply and nothing takes, relative to all that is moved", () => {
  const p = {
    ...{ rows: 5, columns: 4, rowResistance: 1, columnResistance: 1 },
    junctions: {
      kinds: [{ element: { law: "sinh", resistance: 1e4, scaleVoltage: 0.05 } as const }],
      kindOf: new Uint8Array(20),
    },
    terminals: { left: side(5, every(2), every(10)), bottom: side(4, every(0), every(10)) },
  };
  const { energyError, power, converged } = solveCrossbar(p, { maxSolves: 1 });
  const { source, junction, wire, driver } = power;
  const used = junction + wire + driver;
  expect(converged).toBe(false);
  expect(energyError).toBeGreaterThan(1e-6);
  expect(energyError).toBe(Math.abs(source - used) / (source + used));
});

test("what does not flow is 0, never -0, and a line with one terminal has that terminal's current", () => {
  const only = (k: number) => (k === 0 ? 5 : Number.NaN);
  const one = {
    ...{ rows: 2, columns: 3, rowResistance: 1, columnResistance: 1 },
    junctions: { conductance: Float64Array.of(1e-3, 3e-4, 7e-5, 2e-3, 9e-6, 5e-4) },
    terminals: { left: side(2, every(1), only), bottom: side(3, every(0), only) },
  };
  const other = { right: side(2, every(1), only), top: side(3, every(0), only) };
  for (const [p, row, column] of [
    [one, "left", "bottom"],
    [{ ...one, terminals: other }, "right", "top"],
  ] as const) {
    const { terminalCurrents, rowCurrents, columnCurrents } = solved(p);
    const [driven, sensed] = [terminalCurrents[row][0]!, terminalCurrents[column][0]!];
    expect(terminalCurrents).toEqual({
      left: new Float64Array(2),
      right: new Float64Array(2),
      top: new Float64Array(3),
      bottom: new Float64Array(3),
      [row]: Float64Array.of(driven, 0),
      [column]: Float64Array.of(sensed, 0, 0),
    });
    expect(rowCurrents).toEqual(Float64Array.of(driven, 0));
    expect(columnCurrents).toEqual(Float64Array.of(sensed, 0, 0));
  }
});

test("what an earlier array left in the memory does not matter", () => {
  const problems = [
    ohmic({ rows: 5, columns: 7, r: 10, scheme: "one-half" }),
    ohmic({ rows: 26, columns: 37, r: 10, scheme: "floating" }),
  ];
  // Its numbers end where doubles do: infinities and NaN everywhere.
  const broken = { ...ohmic({ rows: 70, columns: 70, r: 1e300, decades: [-300, -300] }) };
  const fresh = problems.map((p) => solved(p));
  for (const [k, p] of problems.entries()) {
    for (const method of ["coarsened", "line"] as const) {
      expect(solveCrossbar(broken, { method }).converged).toBe(false);
      expect(solveCrossbar(p)).toEqual(fresh[k]);
    }
  }
});

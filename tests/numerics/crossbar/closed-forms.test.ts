/** Closed forms of the crossbar problem: ladder, sneak paths and half-select sums (nodal analysis, common practice). */
import { expect, test } from "vitest";
import type { JunctionKind, Junctions } from "../../../src/numerics/crossbar/problem.ts";
import { side, solved, worstRelative } from "./build.ts";

const every = (value: number) => () => value;
const floating = every(Number.NaN);

function same(rows: number, columns: number, resistance: number): Junctions {
  return { conductance: new Float64Array(rows * columns).fill(1 / resistance) };
}

test("a driven row over equal junctions is the hyperbolic ladder", () => {
  const n = 100;
  const [r, R, Rs, Rd, V] = [7, 3000, 40, 25, 1.2];
  const got = solved({
    rows: 1,
    columns: n,
    rowResistance: r,
    columnResistance: 3,
    junctions: same(1, n, R),
    terminals: { left: side(1, every(V), every(Rd)), bottom: side(n, every(0), every(Rs)) },
  });
  const rho = R + Rs;
  const a = 2 * Math.asinh(Math.sqrt(r / rho) / 2);
  const input = (r * Math.cosh((n - 0.5) * a)) / (2 * Math.sinh(n * a) * Math.sinh(a / 2));
  const current = V / (Rd + input);
  expect(Math.abs(got.rowCurrents[0]! / current - 1)).toBeLessThan(1e-12);
  const columns = Array.from(
    { length: n },
    (_, k) => ((current * input) / rho) * (Math.cosh((n - 0.5 - k) * a) / Math.cosh((n - 0.5) * a)),
  );
  expect(worstRelative(got.columnCurrents, columns)).toBeLessThan(1e-12);
});

test("a row driven at both ends is the symmetric ladder", () => {
  const n = 41;
  const [r, R, Rd, V] = [5, 1000, 60, 0.8];
  const got = solved({
    rows: 1,
    columns: n,
    rowResistance: r,
    columnResistance: 0,
    junctions: same(1, n, R),
    terminals: {
      left: side(1, every(V), every(Rd)),
      right: side(1, every(V), every(Rd)),
      bottom: side(n, every(0), every(0)),
    },
  });
  const a = 2 * Math.asinh(Math.sqrt(r / R) / 2);
  const h = (n - 1) / 2;
  const A = V / (Math.cosh(h * a) + (Rd / r) * (Math.cosh((h + 1) * a) - Math.cosh(h * a)));
  const v = Array.from({ length: n }, (_, k) => (A * Math.cosh((k - h) * a)) / R);
  expect(worstRelative(got.columnCurrents, v)).toBeLessThan(1e-12);
});

test("with ideal columns held at zero every row is its own ladder", () => {
  const [m, n, r, R, V] = [6, 30, 11, 5000, 1];
  const got = solved({
    rows: m,
    columns: n,
    rowResistance: r,
    columnResistance: 0,
    junctions: same(m, n, R),
    terminals: { left: side(m, every(V), every(0)), bottom: side(n, every(0), every(0)) },
  });
  const a = 2 * Math.asinh(Math.sqrt(r / R) / 2);
  const input = (r * Math.cosh((n - 0.5) * a)) / (2 * Math.sinh(n * a) * Math.sinh(a / 2));
  expect(worstRelative(got.rowCurrents, new Array(m).fill(V / input))).toBeLessThan(1e-12);
  // Solved by the rows alone, without an iteration.
  expect(got).toMatchObject({ linearSolves: 1, iterations: 0 });
});

test.each([
  [2, 2],
  [64, 64],
  [8, 24],
])("a floating %i x %i array with ideal wires reads its sneak paths", (m, n) => {
  const [R, Rx, Rd, Rs, V] = [1e4, 1e7, 100, 50, 0.5];
  const junctions = same(m, n, R);
  if ("conductance" in junctions) junctions.conductance[n - 1] = 1 / Rx;
  const got = solved({
    rows: m,
    columns: n,
    rowResistance: 0,
    columnResistance: 0,
    junctions,
    terminals: {
      left: side(m, every(V), (k) => (k === 0 ? Rd : floating())),
      bottom: side(n, every(0), (k) => (k === n - 1 ? Rs : floating())),
    },
  });
  const sneak = R / (n - 1) + R / ((m - 1) * (n - 1)) + R / (m - 1);
  const current = V / (Rd + Rs + (Rx * sneak) / (Rx + sneak));
  expect(Math.abs(got.rowCurrents[0]! / current - 1)).toBeLessThan(1e-12);
});

test("half-select powers with ideal wires are sums of the law at V, V/2 and V/3", () => {
  const [m, n, V, S, R] = [32, 20, 1.5, 0.3, 1e6];
  const kinds: JunctionKind[] = [{ element: { law: "sinh", resistance: R, scaleVoltage: S } }];
  const law = (v: number) => (S / R) * Math.sinh(v / S);
  const power = (row: number, column: number) =>
    solved({
      rows: m,
      columns: n,
      rowResistance: 0,
      columnResistance: 0,
      junctions: { kinds, kindOf: new Uint8Array(m * n) },
      terminals: {
        left: side(m, (k) => (k === 0 ? V : row), every(0)),
        bottom: side(n, (k) => (k === n - 1 ? 0 : column), every(0)),
      },
    }).power.junction;
  const half = V * law(V) + (m + n - 2) * (V / 2) * law(V / 2);
  expect(Math.abs(power(V / 2, V / 2) / half - 1)).toBeLessThan(1e-12);
  const third = V * law(V) + (m * n - 1) * (V / 3) * law(V / 3);
  expect(Math.abs(power(V / 3, (2 * V) / 3) / third - 1)).toBeLessThan(1e-12);
});

test("one open cell of a floating 2 x 2 with all neighbours on reads a third of an on cell", () => {
  // By hand: on/off 1000, the sneak path is three on cells in series, so its current is 1000 / 3 times the off cell's.
  const conductance = Float64Array.of(1e-6, 1e-3, 1e-3, 1e-3);
  const got = solved({
    rows: 2,
    columns: 2,
    rowResistance: 0,
    columnResistance: 0,
    junctions: { conductance },
    terminals: {
      left: side(2, every(1), (k) => (k === 0 ? 0 : floating())),
      bottom: side(2, every(0), (k) => (k === 0 ? 0 : floating())),
    },
  });
  const sneak = got.rowCurrents[0]! - got.junctionCurrents[0]!;
  expect(Math.abs(sneak / got.junctionCurrents[0]! / (1000 / 3) - 1)).toBeLessThan(1e-12);
});

test("resistors by kind, alone or two in series, are solved as those by conductance, to the bit", () => {
  const [rows, columns] = [7, 9];
  const ohmic = (resistance: number) => ({ law: "ohmic", resistance }) as const;
  const kinds = [
    { element: ohmic(1024) },
    { element: ohmic(4096), selector: ohmic(4096) },
    { element: ohmic(65536) },
  ];
  const ohms = [1024, 8192, 65536];
  const kindOf = Uint8Array.from({ length: rows * columns }, (_, k) => (k * k) % 3);
  const problem = (junctions: Junctions) => ({
    rows,
    columns,
    rowResistance: 3,
    columnResistance: 5,
    junctions,
    terminals: {
      left: side(rows, every(1), every(10)),
      bottom: side(columns, every(0), every(10)),
    },
  });
  const byKind = solved(problem({ kinds, kindOf }));
  const conductance = Float64Array.from(kindOf, (kind) => 1 / ohms[kind]!);
  expect(byKind).toEqual(solved(problem({ conductance })));
});

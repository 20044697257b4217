/** Properties that every resistive network has, and hard cases. */
import { expect, test } from "vitest";
import type { CrossbarProblem } from "../../../src/numerics/crossbar/problem.ts";
import { ohmic, side, solved, worstRelative } from "./build.ts";

const every = (value: number) => () => value;

function transposed(p: CrossbarProblem): CrossbarProblem {
  const { rows: m, columns: n, junctions, terminals } = p;
  if (!("conductance" in junctions)) throw new Error("ohmic only");
  const conductance = new Float64Array(m * n);
  for (let i = 0; i < m; i++) {
    for (let j = 0; j < n; j++) conductance[j * m + i] = junctions.conductance[i * n + j]!;
  }
  const { left, right, top, bottom } = terminals;
  return {
    rows: n,
    columns: m,
    rowResistance: p.columnResistance,
    columnResistance: p.rowResistance,
    junctions: { conductance },
    terminals: {
      ...(top ? { left: top } : {}),
      ...(bottom ? { right: bottom } : {}),
      ...(left ? { top: left } : {}),
      ...(right ? { bottom: right } : {}),
    },
  };
}

test.each([
  [5, 3],
  [32, 32],
  [40, 90],
])("turning rows into columns changes no current: %i x %i", (rows, columns) => {
  const p = ohmic({ rows, columns, r: 12, seed: 5, scheme: "one-half" });
  const a = solved(p);
  const b = solved(transposed(p));
  expect(
    worstRelative(
      b.columnCurrents,
      a.rowCurrents.map((x) => -x),
    ),
  ).toBeLessThan(1e-9);
  expect(
    worstRelative(
      b.rowCurrents,
      a.columnCurrents.map((x) => -x),
    ),
  ).toBeLessThan(1e-9);
});

test("doubling all voltages doubles all currents, and two drives superpose", () => {
  const p = ohmic({ rows: 30, columns: 26, r: 10, seed: 9 });
  const drive = (at: (k: number) => number) =>
    solved({
      ...p,
      terminals: { ...p.terminals, left: side(30, at, every(100)) },
    }).columnCurrents;
  const one = drive((k) => (k === 3 ? 1 : 0));
  const two = drive((k) => (k === 11 ? -0.5 : 0));
  const both = drive((k) => (k === 3 ? 1 : k === 11 ? -0.5 : 0));
  const twice = drive((k) => (k === 3 ? 2 : 0));
  expect(
    worstRelative(
      twice,
      one.map((x) => 2 * x),
    ),
  ).toBeLessThan(1e-11);
  const scale = Math.max(...one.map(Math.abs));
  both.forEach((x, j) => {
    expect(Math.abs(x - one[j]! - two[j]!)).toBeLessThan(1e-12 * scale);
  });
});

test("the current at one terminal per volt at another is the same the other way round", () => {
  const p = ohmic({ rows: 33, columns: 47, r: 15, seed: 2 });
  const row = 20;
  const column = 9;
  const at = (drivenRow: number, drivenColumn: number) => {
    const left = side(33, (k) => (k === drivenRow ? 1 : 0), every(80));
    const bottom = side(47, (k) => (k === drivenColumn ? 1 : 0), every(80));
    return solved({ ...p, terminals: { left, bottom } });
  };
  const forward = at(row, -1).columnCurrents[column]!;
  const backward = -at(-1, column).rowCurrents[row]!;
  expect(Math.abs(forward / backward - 1)).toBeLessThan(1e-11);
});

test("raising any one resistance never raises the current that a single source delivers", () => {
  const p = ohmic({ rows: 9, columns: 7, r: 20, seed: 4, scheme: "floating" });
  const total = (q: CrossbarProblem) => solved(q).rowCurrents[0]!;
  const before = total(p);
  if (!("conductance" in p.junctions)) throw new Error("ohmic only");
  for (let k = 0; k < 63; k++) {
    const conductance = p.junctions.conductance.slice();
    conductance[k]! /= 3;
    expect(total({ ...p, junctions: { conductance } })).toBeLessThanOrEqual(before * (1 + 1e-14));
  }
  expect(total({ ...p, rowResistance: 25 })).toBeLessThan(before);
  expect(total({ ...p, columnResistance: 25 })).toBeLessThan(before);
});

test("both methods give the same leaks, to 1e-11 of each", () => {
  const p = ohmic({ rows: 96, columns: 96, r: 5, seed: 8, scheme: "one-half" });
  const a = solved(p, "line");
  const b = solved(p, "coarsened");
  expect(worstRelative(b.columnCurrents, a.columnCurrents)).toBeLessThan(1e-11);
  expect(worstRelative(b.rowCurrents, a.rowCurrents)).toBeLessThan(1e-11);
});

test("a leak of a picoampere beside a milliampere has right digits", () => {
  // By hand: two rows at the same voltage, ideal; only the wires' drop drives the leak between them.
  const [G, g, r] = [1e-3, 1e-9, 1e-3];
  const got = solved({
    rows: 2,
    columns: 2,
    rowResistance: r,
    columnResistance: 0,
    junctions: { conductance: Float64Array.of(g, G, g, g) },
    terminals: {
      left: side(2, every(1), every(0)),
      bottom: side(2, (k) => (k === 0 ? 1 : 0), every(0)),
    },
  });
  // Row 1: node 1 sees g to 0 V through r, so u = 1 / (1 + r g); its leak to column 0 comes from node 0 and is 0.
  expect(got.junctionCurrents[0]).toBe(0);
  expect(Math.abs(got.junctionCurrents[3]! / (g / (1 + r * g)) - 1)).toBeLessThan(1e-15);
  expect(Math.abs(got.junctionCurrents[1]! / (G / (1 + r * G)) - 1)).toBeLessThan(1e-15);
});

test.each([
  ["junctions from 1 ohm to 1 Tohm", { rows: 64, columns: 64, r: 20, decades: [0, 12] }],
  ["the same, floating", { rows: 48, columns: 80, r: 20, decades: [0, 12], scheme: "floating" }],
  ["milliohm drivers", { rows: 64, columns: 64, r: 1, driver: 1e-3 }],
  ["megohm drivers", { rows: 64, columns: 64, r: 1, driver: 1e6 }],
  ["ideal drivers", { rows: 65, columns: 63, r: 1, driver: 0, scheme: "one-half" }],
  ["a long array", { rows: 16, columns: 600, r: 10 }],
  ["a tall array", { rows: 600, columns: 16, r: 10, scheme: "floating" }],
  ["strong junctions on weak wires", { rows: 128, columns: 128, r: 20, decades: [1.7, 1.7] }],
  ["wires of a microohm", { rows: 64, columns: 64, r: 1e-6, scheme: "one-half" }],
  ["one row", { rows: 1, columns: 64, r: 10 }],
  ["one column", { rows: 64, columns: 1, r: 10 }],
  ["ideal wires", { rows: 50, columns: 70, r: 0, scheme: "floating" }],
] as const)("%s are solved", (_, recipe) => {
  solved(ohmic(recipe));
});

test.each([1e-9, 1, 1e9])("scaling all resistances by %f scales all currents", (factor) => {
  const p = ohmic({ rows: 20, columns: 30, r: 10, seed: 6 });
  if (!("conductance" in p.junctions)) throw new Error("ohmic only");
  const { left, bottom } = p.terminals;
  const scaled = {
    ...p,
    rowResistance: 10 * factor,
    columnResistance: 10 * factor,
    junctions: { conductance: p.junctions.conductance.map((g) => g / factor) },
    terminals: {
      left: { ...left!, resistance: left!.resistance.map((x) => x * factor) },
      bottom: { ...bottom!, resistance: bottom!.resistance.map((x) => x * factor) },
    },
  };
  const want = solved(p).columnCurrents.map((x) => x / factor);
  expect(worstRelative(solved(scaled).columnCurrents, want)).toBeLessThan(1e-11);
});

test("a floating checkerboard of two hardly coupled networks is solved", () => {
  const p = ohmic({ rows: 64, columns: 64, r: 1e-3, scheme: "floating" });
  const conductance = Float64Array.from({ length: 4096 }, (_, k) =>
    ((k >> 6) + (k & 63)) % 2 === 0 ? 1e-3 : 1e-9,
  );
  solved({ ...p, junctions: { conductance } });
});

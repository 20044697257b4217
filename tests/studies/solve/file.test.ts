/** Files of cases: one or many, with refusals beside answers. */

import { expect, test } from "vitest";
import { TenfoldError } from "../../../src/errors/problem.ts";
import { solveCrossbar } from "../../../src/numerics/crossbar/solve.ts";
import { voltageMapSvg, voltageMapText } from "../../../src/report/crossbar-map.ts";
import { voltageErrors } from "../../../src/studies/solve/answer.ts";
import type { CrossbarCase } from "../../../src/studies/solve/case.ts";
import { answerData, solveFile } from "../../../src/studies/solve/file.ts";

const ONE = `
id: pair
rows: 2
columns: 2
wires: {row_resistance: 0, column_resistance: 0}
kinds:
  on: {law: ohmic, resistance: 1000}
pattern: {form: same, kind: on}
terminals:
  left: [{lines: [0], voltage: 1, resistance: 100}]
  bottom: [{lines: [1], voltage: 0, resistance: 100}]
selected: {row: 0, column: 1}
bias: floating
`;

function problemsOf(text: string) {
  try {
    solveFile(text, "case.yaml");
  } catch (error) {
    if (error instanceof TenfoldError) return error.problems;
    throw error;
  }
  return [];
}

test("a YAML case answers with the outputs by name", () => {
  const data = answerData(solveFile(ONE, "case.yaml")) as Record<string, unknown>;
  // By hand: one on cell beside a path of three, 1000 ∥ 3000 = 750 ohm, with 200 ohm of terminals.
  expect((data["row_currents"] as number[])[0]).toBeCloseTo(1 / 950, 15);
  expect(data["column_currents"]).toHaveLength(2);
  expect(data["wire_power"]).toBe(0);
});

test("a refused case says file, line and column, and the nearest right word", () => {
  const [problem] = problemsOf(ONE.replace("kind: on", "kind: onn"));
  expect(problem).toMatchObject({ code: "unknown-name", nearest: "on" });
  expect(problem!.place).toMatchObject({ file: "case.yaml", line: 8 });
  const [key] = problemsOf(ONE.replace("selected:", "selectd:"));
  expect(key).toMatchObject({ code: "unknown-name", nearest: "selected" });
});

test("in a file of many cases a refused one stands beside the others' numbers", () => {
  const indent = (text: string) => text.trim().replaceAll("\n", "\n    ");
  const bad = ONE.replace("id: pair", "id: bad").replace("resistance: 1000", "resistance: 0");
  const text = `cases:\n  - ${indent(ONE)}\n  - ${indent(bad)}\n`;
  const data = answerData(solveFile(text, "cases.yaml")) as Record<string, Record<string, unknown>>;
  expect(Object.keys(data)).toEqual(["pair", "bad"]);
  expect(data["pair"]!["selected_current"]).toBeGreaterThan(0);
  expect(data["bad"]!["refused"]).toMatch(/^not-positive: /);
});

test("two cases of one id are refused", () => {
  const text = "cases: [{id: a}, {id: a}]";
  expect(problemsOf(text)[0]).toMatchObject({ code: "duplicate-case" });
});

test.each([
  ["rows: 2.5", "rows: 2", "shape"],
  ["rows: 2", "rows: 2", undefined],
  ["on: {law: sinh, read_voltage: 1, read_current: 1, nonlinearity: 2}", /on: .*/, "out-of-range"],
  ["on: {law: sinh, resistance: 5}", /on: .*/, "missing"],
  [
    "on: {law: threshold, on_resistance: 9, off_resistance: 3, threshold_voltage: 1, width_voltage: 1}",
    /on: .*/,
    "out-of-range",
  ],
  [
    "pattern: {form: levels, row_factor: 1, column_factor: 1, modulus: 1, low: 1, high: 2}",
    /pattern: .*/,
    "out-of-range",
  ],
  ["pattern: {form: matrix, kinds: [[on, on]]}", /pattern: .*/, "shape"],
  ["selected: {row: 0, column: 2}", /selected: .*/, "out-of-range"],
  ["  left: [{lines: [2], voltage: 1, resistance: 1}]", / {2}left: .*/, "out-of-range"],
  ["  left: [{lines: [0], voltage: 1, resistance: -1}]", / {2}left: .*/, "not-positive"],
  ["  lft: [{lines: [0], voltage: 1, resistance: 1}]", / {2}left: .*/, "unknown-name"],
] as const)("%s is answered with its reason", (line, replaced, reason) => {
  expect(problemsOf(ONE.replace(replaced, line))[0]?.code).toBe(reason);
});

test("a map shows the selected junction and the largest voltage", () => {
  const map = {
    rows: 2,
    columns: 3,
    voltages: Float64Array.of(0, 0.1, -0.5, 0, 0, 0.2),
    title: "a < b",
    selected: { row: 0, column: 2 },
  };
  expect(voltageMapText(map).split("\n").slice(0, 4)).toEqual(
    ["+---+", "|  X|", "|   |", "+---+"].map((l, k) => (k === 1 ? "| :X|" : k === 2 ? "|  =|" : l)),
  );
  const svg = voltageMapSvg(map);
  expect(svg).toContain("a &lt; b");
  expect(svg).toContain("0 to 0.5 V");
  expect(svg.endsWith("</svg>\n")).toBe(true);
});

test("voltage errors of a dot product are the divider's: one junction behind its terminals", () => {
  const end = (voltage: number, resistance: number) => ({
    voltage: Float64Array.of(voltage),
    resistance: Float64Array.of(resistance),
  });
  const problem = {
    ...{ rows: 1, columns: 1, rowResistance: 0, columnResistance: 0 },
    junctions: { conductance: Float64Array.of(1e-3) },
    terminals: { left: end(1, 100), bottom: end(0.25, 400) },
  };
  const errors = voltageErrors({ problem } as unknown as CrossbarCase, solveCrossbar(problem));
  // 0.75 V over 100 + 1000 + 400 ohm: the junction gets two thirds, a quarter of a volt is missing.
  expect(errors[0]).toBeCloseTo(-0.25, 14);
  const map = { rows: 1, columns: 1, voltages: errors, title: "t", legend: "V of error" };
  expect(voltageMapText(map)).toContain("0 to 0.25 V of error");
  expect(voltageMapSvg(map)).toContain("0 to 0.25 V of error");
});

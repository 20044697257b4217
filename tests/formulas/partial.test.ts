import { describe, expect, test } from "vitest";
import {
  assemble,
  compile,
  type ExtraFormula,
  parseFormula,
  procedure,
  symbolsOf,
  valuesOf,
} from "../../src/formulas/index.ts";
import { partialProgram } from "../../src/formulas/partial.ts";
import { GIVEN, GIVEN_QUANTITIES, GIVEN_VALUES, INSTANCES } from "./fixtures/circuits.ts";
import { giving } from "./fixtures/small.ts";

const design = assemble(INSTANCES, GIVEN_QUANTITIES, parseFormula);
const names = design.steps.flatMap((step) => (step.kind === "formula" ? [step.name] : []));

describe("a program of which some quantities vary", () => {
  const known = valuesOf(design, GIVEN_VALUES);

  test.each([
    { varied: ["temperature"] },
    { varied: ["wide", "supply", "threshold"] },
    { varied: ["unit_load", "thickness", "signal", "rate"] },
    { varied: Object.keys(GIVEN) },
    { varied: [] },
  ])("gives the bits of the whole where $varied vary", ({ varied }) => {
    const part = partialProgram(design, known, new Set(varied), names);
    expect(part.given).toEqual(design.given.filter((name) => varied.includes(name)));
    expect(part.quantities).toBe(design.quantities);
    const [whole, small] = [compile(design, names), compile(part, names)];
    for (const factor of [1, 1.07, 0.93]) {
      const at = (name: string) => GIVEN[name]![0] * (varied.includes(name) ? factor : 1);
      const [expected, found] = [new Float64Array(names.length), new Float64Array(names.length)];
      whole.evaluate(Float64Array.from(whole.inputs, at), expected);
      small.evaluate(Float64Array.from(small.inputs, at), found);
      expect(found).toEqual(expected);
    }
  });

  test("holds no step that nothing varied reaches, but for what is asked for", () => {
    const asked = ["device_thermal_voltage", "row_resistance"];
    const { steps } = partialProgram(design, known, new Set(["temperature"]), asked);
    const fixed = steps.filter((step) => step.kind === "formula" && step.reads.length === 0);
    expect(fixed.map((step) => step.kind === "formula" && step.name)).toEqual(["row_resistance"]);
    expect(fixed[0]).toEqual({
      kind: "formula",
      name: "row_resistance",
      tree: { kind: "number", value: known.get("row_resistance") },
      reads: [],
      size: 1,
    });
    const moving = new Set(["temperature"]);
    for (const step of steps) {
      if (step.kind !== "formula") throw new Error("no procedure is here");
      expect(step.reads).toEqual(symbolsOf(step.tree));
      for (const name of step.reads) expect(moving.has(name)).toBe(true);
      moving.add(step.name);
    }
    const none = partialProgram(design, known, new Set(), ["supply", "supply"]);
    expect(none.given).toEqual([]);
    expect(none.steps).toHaveLength(1);
  });
});

test("a procedure gets what does not vary as quantities of their own, each once", () => {
  const runs: number[][] = [];
  const add = procedure({
    name: "add",
    title: "A sum",
    about: "For a test.",
    source: "this project",
    inputs: {
      a: { unit: "1", meaning: "a" },
      b: { unit: "1", meaning: "b" },
      c: { unit: "1", meaning: "c" },
    },
    outputs: { sum: { unit: "1", meaning: "sum" } },
    run: (inputs, outputs) => {
      runs.push([...inputs]);
      outputs[0] = inputs[0]! + 10 * inputs[1]! + 100 * inputs[2]!;
    },
  });
  const extra = (name: string, formula: string): ExtraFormula => {
    return { name, formula, unit: "1", meaning: name, source: "this project" };
  };
  const whole = assemble([{ of: add }], giving({ x: "1", y: "1" }), parseFormula, [
    extra("a", "2 * x"),
    extra("b", "y + 1"),
    extra("c", "y > 0 ? -y : y"),
    extra("last", "x > sum ? -sum : max(sum, c) * b"),
  ]);
  const known = valuesOf(
    whole,
    new Map([
      ["x", 1],
      ["y", 4],
    ]),
  );
  const asked = ["last", "b", "c"];
  const part = partialProgram(whole, known, new Set(["x"]), asked);
  const code = compile(part, asked);
  const values = new Float64Array(3);
  code.evaluate(Float64Array.of(3), values);
  // a = 6, b = 5, c = -4: 6 + 50 - 400 = -344, so that x is above it.
  expect([...values]).toEqual([344, 5, -4]);
  expect(runs.at(-1)).toEqual([6, 5, -4]);
  const written = part.steps.map((step) => (step.kind === "formula" ? step.name : "sum"));
  expect(written).toEqual([...new Set(written)]);
  expect(written).toHaveLength(5);
  // Where nothing that a procedure reads varies, it is not run again.
  const still = partialProgram(whole, known, new Set(), ["sum"]);
  expect(still.steps).toHaveLength(1);
});

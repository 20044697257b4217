import { describe, expect, test } from "vitest";
import {
  ALTERNATIVES,
  Catalogue,
  prefixedInstances,
  prefixedParameters,
} from "../../src/catalogue/index.ts";
import { assemble, checkSheet, compile, parseFormula } from "../../src/formulas/index.ts";
import { sharedLoader } from "./shared.ts";

function scaleVoltage(read: number, nonlinearity: number): number {
  const one = ALTERNATIVES.find(({ gives }) => gives === "scale_voltage")!;
  const program = assemble(
    [{ of: one.sheet }],
    [
      { name: "read_voltage", unit: "V" },
      { name: "nonlinearity", unit: "1" },
    ],
    parseFormula,
  );
  const compiled = compile(program, ["scale_voltage"]);
  const inputs = compiled.inputs.map((name) => (name === "read_voltage" ? read : nonlinearity));
  const values = new Float64Array(1);
  compiled.evaluate(Float64Array.from(inputs), values);
  return values[0]!;
}

describe("the other way to state a property", () => {
  test.each(ALTERNATIVES)("$sheet.name has the right dimensions", ({ sheet }) => {
    expect(checkSheet(sheet)).toEqual([]);
  });

  // I(V)/I(V/2) = sinh(V/V0)/sinh(V/(2 V0)), the definition of the nonlinearity in words.md of the
  // trade.
  test.each([
    [0.2, 2.001],
    [0.2, 2.5],
    [1.5, 200],
    [2, 5e5],
  ])("at %d V a scale voltage from a nonlinearity of %d gives it back", (read, nonlinearity) => {
    const scale = scaleVoltage(read, nonlinearity);
    const ratio = Math.sinh(read / scale) / Math.sinh(read / (2 * scale));
    expect(Math.abs(ratio / nonlinearity - 1)).toBeLessThan(1e-12);
  });

  test("an ohmic nonlinearity of 2 gives a law that is linear to two parts in a million", () => {
    const scale = scaleVoltage(0.2, 2);
    expect(Math.sinh(0.2 / scale) / Math.sinh(0.1 / scale) / 2 - 1).toBeLessThan(2e-6);
  });

  test("joins a design under the prefix of its device", () => {
    const catalogue = new Catalogue(sharedLoader);
    const resolved = catalogue.resolve("switch", "mtj-40nm");
    const parameters = prefixedParameters(resolved, "left_");
    const program = assemble(prefixedInstances(resolved, "left_"), parameters, parseFormula);
    const compiled = compile(program, ["left_off_resistance"]);
    const inputs = compiled.inputs.map((name) => parameters.find((p) => p.name === name)!.value);
    const values = new Float64Array(1);
    compiled.evaluate(Float64Array.from(inputs), values);
    // 10 kohm and a magnetoresistance of 120 %.
    expect(values[0]).toBeCloseTo(10_000 * 2.2, 9);
  });
});

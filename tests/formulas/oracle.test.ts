import { beforeAll, describe, expect, test } from "vitest";
import {
  assemble,
  compile,
  constantOf,
  dimensionOfTree,
  formulaText,
  interpretProgram,
  parseFormula,
  valuesOf,
} from "../../src/formulas/index.ts";
import { writtenBy } from "../../src/formulas/program.ts";
import { dimensionOf } from "../../src/quantities/unit.ts";
import { GIVEN, GIVEN_QUANTITIES, GIVEN_VALUES, INSTANCES } from "./fixtures/circuits.ts";
import { evaluated, exponentsOf, type Measured, measure } from "./fixtures/oracle.ts";

const program = assemble(INSTANCES, GIVEN_QUANTITIES, parseFormula);
const units = new Map([...program.quantities].map(([name, { unit }]) => [name, unit]));
const outside = new Map<string, Measured>();

beforeAll(() => {
  const scope: Record<string, unknown> = {};
  for (const [name, [value, unit]] of Object.entries(GIVEN)) scope[name] = measure(value, unit);
  for (const step of program.steps) {
    if (step.kind !== "formula") continue;
    const constant = constantOf(step.name);
    const text = constant ? String(constant.value) : formulaText(step.tree);
    const result = evaluated(text, scope);
    const unit = units.get(step.name)!;
    outside.set(
      step.name,
      constant ? { ...result, exponents: exponentsOf(dimensionOf(unit)) } : result,
    );
    scope[step.name] = measure(result.value, unit);
  }
});

describe("a design of 80 formulas against mathjs with units", () => {
  test("is of the size that it says", () => {
    expect(
      program.steps.filter((step) => program.quantities.get(writtenBy(step)[0]!)!.by === "formula")
        .length,
    ).toBe(80);
  });

  test("has the dimension of its unit and of mathjs in every formula", () => {
    for (const step of program.steps) {
      if (step.kind !== "formula" || constantOf(step.name)) continue;
      const own = exponentsOf(dimensionOfTree(step.tree, units));
      expect(own, step.name).toEqual(exponentsOf(dimensionOf(units.get(step.name)!)));
      outside.get(step.name)!.exponents.forEach((exponent, i) => {
        expect(own[i], step.name).toBeCloseTo(exponent, 12);
      });
    }
  });

  test("has the values of mathjs within 1e-12, compiled, batched and interpreted", () => {
    const code = compile(program);
    const inputs = Float64Array.from(code.inputs, (name) => GIVEN_VALUES.get(name)!);
    const single = new Float64Array(code.names.length);
    code.evaluate(inputs, single);
    const batch = code.names.map(() => new Float64Array(3));
    code.evaluateMany(
      [...inputs].map((value) => Float64Array.of(value, value, value)),
      3,
      batch,
    );
    const plain = interpretProgram(program, GIVEN_VALUES);
    const named = valuesOf(program, GIVEN_VALUES);
    code.names.forEach((name, i) => {
      const { value } = outside.get(name)!;
      expect(Math.abs(single[i]! / value - 1) < 1e-12 || single[i] === value, name).toBe(true);
      expect([...batch[i]!], name).toEqual([single[i], single[i], single[i]]);
      expect(named.get(name), name).toBe(single[i]);
      expect(Math.abs(plain.get(name)! - single[i]!), name).toBeLessThanOrEqual(
        1e-14 * Math.abs(single[i]!),
      );
    });
  });
});

import { describe, expect, test } from "vitest";
import { type Problem, TenfoldError } from "../../src/errors/problem.ts";
import {
  assemble,
  type ExtraFormula,
  type Instance,
  parseFormula,
  procedure,
  sumTree,
  valuesOf,
} from "../../src/formulas/index.ts";
import { writtenBy } from "../../src/formulas/program.ts";
import { GIVEN_QUANTITIES, GIVEN_VALUES, INSTANCES } from "./fixtures/circuits.ts";
import { giving, smallSheet } from "./fixtures/small.ts";

const area = smallSheet("area", { width: "m", height: "m" }, { area: ["m^2", "width * height"] });
const box = smallSheet(
  "box",
  { width: "m", depth: "m" },
  { floor_area: ["m^2", "width * depth"], volume: ["m^3", "floor_area * width"] },
);

function problemsOf(
  instances: readonly Instance[],
  given: Record<string, string>,
  extra?: readonly ExtraFormula[],
): readonly Problem[] {
  try {
    assemble(instances, giving(given), parseFormula, extra);
  } catch (error) {
    if (error instanceof TenfoldError) return error.problems;
    throw error;
  }
  throw new Error("nothing was wrong");
}

function extra(name: string, unit: string, formula: ExtraFormula["formula"]): ExtraFormula {
  return { name, unit, formula, meaning: name, source: "this project" };
}

const order = (instances: readonly Instance[], given: Record<string, string>) =>
  assemble(instances, giving(given), parseFormula).steps.flatMap(writtenBy);

describe("assemble", () => {
  test("puts the prefix before what a sheet defines, also where the sheet reads it itself", () => {
    const program = assemble(
      [{ of: box, prefix: "big_" }],
      giving({ width: "m", depth: "m" }),
      parseFormula,
    );
    const values = valuesOf(
      program,
      new Map([
        ["width", 2],
        ["depth", 5],
      ]),
    );
    expect(Object.fromEntries(values)).toEqual({
      width: 2,
      depth: 5,
      big_floor_area: 10,
      big_volume: 20,
    });
  });

  test("reads an input from where it is bound, else from the quantity of its name", () => {
    const instances = [
      { of: area, prefix: "one_" },
      { of: area, prefix: "two_", bind: { height: "one_area_root" } },
    ];
    const root = extra("one_area_root", "m", "sqrt(one_area)");
    const program = assemble(instances, giving({ width: "m", height: "m" }), parseFormula, [root]);
    const values = valuesOf(
      program,
      new Map([
        ["width", 3],
        ["height", 12],
      ]),
    );
    expect(values.get("one_area_root")).toBe(6);
    expect(values.get("two_area")).toBe(18);
  });

  test("orders by need and else as it was told, whatever the order of the formulas", () => {
    const given = { width: "m", depth: "m" };
    const reversed = {
      ...box,
      formulas: Object.fromEntries(Object.entries(box.formulas).reverse()),
    };
    expect(order([{ of: box }], given)).toEqual(["floor_area", "volume"]);
    expect(order([{ of: reversed }], given)).toEqual(["floor_area", "volume"]);
  });

  test("gives the same values for any order of the instances", () => {
    const forward = assemble(INSTANCES, GIVEN_QUANTITIES, parseFormula);
    const backward = assemble([...INSTANCES].reverse(), GIVEN_QUANTITIES, parseFormula);
    const sorted = (values: Map<string, number>) =>
      [...values].sort(([a], [b]) => (a < b ? -1 : 1));
    expect(sorted(valuesOf(backward, GIVEN_VALUES))).toEqual(
      sorted(valuesOf(forward, GIVEN_VALUES)),
    );
  });

  test("names what is missing, who needs it, its unit and the nearest name", () => {
    expect(problemsOf([{ of: area }], { width: "m", heigth: "m" })).toEqual([
      {
        code: "quantity-missing",
        what: 'sheet area, formula area needs "height", which nothing gives or computes',
        got: "height",
        nearest: "heigth",
        expected: "a quantity in m",
      },
    ]);
  });

  test("names both who define a quantity twice", () => {
    const [problem] = problemsOf([{ of: area }, { of: area }], { width: "m", height: "m" });
    expect(problem).toMatchObject({
      code: "quantity-twice",
      what: '"area" is defined twice: by sheet area, formula area and by sheet area, formula area',
    });
    expect(problemsOf([{ of: area }], { width: "m", height: "m", area: "m^2" })[0]!.code).toBe(
      "quantity-twice",
    );
  });

  test("shows a cycle with its path", () => {
    const loop = [
      extra("a", "1", "2 * b"),
      extra("b", "1", "c + 1"),
      extra("c", "1", "a / 3"),
      extra("d", "1", "a"),
    ];
    const problems = problemsOf([], {}, loop);
    expect(problems.map(({ what }) => what)).toEqual([
      "formulas need each other in a circle: a needs b needs c needs a",
    ]);
    expect(problems[0]).toMatchObject({
      got: "composition, formula a; composition, formula b; composition, formula c",
      expected: "each quantity computed from others that do not need it",
    });
    const own = problemsOf([], {}, [extra("x", "1", "x + 1")]);
    expect(own[0]!.what).toBe("formulas need each other in a circle: x needs x");
  });

  test("refuses a reader and a provider whose units differ in dimension, naming both", () => {
    expect(problemsOf([{ of: area }], { width: "m", height: "s" })[0]).toMatchObject({
      code: "quantity-unit",
      what: 'sheet area, formula area reads "height" in m, given has it in s',
    });
    const joule = smallSheet("joule", { work: "J" }, { double: ["J", "2 * work"] });
    expect(() => assemble([{ of: joule }], giving({ work: "V A s" }), parseFormula)).not.toThrow();
  });

  test("refuses a binding of what is no input", () => {
    const [problem] = problemsOf([{ of: area, bind: { length: "width" } }], {
      width: "m",
      height: "m",
    });
    expect(problem).toMatchObject({ code: "model-binding", got: "length" });
  });

  test("refuses names that could not stand in a formula", () => {
    for (const name of ["a-b", "__proto__", "constructor", "exp", "1a", "", "a b", "$a", "a;b"]) {
      expect(problemsOf([], {}, [extra(name, "1", "1")])[0]!.code).toBe("quantity-name");
    }
  });

  test("tells all mistakes at once", () => {
    const problems = problemsOf([{ of: area }, { of: box }], { width: "s" });
    expect(problems.map(({ code }) => code)).toEqual([
      "quantity-unit",
      "quantity-missing",
      "quantity-unit",
      "quantity-missing",
      "quantity-unit",
    ]);
  });

  test("knows constants of nature without a declaration, unless the design has such a name", () => {
    const heat = extra("heat", "J", "boltzmann_constant * temperature");
    const program = assemble([], giving({ temperature: "K" }), parseFormula, [heat]);
    // SI brochure, 9th edition (2019): k = 1.380649e-23 J/K exactly.
    expect(valuesOf(program, new Map([["temperature", 1]])).get("heat")).toBe(1.380649e-23);
    expect(program.quantities.get("boltzmann_constant")).toMatchObject({
      by: "constant",
      unit: "J/K",
    });
    const own = assemble([], giving({ pi: "1" }), parseFormula, [extra("twice", "1", "2 * pi")]);
    expect(valuesOf(own, new Map([["pi", 3]])).get("twice")).toBe(6);
  });

  test("takes extra formulas as trees, such as sums of parts", () => {
    const total = extra("total", "1", sumTree(["a", "b", "c"]));
    const program = assemble([], giving({ a: "1", b: "1", c: "1" }), parseFormula, [total]);
    const values = valuesOf(
      program,
      new Map([
        ["a", 1],
        ["b", 2],
        ["c", 4],
      ]),
    );
    expect(values.get("total")).toBe(7);
    expect(program.quantities.get("total")).toMatchObject({ from: "composition", by: "formula" });
  });

  test("runs procedures among the formulas, with prefix and binding", () => {
    const split = procedure({
      name: "split",
      title: "Divide with rest",
      about: "Exact.",
      source: "this project",
      inputs: { whole: { unit: "1", meaning: "" }, part: { unit: "1", meaning: "" } },
      outputs: { count: { unit: "1", meaning: "" }, rest: { unit: "1", meaning: "" } },
      run: ([whole, part], outputs) => {
        outputs[0] = Math.floor(whole! / part!);
        outputs[1] = whole! % part!;
      },
    });
    const program = assemble(
      [{ of: split, prefix: "s_", bind: { whole: "twice" } }],
      giving({ n: "1", part: "1" }),
      parseFormula,
      [extra("twice", "1", "2 * n"), extra("sum", "1", "s_count + s_rest")],
    );
    const values = valuesOf(
      program,
      new Map([
        ["n", 10],
        ["part", 6],
      ]),
    );
    expect([values.get("s_count"), values.get("s_rest"), values.get("sum")]).toEqual([3, 2, 5]);
  });
});

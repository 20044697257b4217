import { describe, expect, test } from "vitest";
import { type Problem, refuse, TenfoldError } from "../../src/errors/problem.ts";
import { scalarSource } from "../../src/formulas/codegen.ts";
import { literal, variable } from "../../src/formulas/generate.ts";
import {
  assemble,
  compile,
  type ExtraFormula,
  interpretProgram,
  parseFormula,
  procedure,
  valuesOf,
} from "../../src/formulas/index.ts";
import { neededSteps, segmentsOf } from "../../src/formulas/segments.ts";
import { GIVEN_QUANTITIES, INSTANCES } from "./fixtures/circuits.ts";
import { giving } from "./fixtures/small.ts";

const design = assemble(INSTANCES, GIVEN_QUANTITIES, parseFormula);

function program(units: Record<string, string>, formulas: Record<string, string>) {
  const extra = Object.entries(formulas).map(
    ([name, formula]): ExtraFormula => ({
      name,
      formula,
      unit: "1",
      meaning: name,
      source: "this project",
    }),
  );
  return assemble([], giving(units), parseFormula, extra);
}

function failure(work: () => void): Problem {
  try {
    work();
  } catch (error) {
    if (error instanceof TenfoldError) {
      expect(error.exitCode).toBe(3);
      return error.problems[0]!;
    }
    throw error;
  }
  throw new Error("nothing failed");
}

describe("compile", () => {
  test("asks only for the inputs that the outputs need", () => {
    expect(compile(design, ["device_thermal_voltage"]).inputs).toEqual(["temperature"]);
    expect(compile(design, ["row_cross_section", "column_cross_section"]).inputs).toEqual([
      "width",
      "wide",
      "thickness",
    ]);
  });

  test("leaves out the steps that the outputs do not need", () => {
    const steps = neededSteps(design, ["row_resistance"]);
    expect(steps.map((step) => step.kind === "formula" && step.name)).toEqual([
      "row_cross_section",
      "row_resistance_per_length",
      "row_resistance",
    ]);
  });

  test("gives outputs in the order in which they were asked for, inputs among them", () => {
    const code = compile(program({ x: "1" }, { y: "x + 1", z: "y * 2" }), ["z", "x", "y"]);
    const values = new Float64Array(3);
    code.evaluate(Float64Array.of(4), values);
    expect([...values]).toEqual([10, 4, 5]);
    const columns = [0, 1, 2].map(() => new Float64Array(2));
    code.evaluateMany([Float64Array.of(4, 5)], 2, columns);
    expect(columns.map((column) => [...column])).toEqual([
      [10, 12],
      [4, 5],
      [5, 6],
    ]);
  });

  test("refuses an output that nothing computes", () => {
    expect(() => compile(design, ["nowhere"])).toThrow(/quantity-missing/);
  });

  test("carries values over the borders of pieces of any size", () => {
    const names = design.steps.flatMap((step) => (step.kind === "formula" ? [step.name] : []));
    for (const size of [1, 7, 40, 1e6]) {
      const steps = neededSteps(design, names);
      const segments = segmentsOf(steps, ["row_total", "sense_passes"], size);
      expect(segments.flatMap(({ steps }) => steps)).toEqual(design.steps);
      const seen = new Set<string>(design.given);
      for (const { reads, writes } of segments) {
        for (const name of reads) expect(seen.has(name)).toBe(true);
        for (const name of writes) seen.add(name);
      }
    }
  });

  test("computes a program of many pieces, in many chunks, as its closed form says", () => {
    // x(n) = x(n-1) + n has the closed form x(n) = x(0) + n (n + 1) / 2, exact in whole numbers.
    const formulas: Record<string, string> = {};
    for (let n = 1; n <= 1500; n++) formulas[`x${n}`] = `${n === 1 ? "x" : `x${n - 1}`} + ${n}`;
    // Every output near the borders of pieces is carried and stored as well.
    const wanted = Array.from({ length: 1500 }, (_, i) => i + 1).filter((n) => n % 100 < 3);
    const outputs = wanted.map((n) => `x${n}`);
    for (const asked of [outputs, Object.keys(formulas), ["x1500"]]) {
      const code = compile(program({ x: "1" }, formulas), asked);
      const count = 600;
      const start = Float64Array.from({ length: count }, (_, i) => i);
      const columns = asked.map(() => new Float64Array(count));
      code.evaluateMany([start], count, columns);
      const values = new Float64Array(asked.length);
      for (const i of [0, 1, 255, 256, 257, 511, 512, ...Array(12).fill(600 - 1)]) {
        code.evaluate(Float64Array.of(i), values);
        asked.forEach((name, o) => {
          const n = Number(name.slice(1));
          expect(columns[o]![i]).toBe(i + (n * (n + 1)) / 2);
          expect(values[o]).toBe(i + (n * (n + 1)) / 2);
        });
      }
    }
  });

  test("leaves alone what lies behind the count", () => {
    const code = compile(program({ x: "1" }, { y: "x + 1" }));
    const column = new Float64Array(4).fill(-1);
    code.evaluateMany([Float64Array.of(1, 2, Number.NaN, 4)], 2, [column]);
    expect([...column]).toEqual([2, 3, -1, -1]);
    code.evaluateMany([new Float64Array(0)], 0, [column]);
    expect([...column]).toEqual([2, 3, -1, -1]);
    const copied = compile(program({ x: "1" }, { y: "x + 1" }), ["x"]);
    const short = new Float64Array(2);
    copied.evaluateMany([Float64Array.of(7, 8, 9)], 2, [short]);
    expect([...short]).toEqual([7, 8]);
  });

  test("multiplies small powers out and takes the root for a half", () => {
    const powers = program(
      { x: "1" },
      { a: "x^2", b: "x^3", c: "(x + 1)^3", d: "x^0.5", g: "x^4" },
    );
    const code = compile(powers);
    const values = new Float64Array(5);
    code.evaluate(Float64Array.of(4), values);
    expect([...values]).toEqual([16, 64, 125, 2, 256]);
  });

  test("puts into the code only numbers, $ names and fixed words", () => {
    const names = design.steps.flatMap((step) => (step.kind === "formula" ? [step.name] : []));
    const index = (list: readonly string[]) => new Map(list.map((name, i) => [name, i]));
    const layout = { input: index(design.given), carried: new Map(), output: index(names) };
    const source = scalarSource(segmentsOf(design.steps, names, 1e6), layout);
    const words = source.match(/[A-Za-z_$][\w$]*/g)!.filter((word) => !word.startsWith("$"));
    const fixed = new Set(
      (
        "use strict const return f I S O NaN pow min max ceil floor round abs sqrt cbrt exp " +
        "expm1 log " +
        "log1p log2 log10 sinh cosh tanh asinh acosh erfc normal_quantile normal_tail gamma " +
        "binomial_tail poisson_tail"
      ).split(" "),
    );
    expect(words.filter((word) => !fixed.has(word) && !/^(h\d+|e\d*)$/.test(word))).toEqual([]);
  });
});

describe("generated code", () => {
  test("stores only what is asked for or read by a later piece", () => {
    const { steps, given } = program({ x: "1" }, { a: "x + 1", b: "a * 2", c: "b - 3" });
    const layout = {
      input: new Map(given.map((name, i) => [name, i])),
      carried: new Map([["a", 0]]),
      output: new Map([["c", 0]]),
    };
    const pieces = segmentsOf(steps, ["c"], 3);
    expect(pieces.map(({ writes }) => writes)).toEqual([["a"], ["b"], ["c"]]);
    const stores = (text: string) => text.match(/^[SO]\[.*$/gm);
    const carried = new Map([...layout.carried, ["b", 1] as const]);
    expect(stores(scalarSource(pieces, { ...layout, carried }))).toEqual([
      "S[0]=$a;",
      "S[1]=$b;",
      "O[0]=$c;",
    ]);
  });

  test("holds numbers that read back as they are, and no name that could be anything else", () => {
    for (const value of [0, -0, 1.5, -2.5e-300, 1 / 0, -1 / 0, Number.NaN, 0.1 + 0.2]) {
      expect(Number(literal(value).replace(/[()]/g, ""))).toBe(value);
    }
    expect(literal(-1)).toBe("(-1)");
    expect(literal(-0)).toBe("(-0)");
    expect(literal(Number.NaN)).toBe("NaN");
    expect(variable("a_1")).toBe("$a_1");
    for (const name of ["a-b", "1a", "a;b", "", "a b", "$a"]) {
      expect(() => variable(name)).toThrow(`"${name}" cannot stand in generated code`);
    }
  });
});

describe("a result that is not a finite number", () => {
  const chained = program(
    { x: "1", y: "1" },
    { root: "sqrt(x - y)", double: "2 * root", safe: "x + y", last: "double + safe" },
  );

  test("is reported with the first quantity that went wrong and what it was made of", () => {
    const code = compile(chained);
    const values = new Float64Array(code.names.length);
    expect(failure(() => code.evaluate(Float64Array.of(1, 3), values))).toMatchObject({
      code: "not-finite",
      what: "root is not a finite number: sqrt(x - y)",
      got: "NaN from x = 1, y = 3",
      path: "root",
    });
  });

  test("is reported for the first set of many in which it happens", () => {
    const code = compile(chained, ["last"]);
    const x = Float64Array.from({ length: 600 }, (_, i) => 700 - i);
    const y = new Float64Array(600).fill(150);
    const problem = failure(() => code.evaluateMany([x, y], 600, [new Float64Array(600)]));
    expect(problem.what).toBe("root is not a finite number in set 552 of the inputs: sqrt(x - y)");
    expect(problem.got).toBe("NaN from x = 149, y = 150");
  });

  test("is no concern of outputs that do not need it", () => {
    const code = compile(chained, ["safe"]);
    const values = new Float64Array(1);
    code.evaluate(Float64Array.of(1, 3), values);
    expect(values[0]).toBe(4);
  });

  test("is found for infinity, for an input and for a value that is not given", () => {
    const code = compile(program({ x: "1" }, { y: "1 / x" }));
    const values = new Float64Array(1);
    const at = (x: number) => failure(() => code.evaluate(Float64Array.of(x), values));
    expect(at(0).got).toBe("Infinity from x = 0");
    expect(at(Number.NaN).what).toBe("the input x is not a finite number");
    expect(failure(() => valuesOf(chained, new Map([["x", 1]]))).what).toContain("the input y");
  });

  test("cannot hide behind a comparison", () => {
    for (const operator of ["<", "<=", ">", ">=", "==", "!="]) {
      const hidden = program({ x: "1" }, { y: `sqrt(x) ${operator} 1 ? 1 : 2` });
      const code = compile(hidden);
      const values = new Float64Array(1);
      code.evaluate(Float64Array.of(4), values);
      expect([1, 2]).toContain(values[0]);
      const one = Float64Array.of(-1);
      expect(failure(() => code.evaluate(one, values)).code).toBe("not-finite");
      const batch = () => code.evaluateMany([one], 1, [values]);
      expect(failure(batch).code).toBe("not-finite");
      expect(interpretProgram(hidden, new Map([["x", -1]])).get("y")).toBeNaN();
    }
  });

  test("says which procedure gave it", () => {
    const broken = procedure({
      name: "broken",
      title: "A solve that fails",
      about: "Always NaN.",
      source: "this project",
      inputs: { x: { unit: "m", meaning: "x" } },
      outputs: { y: { unit: "m", meaning: "y" } },
      run: (_, outputs) => outputs.fill(Number.NaN),
    });
    const code = compile(assemble([{ of: broken }], giving({ x: "m" }), parseFormula));
    expect(failure(() => code.evaluate(Float64Array.of(2), new Float64Array(1)))).toMatchObject({
      what: "y is not a finite number: A solve that fails",
      got: "NaN from x = 2 m",
    });
  });
});

describe("rounding functions", () => {
  test.each([
    // 3 * 0.1 / 0.1 is 3.0000000000000004 in double precision: noise, not a fourth.
    ["ceil(3 * x / x)", 3],
    ["ceil(3 + 1e-9)", 4],
    ["ceil(-0.5)", 0],
    // log(1000) / log(10) is 2.9999999999999996.
    ["floor(log(1000) / log(10))", 3],
    ["floor(2.999999)", 2],
    ["round(2.5)", 3],
    ["round(-2.5)", -3],
    ["ceil(log2(1024))", 10],
  ])("%s is %d", (formula, expected) => {
    const code = compile(program({ x: "1" }, { y: formula, z: "x" }));
    const values = new Float64Array(2);
    code.evaluate(Float64Array.of(0.1), values);
    expect(values[0]! + 0).toBe(expected);
  });
});

describe("a set of many that cannot be computed", () => {
  const refusing = procedure({
    name: "refusing",
    title: "A solve that refuses what is negative",
    about: "The square root, for a test.",
    source: "this project",
    inputs: { x: { unit: "1", meaning: "x" } },
    outputs: { y: { unit: "1", meaning: "y" } },
    run: (inputs, outputs) => {
      if (inputs[0]! < 0) refuse({ code: "out-of-range", what: "x is negative" });
      if (inputs[0]! > 100) throw new RangeError("a bug");
      outputs[0] = Math.sqrt(inputs[0]!);
    },
  });
  const extra: ExtraFormula = {
    name: "safe",
    formula: "x + 1",
    unit: "1",
    meaning: "safe",
    source: "this project",
  };
  const chained = assemble([{ of: refusing }], giving({ x: "1" }), parseFormula, [extra]);
  const x = Float64Array.from({ length: 600 }, (_, i) => (i === 300 ? -1 : i / 10));
  const columns = () => [new Float64Array(600), new Float64Array(600)];

  test("stops the computation unless it is to be marked", () => {
    const run = () => compile(chained, ["y", "safe"]).evaluateMany([x], 600, columns());
    expect(run).toThrow(/x is negative/);
  });

  test("is tried once before it is refused, in a column or alone", () => {
    let tries = 0;
    const counting = {
      ...refusing,
      run: (inputs: Float64Array, outputs: Float64Array) => {
        if (inputs[0]! < 0) tries++;
        refusing.run(inputs, outputs);
      },
    };
    const program = assemble([{ of: counting }], giving({ x: "1" }), parseFormula);
    const bad = Float64Array.from({ length: 20 }, (_, i) => (i === 3 ? -1 : i));
    for (const count of [20, 5]) {
      tries = 0;
      const run = () => compile(program).evaluateMany([bad], count, [new Float64Array(20)]);
      expect(run).toThrow(/x is negative/);
      expect(tries).toBe(1);
    }
  });

  test("is NaN where its failure reaches, and the others go on", () => {
    const [y, safe] = columns();
    compile(chained, ["y", "safe"]).evaluateMany([x], 600, [y!, safe!], "marked");
    for (let i = 0; i < 600; i++) {
      expect(y![i]).toBe(i === 300 ? Number.NaN : Math.sqrt(i / 10));
      expect(safe![i]).toBe(x[i]! + 1);
    }
  });

  test("does not hide a bug of a procedure", () => {
    const run = () =>
      compile(chained, ["y"]).evaluateMany([Float64Array.of(101)], 1, columns(), "marked");
    expect(run).toThrow(RangeError);
  });
});

test("one set gives the same bits before and after a function is generated for it", () => {
  const code = compile(design);
  const inputs = Float64Array.from(code.inputs, (_, i) => 1 + i / 7);
  const first = new Float64Array(code.names.length);
  const later = new Float64Array(code.names.length);
  code.evaluate(inputs, first);
  for (let run = 0; run < 20; run++) {
    later.fill(Number.NaN);
    code.evaluate(inputs, later);
    expect(later, `run ${run}`).toEqual(first);
  }
});

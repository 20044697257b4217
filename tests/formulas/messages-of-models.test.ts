/** What is said of sheets and programs that are wrong, word by word: the text is what a user has. */
import { describe, expect, test } from "vitest";
import {
  assemble,
  checkSheet,
  compile,
  type ExtraFormula,
  type Instance,
  parseFormula,
  parserFrom,
  procedure,
  type Sheet,
  valuesOf,
} from "../../src/formulas/index.ts";
import { first, problems, said } from "./fixtures/refusals.ts";
import { giving, smallSheet } from "./fixtures/small.ts";

describe("of a sheet", () => {
  const good = smallSheet("s", { a: "m" }, { b: ["m^2", "a * a"] });
  const changed = (change: Partial<Sheet>) => checkSheet({ ...good, ...change }).map(said);
  const formula = (change: object) =>
    changed({ formulas: { b: { ...good.formulas.b!, ...change } } });

  test.each(["name", "title", "about"] as const)("a blank %s", (field) => {
    const who = field === "name" ? "sheet  " : "sheet s";
    expect(changed({ [field]: " " })).toEqual([
      { code: "sheet-blank", what: `${who}: the ${field} is blank` },
    ]);
  });

  test("blank fields of formulas and inputs", () => {
    const blank = (field: string, who = "b") => [
      { code: "sheet-blank", what: `sheet s, ${who}: the ${field} is blank` },
    ];
    expect(formula({ meaning: " " })).toEqual(blank("meaning"));
    expect(formula({ source: " " })).toEqual(blank("source", "formula b"));
    expect(formula({ unit: " " })[0]).toEqual(blank("unit")[0]);
    expect(changed({ inputs: { a: { unit: "m", meaning: " " } } })).toEqual(blank("meaning", "a"));
  });

  test("units, names and dimensions", () => {
    expect(formula({ unit: "mm^2" })).toEqual([
      {
        code: "sheet-unit",
        what: "sheet s, b: the unit has a prefix or an offset",
        got: "mm^2",
        expected: "SI without prefix, such as ohm/m",
      },
    ]);
    expect(changed({ inputs: { a: { unit: "degC", meaning: "a" } } })[0]!.code).toBe("sheet-unit");
    const [unknown, ...others] = formula({ unit: "furlong" });
    expect(unknown).toMatchObject({
      code: "unknown-unit",
      what: "sheet s, b: `furlong` isn't a known unit",
    });
    // Its dimension is nobody's business while its unit is unknown.
    expect(others).toEqual([]);
    expect(formula({ formula: "a * c + d" })).toEqual([
      {
        code: "unknown-symbol",
        what: "sheet s, formula b: c, d stands in no input and no formula of the sheet",
        got: "c, d",
      },
    ]);
    expect(formula({ formula: "a * a * a" })).toEqual([
      {
        code: "dimension-mismatch",
        what: "sheet s, formula b: a * a * a is not in m^2",
        got: "m^3",
        expected: "m^2 (m^2)",
      },
    ]);
    expect(formula({ formula: "a * a + pi - pi" })[0]!.what).toBe(
      "sheet s, formula b: cannot add a * a [m^2] and pi [1]",
    );
    expect(formula({ formula: "a *" })[0]).toMatchObject({
      what: "sheet s, formula b: the formula cannot be read: Unexpected end of expression",
      at: [4, 1],
    });
    expect(formula({ formula: "2 * 0" })[0]!.code).toBe("dimension-mismatch");
  });

  test("inputs that nothing reads, or that are formulas as well", () => {
    const idle = { unit: "m", meaning: "idle" };
    expect(changed({ inputs: { ...good.inputs, idle } })).toEqual([
      { code: "sheet-unused", what: "sheet s: no formula reads the input idle" },
    ]);
    expect(changed({ inputs: { ...good.inputs, b: { unit: "m^2", meaning: "b" } } })[0]).toEqual({
      code: "quantity-twice",
      what: "sheet s: b is an input and a formula",
      got: "b",
    });
  });
});

describe("of a program", () => {
  const area = smallSheet("area", { width: "m" }, { area: ["m^2", "width * width"] });
  const twin = procedure({
    name: "twin",
    title: "Twice",
    about: "Exact.",
    source: "common practice",
    inputs: { one: { unit: "m", meaning: "one" } },
    outputs: { two: { unit: "m", meaning: "two", symbol: "t", note: "twice" } as never },
    run: ([one], outputs) => {
      outputs[0] = 2 * one!;
    },
  });
  const extra = (name: string, formula: string): ExtraFormula => {
    return { name, formula, unit: "1", meaning: name, source: "this project", from: "sums" };
  };
  const refused = (
    instances: readonly Instance[],
    given: Record<string, string>,
    extras: readonly ExtraFormula[] = [],
  ) => problems(() => assemble(instances, giving(given), parseFormula, extras)).map(said);

  test("with names that nothing gives", () => {
    expect(refused([{ of: area, prefix: "big_" }, { of: twin }], { widths: "m" })).toEqual([
      {
        code: "quantity-missing",
        what: 'sheet area (big_), formula area needs "width", which nothing gives or computes',
        got: "width",
        nearest: "widths",
        expected: "a quantity in m",
      },
      {
        code: "quantity-missing",
        what: 'procedure twin needs "one", which nothing gives or computes',
        got: "one",
        expected: "a quantity in m",
      },
    ]);
    expect(refused([], {}, [extra("y", "xyz + 1")])).toEqual([
      {
        code: "quantity-missing",
        what: 'sums, formula y needs "xyz", which nothing gives or computes',
        got: "xyz",
      },
    ]);
  });

  test("with names twice, of other units, of words, or bound to nothing", () => {
    expect(refused([{ of: area }], { width: "m", area: "m^2" })).toEqual([
      {
        code: "quantity-twice",
        what: '"area" is defined twice: by given and by sheet area, formula area',
        got: "area",
        fix: "give one of them a prefix",
      },
    ]);
    expect(refused([{ of: area }], { width: "s" })).toEqual([
      {
        code: "quantity-unit",
        what: 'sheet area, formula area reads "width" in m, given has it in s',
        got: "s",
        expected: "m",
      },
    ]);
    const unusable = (name: string, who: string) => ({
      code: "quantity-name",
      what: `"${name}" cannot be the name of a quantity (${who})`,
      got: name,
      expected: "letters, digits and _, a letter first, no word of the formula language",
    });
    expect(refused([], { exp: "1" })).toEqual([unusable("exp", "given")]);
    expect(refused([{ of: twin, prefix: "1_" }], { one: "m" })).toEqual([
      unusable("1_two", "procedure twin (1_)"),
    ]);
    const box = smallSheet("box", { w: "m", h: "m" }, { face: ["m^2", "w * h"] });
    expect(refused([{ of: box, bind: { d: "w" } }], { w: "m", h: "m" })[0]!.expected).toBe("w, h");
    expect(refused([{ of: area, bind: { hight: "width" } }], { width: "m" })).toEqual([
      {
        code: "model-binding",
        what: 'sheet area has no input "hight" to bind',
        got: "hight",
        expected: "width",
      },
    ]);
  });

  test("knows of each quantity what its model says", () => {
    const given = { name: "one", unit: "m", meaning: "a length", symbol: "l", source: "nowhere" };
    const program = assemble(
      [
        { of: twin, prefix: "p_" },
        { of: area, bind: { width: "p_two" } },
      ],
      [given],
      parseFormula,
      [extra("k", "2")],
    );
    expect(program.quantities.get("one")).toEqual({ ...given, by: "given", from: "", prefix: "" });
    expect(program.quantities.get("p_two")).toEqual({
      name: "p_two",
      unit: "m",
      meaning: "two",
      source: "common practice",
      symbol: "t",
      note: "twice",
      by: "procedure",
      from: "twin",
      prefix: "p_",
      procedure: { kind: "procedure", procedure: twin, inputs: ["one"], outputs: ["p_two"] },
    });
    expect(program.quantities.get("area")).toEqual({
      name: "area",
      unit: "m^2",
      meaning: "meaning of area",
      source: "this project",
      by: "formula",
      from: "area",
      prefix: "",
      tree: parseFormula("p_two * p_two"),
    });
    expect(program.quantities.get("k")).toMatchObject({ from: "sums", prefix: "", by: "formula" });
    expect(program.steps.find((step) => step.kind === "formula" && step.name === "area")).toEqual({
      kind: "formula",
      name: "area",
      tree: parseFormula("p_two * p_two"),
      reads: ["p_two"],
      size: 3,
    });
    expect(valuesOf(program, new Map([["one", 3]])).get("area")).toBe(36);
  });

  test("that does not end in finite numbers", () => {
    const made = assemble([{ of: twin }], giving({ one: "m" }), parseFormula, [
      { ...extra("y", "1 / (two - two)"), unit: "1/m" },
      { ...extra("z", "log(0 - 1)") },
    ]);
    const at = (name: string, one: number) => () =>
      compile(made, [name]).evaluate(Float64Array.of(one), new Float64Array(1));
    expect(first(at("y", 2))).toEqual({
      code: "not-finite",
      what: "y is not a finite number: 1 / (two - two)",
      path: "y",
      got: "Infinity from two = 4 m",
      expected: "a finite number",
      fix: "one of these values is outside of what the formula allows",
    });
    expect(first(at("two", Number.NaN))).toEqual({
      code: "not-finite",
      what: "the input one is not a finite number",
      got: "NaN",
      path: "one",
    });
    expect(first(at("z", 1)).got).toBe("NaN from numbers alone");
    const sets = [Float64Array.of(1, Number.POSITIVE_INFINITY)];
    const many = () => compile(made, ["two"]).evaluateMany(sets, 2, [new Float64Array(2)]);
    expect(first(many).what).toBe("the input one is not a finite number in set 2 of the inputs");
  });

  test("that was not prepared", () => {
    expect(first(() => parserFrom({})("a + b"))).toEqual({
      code: "formula-not-prepared",
      what: "a formula was not parsed when the program was built",
      got: "a + b",
    });
  });
});

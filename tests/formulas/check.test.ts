import { describe, expect, test } from "vitest";
import { checkSheet, procedure, type Sheet } from "../../src/formulas/index.ts";
import * as circuits from "./fixtures/circuits.ts";

const { strip } = circuits;
const SHEETS = [strip, circuits.device, circuits.chain, circuits.energy, circuits.noise];

function changed(name: string, change: Partial<Sheet["formulas"][string]>): Sheet {
  const formulas = { ...strip.formulas, [name]: { ...strip.formulas[name]!, ...change } };
  return { ...strip, formulas };
}

const codes = (sheet: Sheet) => checkSheet(sheet).map(({ code }) => code);

describe("checkSheet", () => {
  test("finds nothing wrong with the sheets of the test set", () => {
    expect(SHEETS.flatMap(checkSheet)).toEqual([]);
  });

  test("names the sheet, the formula and both dimensions where a formula has the wrong one", () => {
    // What reads the resistance is then wrong too, and said to be.
    const problems = checkSheet(changed("resistance", { unit: "ohm/m" }));
    const [problem] = problems;
    expect(problems.map(({ what }) => what.split(":")[0])).toEqual([
      "sheet strip, formula resistance",
      "sheet strip, formula distributed_delay",
      "sheet strip, formula corner",
    ]);
    expect(problem).toMatchObject({
      code: "dimension-mismatch",
      what: "sheet strip, formula resistance: resistance_per_length * length is not in ohm/m",
      got: "m^2 kg/(s^3 A^2)",
      expected: "m kg/(s^3 A^2) (ohm/m)",
    });
  });

  test("names both sides of a sum whose terms differ", () => {
    const [problem] = checkSheet(changed("resistance", { formula: "resistivity + length" }));
    expect(problem!.what).toBe(
      "sheet strip, formula resistance: cannot add resistivity [m^3 kg/(s^3 A^2)] and length [m]",
    );
  });

  test.each([
    ["exp of a length", "exp(length) * 1", "1"],
    ["a comparison of unlike things", "length > resistivity ? 1 : 2", "1"],
    ["branches that differ", "length > width ? length : 1", "m"],
    ["a maximum of unlike things", "max(length, resistivity)", "m"],
    ["a length as exponent", "2 ^ length", "1"],
    ["a length to a variable power", "length ^ permittivity", "m"],
    ["a length rounded", "ceil(length)", "m"],
    ["a number added to a length", "length + 1", "m"],
  ])("refuses %s", (_, formula, unit) => {
    const problems = checkSheet(changed("corner", { formula, unit }));
    expect(problems.map(({ code }) => code)).toEqual([expect.stringMatching(/^dimension-/)]);
  });

  test.each([
    ["zero stands for zero of anything", "max(length - width, 0)", "m"],
    ["a power may be a fraction", "(length^3)^(2/3)", "m^2"],
    ["a negative power inverts", "length^-1", "1/m"],
    ["square and cube roots divide exponents", "sqrt(length) * cbrt(length^1.5)", "m"],
    ["a pure number may have any exponent", "permittivity ^ permittivity", "1"],
    ["a result of zero has any unit", "0", "m"],
  ])("%s", (_, formula, unit) => {
    expect(checkSheet(changed("corner", { formula, unit }))).toEqual([]);
  });

  test("tells an unused input, an unknown name and a name that is input and formula", () => {
    const extra = { ...strip.inputs, idle: { unit: "m", meaning: "nothing" } };
    expect(codes({ ...strip, inputs: extra })).toEqual(["sheet-unused"]);
    expect(codes(changed("corner", { formula: "nowhere" }))).toEqual(["unknown-symbol"]);
    const both = { ...strip.inputs, corner: { unit: "1/s", meaning: "twice" } };
    expect(codes({ ...strip, inputs: both })).toContain("quantity-twice");
  });

  test("tells blank fields, each by its name", () => {
    expect(codes(changed("corner", { unit: "" }))).toContain("sheet-blank");
    expect(codes(changed("corner", { source: " " }))).toEqual(["sheet-blank"]);
    expect(codes(changed("corner", { meaning: "" }))).toEqual(["sheet-blank"]);
    expect(checkSheet({ ...strip, about: "" })[0]!.what).toBe("sheet strip: the about is blank");
  });

  test("wants coherent SI units", () => {
    expect(codes(changed("corner", { unit: "1/ns" }))).toEqual(["sheet-unit"]);
    expect(codes(changed("corner", { unit: "degC" }))).toContain("sheet-unit");
    expect(codes(changed("corner", { unit: "furlong" }))).toEqual(["unknown-unit"]);
  });

  test("finds a formula that needs itself, with the way round", () => {
    const round = changed("film", { formula: "capacitance_per_length * permittivity" });
    expect(checkSheet(round)[0]).toMatchObject({
      code: "formula-cycle",
      what: expect.stringContaining("film needs capacitance_per_length needs side_capacitance"),
    });
  });

  test("gives the place of a mistake in the text of the formula", () => {
    const [problem] = checkSheet(changed("corner", { formula: "1 / (2 pi)" }));
    expect(problem!.place).toMatchObject({
      file: "sheet strip, formula corner",
      line: 1,
      column: 8,
      text: "1 / (2 pi)",
    });
  });

  test("is the same for any order of the formulas", () => {
    const reversed = Object.fromEntries(Object.entries(strip.formulas).reverse());
    expect(checkSheet({ ...strip, formulas: reversed })).toEqual([]);
  });

  test("checks procedures too", () => {
    const solve = procedure({
      name: "solve",
      title: "solve",
      about: "",
      source: "",
      inputs: { a: { unit: "mm", meaning: "a" } },
      outputs: { b: { unit: "m", meaning: "" } },
      run: () => {},
    });
    expect(checkSheet(solve).map(({ code }) => code)).toEqual([
      "sheet-blank",
      "sheet-blank",
      "sheet-unit",
      "sheet-blank",
    ]);
  });
});

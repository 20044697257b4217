import { describe, expect, test } from "vitest";
import {
  assemble,
  type Derivation,
  dependsOn,
  derive,
  neededBy,
  parseFormula,
  procedure,
  symbolOf,
  valuesOf,
} from "../../src/formulas/index.ts";
import { GIVEN_QUANTITIES, GIVEN_VALUES, INSTANCES } from "./fixtures/circuits.ts";
import { giving, smallSheet } from "./fixtures/small.ts";

const design = assemble(INSTANCES, GIVEN_QUANTITIES, parseFormula);
const values = valuesOf(design, GIVEN_VALUES);

function each(derivation: Derivation): Derivation[] {
  return [derivation, ...derivation.children.flatMap(each)];
}

describe("derive", () => {
  test("gives the formula, the same with numbers, the value and where it comes from", () => {
    const derivation = derive(design, values, "row_distributed_delay");
    expect(derivation).toMatchObject({
      name: "row_distributed_delay",
      unit: "s",
      value: values.get("row_distributed_delay"),
      source: "common practice",
      by: "formula",
      from: "strip",
      prefix: "row_",
      symbol: "\\tau_{w,\\,\\mathrm{row}}",
    });
    expect(derivation.formula).toMatchObject({
      text: "0.38 * row_resistance * row_capacitance",
      latex: "0.38 \\, R_{w,\\,\\mathrm{row}} \\, C_{w,\\,\\mathrm{row}}",
      // By hand: 3.2e-8 * 120e-6 / (90e-9 * 160e-9) = 266.7; (91.3 + 51.4 + 116.4) aF/um * 120 um.
      numbers: "0.38 * 266.7 Ω * 31.08 fF",
    });
  });

  test("ends at what is given and at constants, with their values", () => {
    const derivation = derive(design, values, "device_thermal_voltage");
    expect(derivation.children.map(({ name, by, value }) => [name, by, value])).toEqual([
      ["boltzmann_constant", "constant", 1.380649e-23],
      ["temperature", "given", 300],
      ["elementary_charge", "constant", 1.602176634e-19],
    ]);
    expect(derivation.children.every(({ children }) => children.length === 0)).toBe(true);
    // What is given, and a constant, was not computed by a formula.
    expect(derivation.children.some((child) => "formula" in child || "procedure" in child)).toBe(
      false,
    );
    expect(derivation.children.some((child) => "shortened" in child || "tree" in child)).toBe(
      false,
    );
  });

  test("shortens nothing that has nothing below it, however deep it stands or often it is read", () => {
    const [constant, given] = derive(design, values, "device_thermal_voltage", 1).children;
    for (const leaf of [constant!, given!]) expect("shortened" in leaf).toBe(false);
    const leaves = each(derive(design, values, "row_total")).filter(({ by }) => by !== "formula");
    expect(new Set(leaves.map(({ name }) => name)).size).toBeLessThan(leaves.length);
    expect(leaves.some((leaf) => "shortened" in leaf)).toBe(false);
  });

  test("writes a shared quantity out once and refers to it later", () => {
    const all = each(derive(design, values, "row_total"));
    const loads = all.filter(({ name }) => name === "driver_path_effort");
    expect(loads.length).toBeGreaterThan(1);
    expect(loads[0]!.shortened).toBeUndefined();
    expect(loads.slice(1).map(({ shortened }) => shortened)).toEqual(
      loads.slice(1).map(() => "repeated"),
    );
    expect(all.length).toBeLessThan(200);
  });

  test("stops at the depth that was asked for and says so", () => {
    const derivation = derive(design, values, "row_distributed_delay", 1);
    expect(derivation.children.map(({ shortened }) => shortened)).toEqual(["cut", "cut"]);
    expect(derivation.children.every(({ formula }) => formula !== undefined)).toBe(true);
  });

  test("writes out at the shallower place what was cut at a deeper one", () => {
    const sheet = smallSheet(
      "s",
      { x: "1" },
      { a: ["1", "x + 1"], b: ["1", "a * 2"], top: ["1", "b + a"] },
    );
    const program = assemble([{ of: sheet }], giving({ x: "1" }), parseFormula);
    const [b, a] = derive(program, valuesOf(program, new Map([["x", 1]])), "top", 2).children;
    expect(b!.children[0]).toMatchObject({ name: "a", shortened: "cut" });
    expect(a!.shortened).toBeUndefined();
    expect(a!.children.map(({ name }) => name)).toEqual(["x"]);
  });

  test("describes a procedure with its method, inputs and outputs", () => {
    const solve = procedure({
      name: "solve",
      title: "Newton's method",
      about: "To 1e-12.",
      source: "this project",
      inputs: { x: { unit: "V", meaning: "start" } },
      outputs: { y: { unit: "V", meaning: "root" }, steps: { unit: "1", meaning: "count" } },
      run: (_, outputs) => outputs.set([2, 3]),
    });
    const program = assemble([{ of: solve }], giving({ x: "V" }), parseFormula);
    expect(derive(program, valuesOf(program, new Map([["x", 1]])), "y")).toMatchObject({
      by: "procedure",
      value: 2,
      procedure: {
        name: "solve",
        title: "Newton's method",
        about: "To 1e-12.",
        inputs: [{ name: "x", value: 1, unit: "V" }],
        outputs: [
          { name: "y", value: 2, unit: "V" },
          { name: "steps", value: 3, unit: "1" },
        ],
      },
      children: [{ name: "x", by: "given" }],
    });
  });

  test("refuses a quantity that is not there", () => {
    expect(() => derive(design, values, "nowhere")).toThrow(
      expect.objectContaining({
        problems: [
          { code: "quantity-missing", what: 'nothing computes "nowhere"', got: "nowhere" },
        ],
      }),
    );
    // Also one whose value is not known.
    expect(() => derive(design, new Map(), "row_resistance")).toThrow(/quantity-missing/);
  });

  test("writes the inputs of one procedure out once, under the first of its outputs", () => {
    const solve = procedure({
      name: "both",
      title: "Both",
      about: "For a test.",
      source: "this project",
      inputs: { x: { unit: "1", meaning: "x" }, again: { unit: "1", meaning: "the same" } },
      outputs: { up: { unit: "1", meaning: "up" }, down: { unit: "1", meaning: "down" } },
      run: ([x], outputs) => outputs.set([x! + 1, x! - 1]),
    });
    const sheet = smallSheet("s", { up: "1", down: "1" }, { both: ["1", "up + down"] });
    const program = assemble(
      [{ of: solve, bind: { again: "x" } }, { of: sheet }],
      giving({ x: "1" }),
      parseFormula,
    );
    const derivation = derive(program, valuesOf(program, new Map([["x", 5]])), "both");
    const [up, down] = derivation.children;
    expect(derivation.formula!.numbers).toBe("6 + 4");
    expect(up!.children.map(({ name }) => name)).toEqual(["x", "x"]);
    // A quantity that is read twice is one figure.
    expect(up!.procedure!.inputs).toEqual([{ name: "x", value: 5, unit: "1" }]);
    expect(down).toMatchObject({ shortened: "repeated", children: [] });
    expect("formula" in up!).toBe(false);
  });
});

describe("what depends on what", () => {
  test("dependsOn gives the parameters behind a quantity", () => {
    expect(dependsOn(design, "device_off_current")).toEqual([
      "temperature",
      "threshold",
      "on_current",
      "swing",
    ]);
    expect(dependsOn(design, "temperature")).toEqual(["temperature"]);
  });

  test("neededBy gives all that changes with a quantity", () => {
    expect(neededBy(design, "coefficient")).toEqual([
      "sense_offset",
      "sense_spread",
      "sense_margin",
      "sense_error_rate",
      "sense_passes",
      "sense_gain",
      "sense_squash",
      "sense_arcs",
      "sense_area",
      "sense_least",
    ]);
    expect(neededBy(design, "sense_least")).toEqual([]);
  });

  test(
    "the two agree: a quantity depends on a parameter just if the parameter is needed by " + "it",
    () => {
      for (const given of design.given) {
        const needing = new Set(neededBy(design, given));
        for (const name of design.quantities.keys()) {
          if (design.quantities.get(name)!.by !== "formula") continue;
          expect(dependsOn(design, name).includes(given), `${name} and ${given}`).toBe(
            needing.has(name),
          );
        }
      }
    },
  );
});

describe("symbolOf", () => {
  const quantity = (name: string, prefix: string, symbol?: string) => ({
    ...{ name, unit: "1", meaning: "", by: "formula", from: "", prefix },
    ...(symbol === undefined ? {} : { symbol }),
  });

  test.each([
    ["t_d", "row_decoder_", "t_{d,\\,\\mathrm{row\\ decoder}}"],
    ["R_{on}", "cell_", "R_{on,\\,\\mathrm{cell}}"],
    ["C'", "row_", "{C'}_{\\mathrm{row}}"],
    ["\\tau", "row_", "\\tau_{\\mathrm{row}}"],
    ["\\tau", "", "\\tau"],
  ])("puts the use of %s in %j into its subscript", (symbol, prefix, expected) => {
    expect(symbolOf(quantity("x", prefix, symbol) as never)).toBe(expected);
  });

  test("makes a symbol from the name where the sheet states none", () => {
    expect(symbolOf(quantity("row_delay", "row_") as never)).toBe("\\mathrm{row\\ delay}");
  });
});

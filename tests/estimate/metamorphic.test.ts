/** What a change of the question must do to the answer, exactly. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { TenfoldError } from "../../src/errors/problem.ts";
import { compile } from "../../src/formulas/compile.ts";
import { parseFormula } from "../../src/formulas/parse.ts";
import { BASE_UNITS } from "../../src/quantities/dimension.ts";
import { dimensionOf } from "../../src/quantities/unit.ts";
import { estimateStudy } from "../../src/studies/estimate.ts";
import { randomDesign, SEED } from "./random-designs.ts";
import { CATALOGUE, type Keys, modelOf, studyOf } from "./study.ts";

/**
 * All times and resistances doubled, all currents halved, voltages, capacitances, lengths, energies and temperatures
 * kept: the constants of nature that macros use (charge, Boltzmann's, the vacuum's) stay what they are.
 */
const SLOWER: Readonly<Record<(typeof BASE_UNITS)[number], number>> = {
  m: 0,
  kg: 2,
  s: 1,
  A: -1,
  K: 0,
};

function factorOf(unit: string): number {
  const power = dimensionOf(unit).reduce(
    (sum, [numerator, denominator], i) => sum + (SLOWER[BASE_UNITS[i]!] * numerator) / denominator,
    0,
  );
  return 2 ** power;
}

test("twice every resistance and time and half of every current give twice the times, to the last bits, and the same energies and areas", () => {
  let tried = 0;
  fc.assert(
    fc.property(randomDesign, (keys) => {
      let model: ReturnType<typeof modelOf>;
      try {
        model = modelOf(keys, {}, { ratios: [] });
      } catch (error) {
        if (error instanceof TenfoldError) return;
        throw error;
      }
      tried += 1;
      const program = compile(model.program);
      const unitOf = (name: string) => model.program.quantities.get(name)!.unit;
      const given = new Map(model.parameters.map(({ name, value }) => [name, value]));
      const run = (scale: (name: string) => number) => {
        const inputs = Float64Array.from(program.inputs, (name) => given.get(name)! * scale(name));
        const values = new Float64Array(program.names.length);
        program.evaluate(inputs, values);
        return values;
      };
      const before = run(() => 1);
      const after = run((name) => factorOf(unitOf(name)));
      program.names.forEach((name, i) => {
        const [was, is] = [before[i]!, after[i]!];
        if (!Number.isFinite(was)) return;
        const expected = was * factorOf(unitOf(name));
        expect(
          Math.abs(is - expected),
          `${name} [${unitOf(name)}]: ${was} became ${is}`,
        ).toBeLessThanOrEqual(1e-9 * Math.abs(expected));
      });
    }),
    { seed: SEED, numRuns: 100 },
  );
  expect(tried).toBeGreaterThan(50);
});

const DESIGNS: Readonly<Record<string, Keys>> = {
  static: { cell: "sram-6t", capacity: "64 Kib", word: "32 bit" },
  oxide: {
    cell: { switch: "oxide-bilayer", selector: "transistor" },
    capacity: "64 Kib",
    word: "32 bit",
  },
  magnetic: {
    cell: { switch: "magnetic-tunnel", selector: "transistor" },
    capacity: "64 Kib",
    word: "32 bit",
    error_correction: "single-double",
  },
};
const TOP = { technology: "cmos-65", samples: 64, baseline: "static" };

function figuresOf(designs: Readonly<Record<string, Keys>>, top: Keys = TOP) {
  const { designs: estimated } = estimateStudy(studyOf(designs, top), CATALOGUE, parseFormula);
  return new Map(estimated.map(({ name, figures }) => [name, Object.fromEntries(figures)]));
}

test("designs in another order have the same figures", () => {
  const usual = figuresOf(DESIGNS);
  const turned = figuresOf(Object.fromEntries(Object.entries(DESIGNS).reverse()));
  for (const name of Object.keys(DESIGNS)) expect(turned.get(name)).toEqual(usual.get(name));
});

test("a copy of a design has its figures, draw by draw", () => {
  const figures = figuresOf({ ...DESIGNS, copy: DESIGNS["oxide"]! });
  expect(figures.get("copy")).toEqual(figures.get("oxide"));
});

test("the same study in other units has the same figures", () => {
  const rewritten: Readonly<Record<string, readonly [string, string]>> = {
    capacity: ["64 Kib", "65536 bit"],
    word: ["32 bit", "0.03125 Kib"],
  };
  const other = Object.fromEntries(
    Object.entries(DESIGNS).map(([name, keys]) => [
      name,
      { ...keys, capacity: rewritten["capacity"]![1], word: rewritten["word"]![1] },
    ]),
  );
  expect(figuresOf(other)).toEqual(figuresOf(DESIGNS));
  const of = (temperature: string, supply: string) =>
    figuresOf(DESIGNS, {
      ...TOP,
      temperature,
      defaults: { supply, wires: { rows: { width: supply === "1.2 V" ? "100 nm" : "0.1 um" } } },
    });
  const [celsius, kelvin] = [of("76.85 degC", "1.2 V"), of("350 K", "1200 mV")];
  for (const [name, figures] of celsius) {
    for (const [quantity, { value, low, high }] of Object.entries(figures)) {
      const same = kelvin.get(name)![quantity]!;
      for (const [a, b] of [
        [value, same.value],
        [low, same.low],
        [high, same.high],
      ] as const) {
        // Decimal texts meet their doubles to the last place, sums of them to a few.
        expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-13 * Math.abs(a));
      }
    }
  }
});

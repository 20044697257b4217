import { describe, expect, it, test } from "vitest";
import type { TenfoldError } from "../../src/errors/problem.ts";
import { everyReliability } from "../../src/estimate/every.ts";
import { gapsText } from "../../src/estimate/reliability.ts";
import { checkSheet } from "../../src/formulas/index.ts";
import { parseFormula } from "../../src/formulas/parse.ts";
import { estimateStudy } from "../../src/studies/estimate.ts";
import { CATALOGUE, type Keys, modelOf, OXIDE_TRANSISTOR, quantitiesOf, studyOf } from "./study.ts";

/** eV over k of the 2019 SI, in K. */
const EV_OVER_K = 1.602176634e-19 / 1.380649e-23;
const YEAR = 31557600;

const KEPT: Keys = {
  ...OXIDE_TRANSISTOR,
  switch: {
    from: "oxide-bilayer",
    retention_time: "10 year",
    retention_temperature: "85 degC",
    activation_energy: "1.2 eV",
    endurance: "1e6",
  },
};
const PROFILE = [
  { temperature: "4 degC", share: "50 %" },
  { temperature: "12 degC", share: "30 %" },
  { temperature: "24 degC", share: "20 %" },
];

describe("reliability of a design", () => {
  it("is not estimated where the study says nothing of it, and changes no other figure", () => {
    const plain = modelOf({ cell: KEPT }).nominal();
    expect(plain.has("bit_error_rate")).toBe(false);
    const with_ = modelOf({ cell: KEPT, reliability: { write_rate: "1 1/s" } }).nominal();
    for (const [name, value] of plain) expect(with_.get(name), name).toBe(value);
  });

  it("carries the stated retention over a temperature profile by Arrhenius, as by hand", () => {
    const of = quantitiesOf({
      cell: KEPT,
      reliability: { temperature_profile: PROFILE, mission_time: "5 year" },
    });
    const rate = (celsius: number) =>
      Math.exp(1.2 * EV_OVER_K * (1 / 358.15 - 1 / (celsius + 273.15)));
    const mean = 0.5 * rate(4) + 0.3 * rate(12) + 0.2 * rate(24);
    expect((of("retention") * mean) / (10 * YEAR)).toBeCloseTo(1, 12);
    expect(of("retention_margin") / (of("retention") / (5 * YEAR))).toBeCloseTo(1, 12);
    // Warmer than the mean of the profile, colder than its hottest step.
    expect(of("profile_effective_temperature")).toBeGreaterThan(273.15 + 10.4);
    expect(of("profile_effective_temperature")).toBeLessThan(273.15 + 24);
  });

  it("takes the same retention for a profile of one step as for that temperature", () => {
    const one = quantitiesOf(
      { cell: KEPT, reliability: {} },
      { temperature: "40 degC" },
    )("retention");
    const profile = [{ temperature: "40 degC", share: 1 }];
    const step = quantitiesOf({ cell: KEPT, reliability: { temperature_profile: profile } });
    expect(step("retention") / one).toBeCloseTo(1, 12);
  });

  it("wears out by the writes of the stated stream", () => {
    const of = quantitiesOf({ cell: KEPT, reliability: { write_rate: "100 1/day" } });
    expect(of("hot_line_life") / (1e6 * 864)).toBeCloseTo(1, 12);
    // 2048 words of 32 bits share the writes.
    expect(of("spread_life") / (2048 * 1e6 * 864)).toBeCloseTo(1, 12);
    const first = quantitiesOf({
      cell: KEPT,
      reliability: { write_rate: "100 1/day", life_spread: 0.5 },
    });
    // The first of some 65,000 cells fails about 4.2 deviations below the median.
    const sigmas = Math.log(of("spread_life") / first("spread_life")) / 0.5;
    expect(sigmas).toBeGreaterThan(4.1);
    expect(sigmas).toBeLessThan(4.4);
  });

  it("corrects words by the binomial law: two errors of 39 bits are lost, one is not", () => {
    const of = quantitiesOf({
      cell: KEPT,
      error_correction: "single-double",
      reliability: {},
    });
    const p = of("bit_error_rate");
    expect(of("code_length")).toBe(39);
    let lost = 0;
    for (let k = 39; k >= 2; k--) {
      let ways = 1;
      for (let i = 0; i < k; i++) ways *= (39 - i) / (i + 1);
      lost += ways * p ** k * (1 - p) ** (39 - k);
    }
    expect(of("word_failure") / lost).toBeCloseTo(1, 10);
    const bare = quantitiesOf({ cell: KEPT, reliability: {} });
    expect(bare("word_failure") / -Math.expm1(32 * Math.log1p(-p))).toBeCloseTo(1, 10);
  });

  it("loses fewer macros with spare rows, and none more than without", () => {
    const faults = { reliability: { cell_fault: "1e-6", line_fault: "1e-6" } };
    const plain = quantitiesOf({ cell: "sram-6t", ...faults });
    const spared = quantitiesOf({ cell: "sram-6t", spare_rows: 2, spare_columns: 1, ...faults });
    expect(plain("yield_repaired") / plain("yield_unrepaired")).toBeCloseTo(1, 12);
    expect(spared("array_loss_repaired")).toBeLessThan(0.01 * spared("array_loss_unrepaired"));
  });

  it("leaves out what nobody gave a figure for, and says so", () => {
    const study = studyOf({
      one: {
        capacity: "64 Kib",
        word: "32 bit",
        cell: {
          switch: { on_resistance: "10 kohm", off_resistance: "1 Mohm" },
          selector: { kind: "transistor" },
        },
        reliability: {},
      },
    });
    const [design] = estimateStudy(study, CATALOGUE, parseFormula).designs;
    for (const name of ["bit_error_rate", "retention", "spread_life", "yield_repaired"])
      expect(design!.figures.has(name), name).toBe(false);
    const note = design!.remarks.find(({ text }) => text.startsWith("not estimated"))!.text;
    expect(note).toContain("retention_time");
    expect(note).toContain("endurance");
    expect(gapsText([])).toBeUndefined();
  });

  it("refuses a profile whose shares do not add up, at its place", () => {
    const profile = [{ temperature: "4 degC", share: "60 %" }];
    try {
      modelOf({ cell: KEPT, reliability: { temperature_profile: profile } });
      expect.unreachable();
    } catch (error) {
      const [problem] = (error as TenfoldError).problems;
      expect(problem!.what).toContain("add up to 1");
      expect(problem!.got).toBe("0.6");
      expect(problem!.path).toBe("/designs/one/reliability/temperature_profile");
      expect(problem!.place).toBeDefined();
    }
  });
});

test("the reliability's sheets and formulas hold what sheets have to hold", () => {
  const models = new Set(
    [...everyReliability()].flatMap(({ recipe }) => recipe.instances.map(({ of }) => of)),
  );
  expect([...models].flatMap((one) => checkSheet(one))).toEqual([]);
});

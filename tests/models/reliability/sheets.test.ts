import { describe, expect, test } from "vitest";
import {
  assemble,
  checkSheet,
  type Procedure,
  parseFormula,
  type Sheet,
  valuesOf,
} from "../../../src/formulas/index.ts";
import * as reliability from "../../../src/models/reliability/index.ts";
import { integral, normalDensity } from "../../../src/numerics/index.ts";
import { run } from "../../outside/reliability/run.ts";

const models = Object.values(reliability).filter(
  (value): value is Sheet | Procedure => typeof value === "object" && "kind" in value,
);

describe("sheets and procedures", () => {
  for (const model of models) {
    test(`${model.name}: formulas parse, dimensions agree, nothing is blank`, () => {
      expect(checkSheet(model)).toEqual([]);
    });
  }

  test("there are as many as the folder defines, each with a name of its own", () => {
    expect(models.length).toBeGreaterThan(25);
    expect(new Set(models.map((m) => m.name)).size).toBe(models.length);
  });
});

describe("limits and refusals", () => {
  test("no code, no error: an uncorrected word fails with any of its bits", () => {
    const given = { word: 32, check_bits: 0, corrected_errors: 0, capacity: 32 };
    const values = run(reliability.wordErrors, { ...given, bit_error_rate: 1e-9 });
    expect(
      Math.abs(values["word_failure"]! / -Math.expm1(32 * Math.log1p(-1e-9)) - 1),
    ).toBeLessThan(1e-14);
    const single = values["uncoded_macro_failure"]! / values["macro_failure"]!;
    expect(Math.abs(single - 1)).toBeLessThan(1e-14);
  });

  test("where switching off saves nothing there is no break-even, and that is said", () => {
    const given = { save_energy: 1, restore_energy: 1, keep_power: 1, off_power: 2 };
    const rest = { period: 10, active_time: 1, active_power: 1 };
    expect(() => run(reliability.standby, { ...given, ...rest })).toThrow(
      /not-finite: break_even_time is not a finite number/,
    );
  });

  test("targets outside of 0 to 1 and profiles that don't add up are refused", () => {
    expect(() => reliability.allowedBitErrorRate(72, 1, 0)).toThrow(/bad-probability/);
    expect(() => reliability.zeroFailureDevices(1, 0.1)).toThrow(/bad-probability/);
    expect(() => reliability.singleErrorCheckBits(0)).toThrow(/not-whole/);
    expect(() => reliability.blockCheckBits(64, 1.5)).toThrow(/not-whole/);
    const half = [{ temperature: 300, share: 0.5 }];
    expect(() => reliability.effectiveTemperature(half, 1e-19)).toThrow(/out-of-range/);
    expect(() => reliability.repairablePatterns(5, 5, 1, 1)).toThrow(/too-large/);
  });

  test("check bits for any number of corrected errors", () => {
    expect(reliability.checkBits(64, 0, false)).toBe(0);
    expect(reliability.checkBits(64, 0, true)).toBe(1);
    expect(reliability.checkBits(64, 1, true)).toBe(8);
    expect(reliability.checkBits(64, 2, true)).toBe(15);
    // 57 data bits fit a field of degree 6, but 57 + 2 * 6 bits do not.
    expect(reliability.blockCheckBits(57, 2)).toEqual({ degree: 7, bits: 14 });
    expect(reliability.blockCheckBits(51, 2)).toEqual({ degree: 6, bits: 12 });
  });

  test("a test size that is whole stays whole: R^n = 1 - C down to 1 - C = 1e-3", () => {
    for (const share of [0.9, 0.5, 0.3, 0.1]) {
      for (let n = 1; (1 - share) ** n >= 1e-3; n++) {
        const confidence = 1 - (1 - share) ** n;
        expect(reliability.zeroFailureDevices(confidence, share).devices).toBe(n);
      }
    }
  });

  test("a constant profile is its own effective temperature; its steps share the loss", () => {
    const profile = [
      { temperature: 283, share: 0.25 },
      { temperature: 283, share: 0.75 },
    ];
    expect(reliability.effectiveTemperature(profile, 1.6e-19)).toBeCloseTo(283, 10);
    const shares = reliability.lossShares(profile, 1.6e-19);
    expect(shares[0]! + shares[1]!).toBeCloseTo(1, 14);
    expect(shares[1]!).toBeCloseTo(0.75, 14);
  });

  test("the bound for any array lies above the exact loss of a small one", () => {
    const counts = reliability.repairablePatterns(4, 4, 1, 1);
    for (const p of [1e-6, 1e-3, 0.05]) {
      const exact = reliability.patternYield(counts, p);
      expect(reliability.repairLossBound(16, 2, p)).toBeGreaterThanOrEqual(exact.lost);
      expect(Math.abs(exact.yielded + exact.lost - 1)).toBeLessThan(1e-14);
    }
  });

  test("broken lines and spares: all 2^9 states of 3 + 1 rows and 4 + 1 columns, counted", () => {
    const p = 0.07;
    let good = 0;
    for (let state = 0; state < 512; state++) {
      const broken = Array.from({ length: 9 }, (_, i) => (state >> i) & 1);
      const rows = broken.slice(0, 4).reduce((a, b) => a + b, 0);
      const columns = broken.slice(4).reduce((a, b) => a + b, 0);
      const weight = p ** (rows + columns) * (1 - p) ** (9 - rows - columns);
      if (rows <= 1 && columns <= 1) good += weight;
    }
    const given = { rows: 3, columns: 4, spare_rows: 1, spare_columns: 1, line_fault: p };
    const lost = run(reliability.brokenLines, given)["broken_lines_loss"]!;
    expect(Math.abs(1 - lost - good)).toBeLessThan(1e-15 * 4);
  });

  test("verified levels: a cut normal has the moments that quadrature gives", () => {
    const values = run(reliability.verifiedLevels, {
      on_resistance: 1e4,
      off_resistance: 1e6,
      levels: 4,
      cycle_spread: 0.3,
      level_tolerance: 0.2,
      read_noise: 0.05,
    });
    const density = (x: number) => normalDensity(x / 0.3) / 0.3;
    const inside = integral(density, -0.2, 0.2, 40);
    const square = integral((x) => x * x * density(x), -0.2, 0.2, 40) / inside;
    expect(values["pulse_failure"]!).toBeCloseTo(1 - inside, 13);
    expect(values["verified_spread"]!).toBeCloseTo(Math.sqrt(square), 12);
    expect(values["level_distance"]!).toBeCloseTo(Math.log(100) / 3, 14);
    expect(values["level_spacing"]!).toBeGreaterThan(10);
  });

  test("the sheets of a macro join into one program, from spread to failure of the macro", () => {
    const given: Record<string, number> = {
      on_resistance: 6e3,
      off_resistance: 2e5,
      device_spread_on: 0.15,
      device_spread_off: 0.5,
      cycle_spread: 0.15,
      word: 32,
      check_bits: 7,
      corrected_errors: 1,
      capacity: 2 ** 20,
      retention_time: 3.15576e8,
      retention_temperature: 358.15,
      temperature: 283.15,
      activation_energy: 1.2 * 1.602176634e-19,
      cells: (2 ** 20 * 39) / 32,
      endurance: 1e9,
      life_spread: 0.8,
      wear_share: 0.8,
      write_rate: 8000,
      write_amplification: 1,
      hot_line: 32,
      rows: 512,
      columns: 512,
      parallel_cells: 8,
      write_voltage: 1,
      rate_voltage: 0.1,
      disturb_margin: 10,
    };
    const unitOf = new Map(
      reliability.MEMORY_RELIABILITY.flatMap(({ of }) =>
        Object.entries(of.inputs).map(([name, { unit }]) => [name, unit] as const),
      ),
    );
    const units = Object.keys(given).map((name) => ({ name, unit: unitOf.get(name) ?? "1" }));
    const program = assemble(reliability.MEMORY_RELIABILITY, units, parseFormula);
    const values = valuesOf(program, new Map(Object.entries(given)));
    const value = (name: string): number => values.get(name)!;
    expect(value("word_failure")).toBeLessThan(value("least_read_error"));
    expect(value("macro_failure")).toBeGreaterThan(value("word_failure"));
    expect(value("first_median_life")).toBeLessThan(1e9);
    expect(value("spread_life")).toBeGreaterThan(value("hot_line_life"));
    expect(value("retention")).toBeGreaterThan(3.15576e8);
    expect(value("half_voltage_exposures")).toBe(14);
  });

  test("stated retention carries to the temperature of use, spreads add as squares", () => {
    const values = run(reliability.statedRetention, {
      retention_time: 3.15576e8,
      retention_temperature: 358.15,
      temperature: 283.15,
      activation_energy: 1.1 * 1.602176634e-19,
    });
    // The same factor as the acceleration from 10 to 85 degC.
    const factor = run(reliability.acceleration, {
      activation_energy: 1.1 * 1.602176634e-19,
      use_temperature: 283.15,
      stress_temperature: 358.15,
      stress_time: 1,
    })["temperature_acceleration"]!;
    expect(Math.abs(values["retention"]! / (3.15576e8 * factor) - 1)).toBeLessThan(1e-14);
    const spread = run(reliability.switchSpread, {
      device_spread_on: 0.3,
      device_spread_off: 0.6,
      cycle_spread: 0.4,
    });
    expect(spread["on_spread"]!).toBeCloseTo(0.5, 15);
  });
});

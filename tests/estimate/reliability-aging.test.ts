import { describe, expect, it } from "vitest";
import {
  leastErrorReferences,
  pairError,
  type ReadPath,
  readLevels,
} from "../../src/models/reliability/index.ts";
import { readErrors } from "../../src/models/reliability/read-errors.ts";
import { binomialTail } from "../../src/numerics/special/discrete.ts";
import { type Keys, modelOf, OXIDE_TRANSISTOR, quantitiesOf } from "./study.ts";

const YEAR = 31557600;
/** A narrow switch, so that several levels can be told apart. */
const NARROW: Keys = {
  from: "oxide-bilayer",
  off_resistance: "600 kohm",
  device_spread_on: 0.08,
  device_spread_off: 0.15,
  cycle_spread: 0.05,
  retention_time: "10 year",
  retention_temperature: "85 degC",
};
const cell = (more: Keys = {}): Keys => ({ ...OXIDE_TRANSISTOR, switch: NARROW, ...more });
const DRIFT = { on: 0.002, off: 0.03, on_deviation: 0.001, off_deviation: 0.01 };

describe("cells of several bits", () => {
  const of = quantitiesOf({ cell: cell({ bits: 2 }), reliability: {} });

  it("have levels evenly in ln R, each with the current through its access resistance", () => {
    expect(of("level_resistance_2") / (6e3 * 100 ** (1 / 3))).toBeCloseTo(1, 12);
    const series = of("read_voltage") / of("cell_on_current") - 6e3;
    for (const k of [1, 2, 3, 4]) {
      const resistance = 6e3 * 100 ** ((k - 1) / 3);
      const current = of("read_voltage") / (resistance + series);
      expect(of(`level_current_${k}`) / current, `level ${k}`).toBeCloseTo(1, 9);
    }
  });

  it("have spreads and drift evenly between those of the two states", () => {
    const drifting = quantitiesOf({ cell: cell({ bits: 2 }), reliability: { drift: DRIFT } });
    for (const k of [1, 2, 3, 4]) {
      const [on, off] = [drifting("on_spread"), drifting("off_spread")];
      expect(drifting(`level_spread_${k}`)).toBeCloseTo(on + ((off - on) * (k - 1)) / 3, 12);
      expect(drifting(`level_drift_${k}`)).toBeCloseTo(0.002 + (0.028 * (k - 1)) / 3, 12);
      expect(drifting(`level_drift_deviation_${k}`)).toBeCloseTo(0.001 + 0.003 * (k - 1), 12);
    }
  });

  it("err as their levels do at references of least error, noise growing with the reference", () => {
    const levels = [1, 2, 3, 4].map((k) => ({
      current: of(`level_current_${k}`),
      spread: of(`level_spread_${k}`),
    }));
    const share =
      of("sense_amplifier_offset_current") /
      (of("sense_sigmas") * of("sense_amplifier_reference_current"));
    const shot = 1.602176634e-19 / of("sense_amplifier_signal_time");
    const path: ReadPath = { leak: 0, noise: (t) => Math.hypot(share * t, Math.sqrt(shot * t)) };
    const found = readLevels(levels, leastErrorReferences(levels, path), path);
    expect(of("bit_error_rate") / found.bit).toBeCloseTo(1, 6);
    expect(of("word_failure") / binomialTail(32, 1, found.bit)).toBeCloseTo(1, 6);
    const shares = [1, 2, 3].map((k) => of(`boundary_share_${k}`));
    expect(shares.reduce((a, b) => a + b)).toBeCloseTo(1, 12);
  });

  it("take the levels that the study states", () => {
    const levels = [6, 20, 70, 600].map((kohm) => ({
      resistance: `${kohm} kohm`,
      spread: 0.05,
      drift: 0.001 * kohm ** 0.5,
      drift_deviation: 0.001,
    }));
    const stated = quantitiesOf({
      cell: cell({ bits: 2 }),
      reliability: { levels, mission_time: "1 year" },
    });
    expect(stated("level_spread_3")).toBe(0.05);
    const series = stated("read_voltage") / stated("cell_on_current") - 6e3;
    expect(stated("level_current_3") * (70e3 + series)).toBeCloseTo(stated("read_voltage"), 12);
    expect(stated("aged_bit_error_rate")).toBeGreaterThan(stated("bit_error_rate"));
  });

  it("of one bit and no drift to speak of, are the two-level read at a better reference", () => {
    const plain = quantitiesOf({ cell: cell(), reliability: {} });
    const drifts = quantitiesOf({ cell: cell(), reliability: { drift: { on: 1e-12 } } });
    const ratio = drifts("bit_error_rate") / plain("bit_error_rate");
    expect(ratio).toBeLessThanOrEqual(1);
    expect(ratio).toBeGreaterThan(0.5);
    // At the same reference they are the same: `array_read_errors` is the limit of two levels.
    const { onAsOff, offAsOn } = readErrors({
      on: plain("cell_on_current"),
      off: plain("cell_off_current"),
      leak: 0,
      onSpread: plain("on_spread"),
      offSpread: plain("off_spread"),
      noise: plain("sense_current_sigma"),
    });
    expect(plain("bit_error_rate") / ((onAsOff + offAsOn) / 2)).toBeCloseTo(1, 12);
  });
});

describe("two switches for each bit", () => {
  it("err as a pair, and seldom against one switch", () => {
    const pair = quantitiesOf({ cell: cell({ form: "differential" }), reliability: {} });
    const single = quantitiesOf({ cell: cell(), reliability: {} });
    const error = pairError({
      on: pair("cell_on_current"),
      off: pair("cell_off_current"),
      onSpread: pair("on_spread"),
      offSpread: pair("off_spread"),
      noise: pair("sense_current_sigma"),
    });
    expect(pair("bit_error_rate") / error).toBeCloseTo(1, 12);
    expect(pair("bit_error_rate")).toBeLessThan(single("bit_error_rate"));
  });

  it("drift with both of their states", () => {
    const of = quantitiesOf({
      cell: cell({ form: "differential" }),
      reliability: { drift: DRIFT, mission_time: "5 year" },
    });
    const decades = Math.log(5 * YEAR);
    const error = pairError({
      on: of("cell_on_current") * Math.exp(-0.002 * decades),
      off: of("cell_off_current") * Math.exp(-0.03 * decades),
      onSpread: Math.hypot(of("on_spread"), 0.001 * decades),
      offSpread: Math.hypot(of("off_spread"), 0.01 * decades),
      noise: of("sense_current_sigma"),
    });
    expect(of("time_4_bit_error_rate") / error).toBeCloseTo(1, 9);
  });
});

describe("errors as time goes by", () => {
  it("of states that are lost by heat follow the stated share at the stated retention", () => {
    const of = quantitiesOf(
      {
        cell: cell({ form: "differential" }),
        reliability: { lost_share: 1e-5, loss_shape: 1.5, mission_time: "10 year" },
      },
      { temperature: "85 degC" },
    );
    // At 85 degC the retention is the stated one: ten years.
    expect(of("time_4_changed_share") / 1e-5).toBeCloseTo(1, 9);
    const year = -Math.expm1(Math.log1p(-1e-5) * 0.1 ** 1.5);
    expect(of("time_3_changed_share") / year).toBeCloseTo(1, 9);
    expect(of("worst_time")).toBeCloseTo(10 * YEAR, 0);
  });

  it("of static cells are flips at a constant rate, and nothing else", () => {
    const of = quantitiesOf({
      cell: "sram-6t",
      error_correction: "single-double",
      reliability: { bit_flip_rate: "1e-12 1/h", mission_time: "5 year" },
    });
    const flipped = -Math.expm1((-1e-12 * 5 * YEAR) / 3600);
    expect(of("aged_bit_error_rate") / flipped).toBeCloseTo(1, 12);
    const word = binomialTail(39, 2, flipped);
    expect(of("aged_word_failure") / word).toBeCloseTo(1, 12);
    expect(of("mission_failure") / -Math.expm1(2048 * Math.log1p(-word))).toBeCloseTo(1, 12);
  });

  it("are told at the times that the study asks for, the mission's end among them", () => {
    const of = quantitiesOf({
      cell: "sram-6t",
      reliability: {
        bit_flip_rate: "1e-12 1/h",
        mission_time: "2 year",
        times: ["3 year", "1 h", "10 day"],
      },
    });
    expect([1, 2, 3].map((k) => of(`read_time_${k}`))).toEqual([3600, 864000, 2 * YEAR]);
  });

  it("with references that follow the levels are never more than with fixed ones", () => {
    const at = (kind: string) =>
      quantitiesOf({
        cell: cell({ bits: 2 }),
        reliability: { drift: DRIFT, reference: { kind }, mission_time: "5 year" },
      });
    const [fixed, tracking] = [at("fixed"), at("tracking")];
    expect(tracking("bit_error_rate")).toBe(fixed("bit_error_rate"));
    for (const k of [1, 2, 3, 4]) {
      const name = `time_${k}_bit_error_rate`;
      expect(tracking(name), name).toBeLessThan(0.5 * fixed(name));
    }
    expect(fixed("time_4_bit_error_rate")).toBeGreaterThan(fixed("time_1_bit_error_rate"));
  });

  it("start anew with every scrub: shorter times, more rounds", () => {
    const at = (more: Keys) =>
      quantitiesOf({
        cell: "sram-6t",
        error_correction: "single",
        reliability: { bit_flip_rate: "1e-9 1/h", mission_time: "5 year", ...more },
      });
    const [never, monthly] = [at({}), at({ scrub_interval: "30 day" })];
    const rounds = (5 * YEAR) / (30 * 86400);
    const word = monthly("aged_word_failure");
    const lost = -Math.expm1(2048 * rounds * Math.log1p(-word));
    expect(monthly("mission_failure") / lost).toBeCloseTo(1, 12);
    // Two errors of a word: as the square of the interval for a word, as the interval for the macro.
    const gain = never("mission_failure") / monthly("mission_failure") / rounds;
    expect(gain).toBeGreaterThan(0.95);
    expect(gain).toBeLessThan(1.001);
    const power = 2048 * (monthly("active_read_energy") + monthly("active_write_energy"));
    expect((monthly("scrub_power") * 30 * 86400) / power).toBeCloseTo(1, 12);
  });

  it("add read noise and offsets of the reference that all amplifiers of a word share", () => {
    const at = (more: Keys) => quantitiesOf({ cell: cell(), error_correction: "single", ...more });
    const plain = at({ reliability: { read_noise: 0 } });
    expect(at({ reliability: { read_noise: 0.1 } })("level_spread_1")).toBeCloseTo(
      Math.hypot(plain("on_spread"), 0.1),
      12,
    );
    const shared = at({ reliability: { reference: { spread: 0.2 } } });
    expect(shared("bit_error_rate")).toBeGreaterThan(plain("bit_error_rate"));
    // The errors of a word come together: more words fail than the bit errors alone would say.
    expect(shared("word_failure")).toBeGreaterThan(
      10 * binomialTail(38, 2, shared("bit_error_rate")),
    );
    const off = at({ reliability: { reference: { offset: -0.2 } } });
    expect(off("bit_error_rate")).toBeGreaterThan(plain("bit_error_rate"));
  });
});

describe("writes held to a tolerance", () => {
  it("cut the spread as the variance of a cut normal, and repeat the pulses that miss", () => {
    const of = quantitiesOf({ cell: cell(), reliability: { level_tolerance: 0.1 } });
    // Twice the deviation from cycle to cycle: 4.55 % miss, the variance falls to 0.7737.
    expect(of("pulse_failure")).toBeCloseTo(0.0455, 5);
    expect(of("on_spread") / 0.05).toBeCloseTo(Math.sqrt(0.77374), 4);
    expect(of("verify_pulses") * (1 - of("pulse_failure"))).toBeCloseTo(1.5, 12);
    const plain = quantitiesOf({ cell: cell(), reliability: {} });
    expect(of("write_energy")).toBeGreaterThan(plain("write_energy"));
    expect(of("bit_error_rate")).toBeLessThan(plain("bit_error_rate"));
  });
});

describe("cells whose bit errors nothing is known for", () => {
  const needs = (keys: Keys): string =>
    modelOf({ reliability: {}, ...keys })
      .design.reliability!.gaps.filter(({ figure }) => figure === "bit errors")
      .map((gap) => gap.needs)
      .join("; ");

  it("say why, each in its own way", () => {
    expect(needs({ cell: "sram-6t" })).toContain("bit_flip_rate");
    expect(needs({ cell: "gain-2t" })).toContain("stored voltage");
    expect(needs({ cell: "dram-1t1c" })).toContain("cell_spread");
    expect(needs({ cell: "nor-flash" })).toContain("floating gate");
    expect(needs({ cell: cell({ form: "differential", bits: 2 }) })).toContain("one bit");
    expect(needs({ cell: cell({ bits: 5 }) })).toContain("at most 4 bits");
    expect(
      needs({ cell: cell({ bits: 2 }), reliability: { levels: [{ resistance: "1 kohm" }] } }),
    ).toContain("all 4 levels");
  });

  it("of floating gates and capacitors are computed where the study states their spread", () => {
    const spread = { reliability: { cell_spread: { on: 0.1, off: 0.3 } } };
    const flash = quantitiesOf({ cell: "nor-flash", ...spread });
    expect(flash("bit_error_rate")).toBeLessThan(1e-3);
    const dram = quantitiesOf({ cell: "dram-1t1c", ...spread });
    const noise =
      (1.380649e-23 * dram("temperature")) /
      (dram("storage_capacitance") + dram("column_capacitance"));
    const sigma = Math.sqrt(
      dram("sense_amplifier_offset_sigma") ** 2 + noise + (0.1 * dram("signal_voltage")) ** 2,
    );
    expect(dram("signal_voltage") / sigma).toBeGreaterThan(3);
    expect(dram("charge_noise") ** 2 / noise).toBeCloseTo(1, 12);
  });
});

import { describe, expect, test } from "vitest";
import { loneSigmas } from "../../src/estimate/crossbar/works.ts";
import { resolveDesign } from "../../src/estimate/design.ts";
import { DesignFamily } from "../../src/estimate/family.ts";
import { MacroModel } from "../../src/estimate/model.ts";
import { REPORTED } from "../../src/estimate/quantities.ts";
import { parseFormula } from "../../src/formulas/parse.ts";
import { marginSigmas } from "../../src/models/crossbar/margin.ts";
import { sidesOf } from "../studies/claim/study.ts";
import { CATALOGUE, type Keys, modelOf, OXIDE_TRANSISTOR, quantitiesOf, studyOf } from "./study.ts";

const HELD = { level_tolerance: "0.1" };
const TILE = { rows: 128, columns: 128, column_share: 4 };
const CROSSPOINT = {
  switch: "oxide-filament",
  selector: { kind: "threshold", from: "threshold-chalcogenide" },
};

const design = (bits: number, more: Keys = {}, cell: Keys = OXIDE_TRANSISTOR): Keys => ({
  cell: { ...cell, bits },
  tile: TILE,
  reliability: HELD,
  overrides: { offset_cancelled: "1" },
  ...more,
});

type Four = [number, number, number, number];

const READINGS = ["successive", "parallel"] as const;

describe("cells of several bits, counted by hand", () => {
  // 128 columns of which four share an amplifier: 32 sensed columns; a reference serves 16.
  test.each([
    [2, 3],
    [3, 7],
  ])("of %i bits have %i references, and in parallel as many amplifiers", (bits, references) => {
    for (const levels of READINGS) {
      const q = quantitiesOf(design(bits, { sense: { comparison: levels } }));
      const tiles = q("tiles");
      const parallel = levels === "parallel";
      expect(q("all_sense_amplifier_instances")).toBe(tiles * 32 * (parallel ? references : 1));
      expect(q("all_reference_instances")).toBe(tiles * 2 * references);
      expect(q("all_data_driver_instances")).toBe(tiles * 32 * bits);
      const beside = parallel ? "level_encoder" : "level_register";
      expect(q(`all_${beside}_instances`)).toBe(tiles * 32);
      if (!parallel) expect(q("all_level_sequencer_instances")).toBe(tiles);
      const decisions = parallel ? references : bits;
      const energy = q("tiles_active") * 32 * decisions * q("sense_amplifier_read_energy");
      expect(q("all_sense_amplifier_read_energy") / energy).toBeCloseTo(1, 12);
    }
  });

  test("by successive approximation decide once for each bit, with a step in between", () => {
    const q = quantitiesOf(design(3));
    const step =
      q("level_sequencer_delay") + q("level_register_delay") + q("sense_amplifier_recovery");
    expect(q("sense_delay") / (3 * q("sense_amplifier_delay") + 2 * step)).toBeCloseTo(1, 12);
  });

  // 1.5 pulses of further ones for each level beyond two: four levels take 1 + 2 * 1.5 times as many.
  test("are verified after every pulse of all levels, each time by a read of all levels", () => {
    const q = quantitiesOf(design(2));
    expect(q("write_pulses") / q("verify_pulses")).toBeCloseTo(4, 12);
    const read = q("bit_line_delay") + q("sense_delay");
    const pulses = q("write_time") * q("pulse_share");
    expect(q("pulse_time") / (pulses + q("write_pulses") * read)).toBeCloseTo(1, 12);
    const decided = q("word_cells") * 2 * q("sense_amplifier_read_energy");
    const lines = q("column_read_energy") + q("static_read_energy");
    expect(q("verify_energy") / (q("write_pulses") * (lines + decided))).toBeCloseTo(1, 12);
  });
});

test("a cell of one bit has the same figures to the bit where its macro could read several", () => {
  for (const cell of [OXIDE_TRANSISTOR, CROSSPOINT]) {
    const study = studyOf({
      one: { capacity: "64 Kib", word: "32 bit", ...design(1, {}, cell) },
    });
    const resolved = resolveDesign(study, "one", CATALOGUE);
    const plain = new MacroModel(resolved, parseFormula).nominal();
    for (const levels of READINGS) {
      const able = new MacroModel({ ...resolved, levels }, parseFormula).nominal();
      for (const { name } of REPORTED) expect(able.get(name), name).toBe(plain.get(name));
    }
  }
});

test("where the bits of a cell vary, each point has what a design of so many bits has", () => {
  const names = ["read_latency", "transistors", "standby_power"];
  const study = studyOf({ one: { capacity: "64 Kib", word: "32 bit", ...design(1) } });
  const resolved = resolveDesign(study, "one", CATALOGUE);
  const family = new DesignFamily(
    { study, design: resolved, varied: ["bits_per_cell"], quantities: names },
    parseFormula,
  );
  const columns = names.map(() => new Float64Array(3));
  const reasons = family.evaluate([Float64Array.of(1, 2, 3)], 3, columns);
  expect(reasons.filter((reason) => reason !== undefined)).toEqual([]);
  for (const bits of [1, 2, 3]) {
    const q = quantitiesOf(design(bits));
    names.forEach((name, i) => {
      expect(columns[i]![bits - 1]! / q(name), `${name} of ${bits}`).toBeCloseTo(1, 12);
    });
  }
});

test("a claim that asks for two bits counts what a switch of two bits has, amplifiers and all", () => {
  const one = sidesOf("memory-sram-6t");
  const two = sidesOf("memory-sram-6t", { subject: "two-bits" });
  const parameter = one.parameters().find(({ name }) => name === "bits_per_cell")!;
  for (const boundary of ["cell", "tile", "macro"] as const) {
    const asked = one.saved(boundary, { parameter, value: 2 });
    expect(asked / two.saved(boundary), boundary).toBeCloseTo(1, 12);
  }
  const registers = two.hybrid.rows.find(({ part }) => part === "level registers")!;
  // 512 Ki cells in eight tiles of 256 columns, eight to an amplifier: 54 transistors at each.
  expect(two.hybrid.everything().get(registers.quantity)).toBe(8 * 32 * 54);
});

test("latencies, and the energies of a cell, rise with the bits of it; so does what an amplifier takes", () => {
  for (const levels of READINGS) {
    const made = [1, 2, 3].map((bits) =>
      quantitiesOf(design(bits, { sense: { comparison: levels } })),
    );
    const perCell = (name: string) => made.map((q) => q(name) / q("word_cells"));
    for (const name of ["read_latency", "write_latency", "sense_amplifier_area"])
      expectRising(
        made.map((q) => q(name)),
        name,
      );
    for (const name of ["read_energy", "write_energy"]) expectRising(perCell(name), name);
  }
});

function expectRising(values: readonly number[], name: string): void {
  values.slice(1).forEach((value, i) => {
    expect(value, `${name} ${values}`).toBeGreaterThan(values[i]!);
  });
}

test("the parts of every total sum to it, level by level", () => {
  for (const levels of READINGS) {
    for (const lines of ["whole", "columns"]) {
      const model = modelOf(design(2, { sense: { comparison: levels }, tile: { ...TILE, lines } }));
      const values = model.nominal();
      for (const { name, parts } of model.totals) {
        const sum = parts.reduce((total, { quantity }) => total + values.get(quantity)!, 0);
        expect(sum / values.get(name)!, name).toBeCloseTo(1, 12);
        const own = levels === "parallel" ? "level encoders" : "level registers";
        expect(parts.map(({ part }) => part)).toContain(own);
      }
    }
  }
});

test("amplifiers are made for the levels whose errors the reliability counts", () => {
  for (const [cell, bits] of [
    [OXIDE_TRANSISTOR, 2],
    [OXIDE_TRANSISTOR, 3],
    [CROSSPOINT, 2],
  ] as const) {
    const q = quantitiesOf(design(bits, {}, cell));
    expect(q("second_level_current") / q("level_current_2")).toBeCloseTo(1, 12);
    const before = q(`level_current_${2 ** bits - 1}`);
    expect(q("last_but_one_level_current") / before).toBeCloseTo(1, 12);
  }
});

test("the margin of a cell is that of its worst pair of levels, and less than that between on and off", () => {
  const margins = [1, 2, 3].map((bits) => quantitiesOf(design(bits))("read_margin_sigmas"));
  expectRising([...margins].reverse(), "read_margin_sigmas");
});

test("each of the two pairs of levels has the margin of its own currents, spreads and mismatch", () => {
  const q = quantitiesOf(design(3));
  const [on, second, before, off] = [1, 2, 7, 8].map((k) => q(`level_current_${k}`)) as Four;
  // Spreads lie evenly between those of on and off, as the reliability has them.
  const [s1, s2, s7, s8] = [1, 2, 7, 8].map((k) => q(`level_spread_${k}`)) as Four;
  const noise = (pair: string) => q(`${pair}_pair_sense_current_sigma`);
  const first = marginSigmas(on - second, on, second, s1, s2, noise("first"));
  const last = marginSigmas(before - off, before, off, s7, s8, noise("last"));
  expect(q("first_pair_read_margin_sigmas") / first).toBeCloseTo(1, 8);
  expect(q("last_pair_read_margin_sigmas") / last).toBeCloseTo(1, 8);
  expect(q("read_margin_sigmas") / Math.min(first, last)).toBeCloseTo(1, 8);
  const mismatch = q("sense_amplifier_first_offset_current") / q("sense_amplifier_first_reference");
  const mean = q("sense_amplifier_offset_current") / q("sense_amplifier_reference_current");
  expect(mismatch / mean).toBeCloseTo(1, 12);
});

test("the largest tile is judged by levels: a lone cell has the margin of a column without leak", () => {
  for (const bits of [1, 2, 3]) {
    // What others leak through their transistors is the same for all levels.
    const values = modelOf(design(bits)).nominal();
    expect(loneSigmas(values) / values.get("read_margin_sigmas")!).toBeCloseTo(1, 6);
    const crossbar = modelOf(design(bits, {}, CROSSPOINT), {}, { ratios: [] }).nominal();
    const margin = crossbar.get("read_margin_sigmas")!;
    expect(loneSigmas(crossbar)).toBeGreaterThanOrEqual(margin * (1 - 1e-9));
    expect(loneSigmas(crossbar)).toBeLessThan(margin * 2);
  }
});

test("what is left out is said, and nothing where it is counted", () => {
  const cautions = (keys: Keys) =>
    resolveDesign(
      studyOf({ one: { capacity: "64 Kib", word: "32 bit", ...keys } }),
      "one",
      CATALOGUE,
    ).cautions.join("\n");
  expect(cautions(design(2))).not.toMatch(/levels|decision/);
  expect(cautions(design(1, { reliability: {} }))).not.toMatch(/levels|decision/);
  expect(cautions(design(2, { reliability: {} }))).toContain("level_tolerance");
  const pair = { ...OXIDE_TRANSISTOR, form: "differential" };
  expect(cautions(design(2, {}, pair))).toContain("as if one decision");
  const stated = ["10 kohm", "20 kohm", "60 kohm", "200 kohm"].map((resistance) => ({
    resistance,
  }));
  expect(cautions(design(2, { reliability: { ...HELD, levels: stated } }))).toContain("stated");
});

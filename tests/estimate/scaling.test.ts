// How figures must scale, derived beside each law. Nothing here repeats a sheet: each law follows from counting or from
// a dimension.
import { describe, expect, test } from "vitest";
import { type Keys, OXIDE_TRANSISTOR, quantitiesOf } from "./study.ts";

const TILE = { rows: 128, columns: 128, column_share: 8 };
const STATIC: Keys = { cell: "sram-6t", tile: TILE };
const RESISTIVE: Keys = { cell: OXIDE_TRANSISTOR, tile: TILE };
const CROSSBAR: Keys = {
  cell: { switch: "oxide-filament", selector: "threshold-chalcogenide" },
  bias: "one-half",
  tile: { rows: 64, columns: 64, column_share: 4 },
};
// What tiles share goes by their number; those of these laws share nothing.
const DYNAMIC: Keys = { cell: "dram-1t1c", tile: { ...TILE, lines: "whole" } };
const ALL = { static: STATIC, resistive: RESISTIVE, crossbar: CROSSBAR, dynamic: DYNAMIC };

const EACH = Object.entries(ALL);

describe.each(EACH)("%s", (_, keys) => {
  const at = (more: Keys) => quantitiesOf({ ...keys, ...more });

  test("twice the capacity in the same tiles doubles cells, their area and what is in the tiles", () => {
    const [one, two] = [at({ capacity: "64 Kib" }), at({ capacity: "128 Kib" })];
    const doubled = [
      "tiles",
      "cells",
      "all_cells_area",
      "all_cells_transistors",
      "all_cells_leakage",
      "all_row_decoder_transistors",
      "all_row_driver_area",
      "all_row_driver_leakage",
      "all_edges_area",
      "switches",
    ];
    for (const name of doubled) expect(two(name), name).toBeCloseTo(2 * one(name), 12);
    for (const name of [
      "macro_area",
      "transistors",
      "read_energy",
      "write_energy",
      "standby_power",
    ]) {
      expect(two(name), name).toBeGreaterThan(one(name));
    }
    for (const name of ["read_latency", "write_latency"]) {
      expect(two(name), name).toBeGreaterThanOrEqual(one(name));
    }
    // The ways within a tile do not know how many tiles there are.
    for (const name of ["word_line_delay", "bit_line_delay", "sense_delay"]) {
      expect(two(name) / one(name), name).toBeCloseTo(1, 12);
    }
  });

  test("twice the banks in the same tiles move nothing but the control of the banks", () => {
    const banks = (n: number) => at({ capacity: "512 Kib", banks: n });
    const [two, four] = [banks(2), banks(4)];
    expect(four("tiles")).toBe(two("tiles"));
    for (const name of [
      "all_cells_area",
      "all_row_driver_area",
      "all_sense_amplifier_transistors",
    ]) {
      expect(four(name) / two(name), name).toBeCloseTo(1, 12);
    }
    // One set of gates more for each bank; the enables belong to the tiles, whose number is the same.
    const gates = 4 * two("bank_control_gates");
    expect(four("transistors") - two("transistors")).toBeCloseTo(2 * gates, 6);
  });

  test("more resistive wires are never faster, and reach no more of the write voltage", () => {
    const wires = (factor: number) => {
      const figure = (value: number) => ({ resistivity: { value: `${value} ohm m` } });
      const level = { from: "local", ...figure(3e-8 * factor) };
      return at({ wires: { rows: level, columns: level } });
    };
    const steps = [1, 3, 10].map(wires);
    for (const name of ["read_latency", "write_latency", "word_line_delay", "bit_line_delay"]) {
      for (const [i, next] of steps.slice(1).entries()) {
        expect(next(name), name).toBeGreaterThanOrEqual(steps[i]!(name) * (1 - 1e-12));
      }
      expect(steps[2]!(name), name).toBeGreaterThan(steps[0]!(name));
    }
    expect(steps[2]!("write_voltage")).toBeGreaterThanOrEqual(steps[0]!("write_voltage"));
  });

  test("weaker transistors are never faster", () => {
    const drive = (share: number) =>
      at({
        overrides: {
          nmos_on_current: `${1000 * share} A/m`,
          thick_on_current: `${550 * share} A/m`,
          fo4_delay: `${20 / share} ps`,
        },
      });
    const [strong, weak] = [drive(1), drive(0.5)];
    for (const name of ["read_latency", "decode_delay", "sense_delay", "output_delay"]) {
      expect(weak(name), name).toBeGreaterThan(strong(name));
    }
  });

  test("a hotter macro leaks more", () => {
    const hot = (celsius: number) => at({ temperature: `${celsius} degC` });
    const [cold, warm] = [hot(0), hot(85)];
    expect(warm("standby_power")).toBeGreaterThan(cold("standby_power"));
    // The swing is proportional to the absolute temperature: at 0 degC leakage is the more below that at 85 degC.
    expect(warm("off_current") / cold("off_current")).toBeGreaterThan(10);
  });

  test("more sigmas never need smaller amplifiers, faster senses or less area", () => {
    const sigmas = (n: number) => at({ sense: { sigmas: `${n}` } });
    const [few, many] = [sigmas(3), sigmas(7)];
    for (const name of ["sense_amplifier_pair_width", "sense_amplifier_area", "macro_area"]) {
      expect(many(name), name).toBeGreaterThanOrEqual(few(name));
    }
  });

  test("check bits and spares cost area and transistors, and store no more", () => {
    const plain = at({});
    const guarded = at({ error_correction: "single-double" });
    const spared = at({ spare_rows: 4, spare_columns: 8 });
    for (const name of ["macro_area", "transistors", "all_cells_area"]) {
      expect(guarded(name), name).toBeGreaterThan(plain(name));
      expect(spared(name), name).toBeGreaterThan(plain(name));
    }
    // 32 bits need 7 check bits with double detection: capacity x 39 / 32, in whole tiles.
    expect(guarded("coded_word")).toBe(39);
    expect(guarded("tiles")).toBe(Math.ceil((plain("tiles") * 39) / 32));
    const { rows, columns } = (keys["tile"] ?? {}) as { rows: number; columns: number };
    const each = ((rows + 4) * (columns + 8)) / (rows * columns);
    expect(spared("cells") / plain("cells")).toBeCloseTo(each, 12);
  });
});

describe("a process of half the size", () => {
  // Every length halves, every resistivity, voltage and capacitance per length stays: areas are lengths squared, the
  // resistance of a wire is rho l / (w t), so that a line of as many cells has twice its resistance, and its
  // capacitance, c l, halves. Their product, the delay of a bare line, stays.
  const lengths = (factor: number) => ({
    metal_half_pitch: `${105 * factor} nm`,
    contacted_gate_pitch: `${220 * factor} nm`,
    minimum_width: `${120 * factor} nm`,
    sram_6t_cell_area: `${0.57 * factor ** 2} um^2`,
    flip_flop_area: `${7.5 * factor ** 2} um^2`,
    gate_density: `${900000 / factor ** 2} 1/mm^2`,
    matching_coefficient: `${2.8 * factor} mV um`,
    thick_gate_length: `${0.3 * factor} um`,
    thick_contacted_pitch: `${0.75 * factor} um`,
    local_wire_width: `${105 * factor} nm`,
    local_wire_spacing: `${105 * factor} nm`,
    local_wire_thickness: `${170 * factor} nm`,
    intermediate_wire_width: `${140 * factor} nm`,
    intermediate_wire_spacing: `${140 * factor} nm`,
    intermediate_wire_thickness: `${250 * factor} nm`,
  });
  const scaled = (keys: Keys, factor: number) =>
    quantitiesOf({ ...keys, feature: `${105 * factor} nm`, overrides: lengths(factor) });

  test("a static macro keeps its transistors and has a quarter of its area, line by line", () => {
    const [whole, half] = [scaled(STATIC, 1), scaled(STATIC, 0.5)];
    expect(half("transistors") / whole("transistors")).toBeCloseTo(1, 2);
    for (const name of ["cell_area", "all_cells_area", "all_edges_area", "all_row_decoder_area"]) {
      expect(half(name) / whole(name), name).toBeCloseTo(0.25, name.includes("decoder") ? 2 : 12);
    }
    // Amplifiers do not shrink so: the mismatch of a pair is a length over the root of its area, and here that
    // coefficient shrinks as the length does.
    expect(half("macro_area") / whole("macro_area")).toBeCloseTo(0.25, 2);
  });

  test("lines of as many cells have twice the resistance, half of the capacitance and the same own delay", () => {
    const [whole, half] = [scaled(STATIC, 1), scaled(STATIC, 0.5)];
    for (const wire of ["row", "column"]) {
      expect(half(`${wire}_resistance`) / whole(`${wire}_resistance`)).toBeCloseTo(2, 12);
      expect(half(`${wire}_capacitance`) / whole(`${wire}_capacitance`)).toBeCloseTo(0.5, 12);
    }
    expect(half("row_line_delay") / whole("row_line_delay")).toBeCloseTo(1, 12);
  });

  test("a crossbar's cells follow the square of the half pitch of its own wires, its decks divide them", () => {
    const [whole, half] = [
      quantitiesOf({ ...CROSSBAR, feature: "40 nm" }),
      quantitiesOf({ ...CROSSBAR, feature: "20 nm" }),
    ];
    expect(whole("cell_area")).toBeCloseTo(4 * 40e-9 ** 2, 30);
    expect(half("all_cells_area") / whole("all_cells_area")).toBeCloseTo(0.25, 12);
    const decks = (n: number) =>
      quantitiesOf({ ...CROSSBAR, capacity: "1 Mib", tile: { ...TILE, decks: n } });
    expect(decks(4)("cell_area") / decks(1)("cell_area")).toBeCloseTo(0.25, 12);
    expect(decks(4)("all_cells_area") / decks(1)("all_cells_area")).toBeCloseTo(0.25, 12);
    expect(decks(4)("switches") / decks(1)("switches")).toBe(1);
  });
});

test("a lower on-resistance with the same ratio reads no slower", () => {
  const at = (kilo: number) =>
    quantitiesOf({
      ...RESISTIVE,
      cell: {
        ...OXIDE_TRANSISTOR,
        switch: {
          from: "oxide-bilayer",
          on_resistance: `${kilo} kohm`,
          off_resistance: `${50 * kilo} kohm`,
        },
      },
    });
  const [low, middle, high] = [at(5), at(10), at(40)];
  for (const name of ["bit_line_delay", "sense_delay"]) {
    expect(middle!(name), name).toBeGreaterThan(low!(name));
    expect(high!(name), name).toBeGreaterThan(middle!(name));
  }
});

test("bits_at_once cuts a write into as many groups as it takes, and saves area of drivers", () => {
  const at = (write?: Keys) => quantitiesOf({ ...CROSSBAR, ...(write && { write }) });
  const [free, one] = [at(), at({ bits_at_once: 1 })];
  expect(one("tiles_active")).toBe(2);
  expect(one("groups")).toBe(16);
  expect(one("row_cells_written")).toBe(1);
  expect(one("all_row_driver_area")).toBeLessThan(free("all_row_driver_area"));
  expect(one("write_latency")).toBeGreaterThan(free("write_latency"));
});

test("groups never draw more than the current limit, whatever divides what", () => {
  for (const limit of [0.35, 0.5, 1, 1.7, 2.9, 4]) {
    const q = quantitiesOf({ ...RESISTIVE, write: { current_limit: `${limit} mA` } });
    expect(q("cells_written") * q("write_current")).toBeLessThanOrEqual(limit * 1e-3 * (1 + 1e-12));
    expect(q("cells_written") * q("groups")).toBeGreaterThanOrEqual(q("word_cells"));
  }
});

test("the half-selected junctions of a row draw their current once, however many cells are written on it", () => {
  const at = (bits: number) =>
    quantitiesOf({ ...CROSSBAR, write: { bits_at_once: bits } }, { temperature: "300 K" });
  const [one, eight] = [at(1), at(8)];
  const leak = one("write_leak_current");
  expect(leak).toBeGreaterThan(0);
  const cell = one("switch_write_current");
  expect(one("row_write_current") / (cell + leak)).toBeCloseTo(1, 12);
  expect(eight("row_write_current") / (8 * cell + leak)).toBeCloseTo(1, 12);
});

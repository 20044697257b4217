// Decoders, codes and the logic of several levels: gates counted, paths tried, matrices written out.
import { describe, expect, test } from "vitest";
import {
  multipleCode,
  singleCode,
  singleDoubleCode,
} from "../../../../src/models/periphery/macro/code.ts";
import {
  decoderOfMultiple,
  decoderOfSingle,
  encoder,
} from "../../../../src/models/periphery/macro/correction.ts";
import { decoder, decoderAlternatives } from "../../../../src/models/periphery/tile/decoder.ts";
import { dividedLines } from "../../../../src/models/periphery/tile/divided.ts";
import {
  levelEncoder,
  levelPairs,
  levelPairsInSeries,
  levelRegister,
  levelSequencer,
} from "../../../../src/models/periphery/tile/levels.ts";
import { offsetYield } from "../../../../src/models/periphery/tile/offset.ts";
import { chainTo, expectPaper, flipFlop, own, type Values, valuesOf } from "./paper.ts";

const LN2 = Math.LN2;

/** Address bits in as few groups as may be, the largest first. */
function groupsOf(bits: number, most: number): number[] {
  const count = Math.max(1, Math.ceil(bits / most));
  const groups = new Array<number>(count).fill(0);
  for (let bit = 0; bit < bits; bit++) groups[bit % count]!++;
  return groups;
}

describe("a decoder", () => {
  const CASES: readonly Values[] = [
    { decoder_outputs: 1 },
    { decoder_outputs: 2 },
    { decoder_outputs: 8 },
    { decoder_outputs: 13 },
    { decoder_outputs: 64 },
    { decoder_outputs: 300 },
    { decoder_outputs: 1024, decoder_span: 3e-3 },
    { decoder_outputs: 4096, decoder_span: 9e-3 },
    { decoder_outputs: 64, decoder_span: 1e-7, route_wire_capacitance_per_length: 1e-15 },
  ];
  test.each(CASES)("with %o: gates counted, stages tried", (given) => {
    const v = valuesOf(decoder, { decoder_span: 150e-6, ...given });
    const outputs = given["decoder_outputs"]!;
    let bits = 0;
    while (2 ** bits < outputs) bits++;
    const groups = groupsOf(bits, v["predecode_bits"]!);
    const [large, number] = [groups[0]!, groups.length];
    const p = v["inverter_parasitic"]!;
    const c = v["unit_gate_input_capacitance"]!;
    const nand = (inputs: number) =>
      (inputs + 1 / v["p_to_n_current"]!) / (1 + 1 / v["p_to_n_current"]!);
    const wires = groups.reduce((sum, size) => sum + 2 ** size, 0);
    const single = number < 2;
    const counted =
      2 * bits +
      (bits < 1 ? 0 : groups.reduce((sum, size) => sum + 2 ** size * (2 * size + 2), 0)) +
      (single ? 0 : outputs * (2 * number + 2));
    const wire = v["route_wire_capacitance_per_length"]! * v["decoder_span"]!;
    const r = v["route_wire_resistance_per_length"]! * v["decoder_span"]!;
    const hung = (outputs / 2 ** large) * (single ? 1 : nand(number)) * c;
    const load = wire + hung;
    // An address wire, or its complement, goes to half of the gates of its group.
    const branches = 2 ** Math.max(0, large - 1);
    const path = Math.max(1, (nand(large) * branches * load) / c);
    const tried = Array.from({ length: 15 }, (_, k) => 3 + 2 * k).map((stages) => ({
      stages,
      delay: stages * path ** (1 / stages) + stages * p,
    }));
    const best = tried.reduce((a, b) => (b.delay < a.delay ? b : a));
    const each = path ** (1 / best.stages);
    // The inverters before a wire, from its driver back to the one behind the gate.
    let widths = 0;
    for (let k = 1; k <= best.stages - 2; k++) widths += load / each ** k;
    const buffers = bits < 1 ? 0 : wires * (best.stages - 3);
    const width = bits < 1 ? 0 : (wires * widths) / v["gate_capacitance"]!;
    const v2 = v["supply"]! ** 2;
    const address = v["address_activity"]! * bits * 2 * branches * nand(large) * c * v2;
    // A group moves where any of its bits does; one wire falls and another rises.
    const still = (1 - v["address_activity"]!) ** large;
    const charged = bits < 1 ? 0 : load * v2 + own(width / wires, false, v["supply"]!, v);
    const energy =
      address +
      number * (1 - still) * charged +
      (single ? 0 : (number + 1) * v["unit_gate_energy"]!);
    const gate = single ? 0 : v["tau"]! * (1 + number * p);
    const delay =
      v["tau"]! * (best.delay + (large - 1) * p * (1 / p)) + r * (0.377 * wire + LN2 * hung) + gate;
    const library = (counted - (bits < 1 ? 0 : 2 * wires)) * v["transistor_area"]!;
    const wide = Math.max(width * v["device_area_per_width"]!, 2 * wires * v["transistor_area"]!);
    expectPaper(v, {
      static_transistors: counted,
      transistors: counted + 2 * buffers,
      delay: bits < 1 ? 0 : delay,
      read_energy: energy,
      write_energy: energy,
      leakage: counted * v["transistor_leakage"]! + (width / 2) * v["leakage_power_per_width"]!,
      area: library + wide * v["wide_layout_share"]!,
    });
  });

  test("other decoders: a gate for each output, a tree of switches, gates with a load", () => {
    for (const bits of [1, 2, 5]) {
      const rows = 2 ** bits;
      let tree = 0;
      for (let level = 1; level <= bits; level++) tree += 2 ** level;
      expectPaper(valuesOf(decoderAlternatives, { decoder_bits: bits }), {
        flat_transistors: rows * 2 * bits + rows * 2 + bits * 2,
        pass_tree_transistors: tree + bits * 4,
        ratioed_transistors: rows * (bits + 1) + bits * 4,
      });
    }
  });
});

test("lines that tiles share: tiles stand in as square a field as whole rows allow", () => {
  for (const [tiles, along, across] of [
    [1, 1, 1],
    [2, 1, 2],
    [6, 2, 3],
    [7, 2, 4],
    [16, 4, 4],
    [17, 4, 5],
  ] as const) {
    const v = valuesOf(dividedLines, {
      tiles_per_bank: tiles,
      decoded_rows: 206,
      rows_per_main_line: 4,
    });
    expectPaper(v, {
      tiles_along_row: along,
      tiles_along_column: across,
      row_groups: across,
      column_groups: Math.ceil(tiles / across),
      main_rows: 52,
      main_row_length: along * v["row_length"]!,
      global_column_length: across * v["column_length"]!,
    });
  }
});

describe("correction", () => {
  const log2 = (x: number) => Math.ceil(Math.log2(x) - 1e-12);

  test("a code of several errors has a field that its whole word fits in", () => {
    for (const [word, errors] of [
      [7, 2],
      [51, 2],
      [57, 2],
      [64, 3],
      [120, 1],
      [247, 1],
      [256, 4],
    ] as const) {
      let degree = 1;
      while (2 ** degree - 1 < word + degree * errors) degree++;
      const v = valuesOf(multipleCode, { word, corrected_bits: errors });
      expectPaper(v, {
        field_bits: degree,
        code_check_bits: degree * errors,
        // A parity takes half of the bits.
        code_ones: (word * degree * errors) / 2,
        code_row_weight: Math.ceil((word * degree * errors) / 2 / (degree * errors)),
      });
    }
  });

  test.each([
    [singleCode, false],
    [singleDoubleCode, true],
  ] as const)("$name takes the lightest columns that are free", (sheet, odd) => {
    for (const word of [4, 11, 26, 64, 247, 480]) {
      let r = 1;
      while (2 ** r < word + r + 1) r++;
      if (odd) r++;
      const columns = Array.from(
        { length: 2 ** r },
        (_, k) => k.toString(2).replaceAll("0", "").length,
      )
        .filter((weight) => weight > 1 && (!odd || weight % 2 === 1))
        .sort((a, b) => a - b)
        .slice(0, word);
      const ones = columns.reduce((a, b) => a + b, 0);
      const v = valuesOf(sheet, { word });
      expectPaper(v, { code_check_bits: r, code_ones: ones, code_row_weight: Math.ceil(ones / r) });
      for (const weight of [2, 3, 5]) {
        const used = columns.filter((one) => one === weight).length;
        const counted = v[`columns_${weight}`];
        if (counted !== undefined) expect(counted + 0).toBe(used);
      }
    }
  });

  const given = { word: 40, code_check_bits: 7, code_ones: 130, code_row_weight: 19 };
  const xor = (v: Values) => 8 * v["tau"]!;

  test("an encoder is a tree of exclusive ors for each check bit", () => {
    const v = valuesOf(encoder, given);
    const gates = 130 - 7;
    const count = gates * v["xor_transistors"]!;
    expectPaper(v, {
      transistors: count,
      area: count * v["transistor_area"]!,
      leakage: count * v["transistor_leakage"]!,
      // 19 inputs are five levels, of effort four and parasitic four each.
      delay: 5 * xor(v),
      read_energy: 0,
      write_energy: ((v["code_activity"]! * count) / 2) * v["logic_pair_energy"]!,
    });
    expect(v["write_delay"]).toBe(v["delay"]);
    expect(valuesOf(encoder, { ...given, code_row_weight: 1 })["delay"]! / xor(v)).toBeCloseTo(
      1,
      12,
    );
    expect(valuesOf(encoder, { ...given, code_ones: 3 })["transistors"]).toBe(0);
  });

  test("a decoder of one error: syndromes, a gate that finds each bit, and one that turns it", () => {
    for (const word of [1, 40]) {
      const v = valuesOf(decoderOfSingle, { ...given, word });
      const x = v["xor_transistors"]!;
      const find = word * (7 * 2 + 2);
      const flags = 7 * 2 + 2 + 6 * x;
      const count = 130 * x + find + 7 * 2 + word * x + flags;
      const moved = 130 * x + word * x;
      const rho = v["best_stage_effort"]!;
      // Each syndrome goes to half of the gates of seven inputs: of effort (7 + 2) / 3.
      const stages = Math.max(1, Math.log(Math.max(1, ((word / 2) * 9) / 3)) / Math.log(rho));
      const found = v["tau"]! * ((rho + v["inverter_parasitic"]!) * (1 + stages) + 7);
      expectPaper(v, {
        transistors: count,
        area: count * v["transistor_area"]!,
        leakage: count * v["transistor_leakage"]!,
        read_energy: ((v["code_activity"]! * moved) / 2) * v["logic_pair_energy"]!,
        write_energy: 0,
        // 20 inputs with the check bit itself: five levels; the turn is one more gate.
        delay: 5 * xor(v) + found + xor(v),
      });
    }
  });

  test("a syndrome has its check bit among its inputs: sixteen data bits make five levels", () => {
    const v = valuesOf(decoderOfSingle, { ...given, code_row_weight: 16 });
    expect(v["syndrome_delay"]! / xor(v)).toBeCloseTo(5, 12);
    expect(valuesOf(encoder, { ...given, code_row_weight: 16 })["delay"]! / xor(v)).toBeCloseTo(
      4,
      12,
    );
  });

  test("a decoder of several errors: syndromes, multipliers of the field, a search at each bit", () => {
    const v = valuesOf(decoderOfMultiple, {
      word: 64,
      code_check_bits: 21,
      corrected_bits: 3,
      field_bits: 7,
    });
    const syndromes = (3 * 7 * (64 + 21)) / 2;
    // Nine multipliers of 49 ands and 49 exclusive ors; at each of 64 bits three constant ones and their sums.
    const solver = 9 * 49;
    const search = 64 * 3 * (49 / 4 + 7);
    const count = v["xor_transistors"]! * (syndromes + solver + search + 64) + 6 * solver;
    expectPaper(v, {
      transistors: count,
      area: count * v["transistor_area"]!,
      leakage: count * v["transistor_leakage"]!,
      read_energy:
        ((v["code_activity"]! * v["xor_transistors"]! * (syndromes + 64)) / 2) *
        v["logic_pair_energy"]!,
      write_energy: 0,
      // 42.5 inputs; three rounds of two products of and and three levels; 21 bits in the search; two more gates.
      delay: xor(v) * (log2(42.5) + 3 * 2 * (1 + 3) + log2(21) + 2),
    });
  });
});

describe("several levels of a cell", () => {
  test.each([1, 2, 3, 4])("%i bits: levels evenly in the logarithm of the resistance", (bits) => {
    const given = {
      bits_per_cell: bits,
      cell_on_current: 31e-6,
      cell_off_current: 2.3e-6,
      signal_current: 26e-6,
      on_resistance: 7e3,
      off_resistance: 90e3,
      read_voltage: 0.26,
      cells_written: 13,
      data_ports: 9,
    };
    const references = 2 ** bits - 1;
    // What the amplifier cannot use of the difference of the states.
    const leak = 31e-6 - 2.3e-6 - 26e-6;
    const level = (share: number) => ({
      plain: Math.exp(Math.log(31e-6) + share * Math.log(2.3 / 31)),
      // In series with the rest of the path, which the on current tells.
      series: 0.26 / (Math.exp(Math.log(7e3) + share * Math.log(90 / 7)) + (0.26 / 31e-6 - 7e3)),
    });
    const second = level(1 / references);
    const last = level(1 - 1 / references);
    for (const [sheet, kind] of [
      [levelPairs, "plain"],
      [levelPairsInSeries, "series"],
    ] as const) {
      const one = bits === 1;
      const first_pair = one ? 26e-6 : 31e-6 - second[kind] - leak;
      const last_pair = one ? 26e-6 : last[kind] - 2.3e-6 - leak;
      expectPaper(valuesOf(sheet, given), {
        level_references: references,
        second_level_current: one ? 2.3e-6 : second[kind],
        last_but_one_level_current: one ? 31e-6 : last[kind],
        first_pair_signal: first_pair,
        last_pair_signal: last_pair,
        least_pair_signal: Math.min(first_pair, last_pair),
        level_bits_written: 13 * bits,
        level_data_lines: 9 * bits,
      });
    }
    expect(valuesOf(levelPairs, { ...given, signal_current: 30e-6 })["pair_leak"]).toBe(0);
  });

  test.each([2, 3, 4])("%i bits: encoder, register and sequencer, gate by gate", (bits) => {
    const given = { bits_per_cell: bits, level_references: 2 ** bits - 1 };
    const counted = (v: Values) => v["logic_pair_energy"]! / 2;
    const two = (v: Values) => v["best_stage_effort"]! + 2 * v["inverter_parasitic"]!;
    const gates = { 2: 1, 3: 4, 4: 11 }[bits]!;
    const e = valuesOf(levelEncoder, given);
    const encoding = e["data_activity"]! * 4 * gates * counted(e);
    expectPaper(e, {
      transistors: 4 * gates,
      area: 4 * gates * e["transistor_area"]! * e["pitch_layout_share"]!,
      leakage: 4 * gates * e["transistor_leakage"]!,
      read_energy: encoding,
      write_energy: encoding,
      delay: (bits - 1) * e["tau"]! * two(e),
    });
    const r = valuesOf(levelRegister, given);
    const choosing = { 2: 2, 3: 10, 4: 34 }[bits]!;
    const beside = 4 * choosing + r["column_switch_transistors"]! * (2 ** bits - 1);
    const flip = r["flip_flop_transistors"]!;
    // In each step what hangs on the clock; once, what a bit changes; and part of what chooses.
    const changed = flipFlop(r["data_activity"]!, r) - flipFlop(0, r);
    const clocked = bits * (bits * flipFlop(0, r) + changed);
    const chosen = bits * r["control_activity"]! * beside;
    const stepping = clocked + chosen * counted(r);
    expectPaper(r, {
      transistors: bits * flip + beside,
      area: bits * r["flip_flop_area"]! + beside * r["transistor_area"]! * r["pitch_layout_share"]!,
      leakage: (bits * flip + beside) * r["transistor_leakage"]!,
      read_energy: stepping,
      write_energy: stepping,
      delay: r["tau"]! * (2 * (r["best_stage_effort"]! + r["inverter_parasitic"]!) + bits * two(r)),
    });
    for (const row_length of [1e-6, 700e-6]) {
      const s = valuesOf(levelSequencer, { ...given, row_length });
      const load =
        s["route_wire_capacitance_per_length"]! * row_length +
        4 * s["sense_amplifiers"]! * s["unit_gate_input_capacitance"]!;
      const chain = chainTo(load, false, s);
      const logic = (bits + 1) * flip + bits * 4;
      const drawn = chain.width * s["device_area_per_width"]! * s["wide_layout_share"]!;
      const line = load * s["supply"]! ** 2 + own(chain.width, false, s["supply"]!, s);
      const energy = bits * (line + s["control_activity"]! * logic * counted(s));
      expectPaper(s, {
        transistors: logic + bits * 2 * chain.inverters,
        area:
          (bits + 1) * s["flip_flop_area"]! +
          bits * 4 * s["transistor_area"]! +
          bits * Math.max(drawn, 2 * chain.inverters * s["transistor_area"]!),
        leakage:
          logic * s["transistor_leakage"]! +
          (bits * chain.width * s["leakage_power_per_width"]!) / 2,
        read_energy: energy,
        write_energy: energy,
        delay: chain.delay,
      });
    }
  });
});

// A table of the normal distribution: beyond 3 deviations lie 1.349898e-3, beyond 1.644854 a twentieth.
test("amplifiers that must all work: deviations and yield after a table of the normal distribution", () => {
  const v = valuesOf(offsetYield, { sense_sigmas: 3, amplifiers: 100, amplifier_yield: 0.95 ** 8 });
  expect(v["failure_probability"]! / 1.349898031630095e-3).toBeCloseTo(1, 10);
  expect(v["yield"]! / Math.exp(100 * Math.log1p(-1.349898031630095e-3))).toBeCloseTo(1, 10);
  const eight = valuesOf(offsetYield, { amplifiers: 8, amplifier_yield: 0.95 ** 8 });
  expect(eight["needed_sigmas"]! / 1.6448536269514722).toBeCloseTo(1, 10);
});

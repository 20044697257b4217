// What a macro and a die have once: wires by Elmore's delay, control and pads device by device.
import { describe, expect, test } from "vitest";
import { effort, gateEffort } from "../../../../src/models/periphery/effort.ts";
import { lines } from "../../../../src/models/periphery/lines.ts";
import {
  addressLatch,
  bankControl,
  dataLatch,
  macroControl,
  outputDriver,
  refreshControl,
} from "../../../../src/models/periphery/macro/control.ts";
import {
  dieEdges,
  dieInterface,
  dieRails,
  dieSupplies,
  dieTest,
  pads,
} from "../../../../src/models/periphery/macro/die.ts";
import { route } from "../../../../src/models/periphery/macro/route.ts";
import { chainTo, expectPaper, flipFlop, own, type Values, valuesOf } from "./paper.ts";

const LN2 = Math.LN2;

/** Logic at the density of a library. */
const logic = (count: number, v: Values) => ({
  transistors: count,
  area: count * v["transistor_area"]!,
  leakage: count * v["transistor_leakage"]!,
});

describe("the unit of effort", () => {
  test("the fastest stage effort solves p + rho (1 - ln rho) = 0", () => {
    for (const inverter_parasitic of [0.4, 1, 1.7]) {
      const { best_stage_effort: rho } = valuesOf(effort, { inverter_parasitic });
      // An error of the root leaves ln rho times as much.
      const left = inverter_parasitic + rho! * (1 - Math.log(rho!));
      expect(Math.abs(left / (rho! * Math.log(rho!)))).toBeLessThan(1.1e-8);
    }
  });

  test("two Newton steps from a line reach it: each as Newton's method has it", () => {
    for (const p of [0.4, 1, 1.7]) {
      const v = valuesOf(effort, { inverter_parasitic: p });
      const step = (x: number) => x - (p + x * (1 - Math.log(x))) / -Math.log(x);
      expectPaper(v, {
        first_stage_effort: step(2.82 + 0.71 * p),
        best_stage_effort: step(step(2.82 + 0.71 * p)),
      });
    }
  });

  test("the smallest thick-oxide inverter: as wide as long, and a p-type device that pulls as much", () => {
    const v = valuesOf(effort);
    const widths = [v["thick_gate_length"]!, v["thick_gate_length"]! / v["p_to_n_current"]!];
    const c = v["thick_gate_capacitance"]! * (widths[0]! + widths[1]!);
    const r = v["thick_unit_resistance"]! / v["thick_gate_length"]!;
    expectPaper(v, { thick_unit_capacitance: c, thick_tau: LN2 * r * c });
  });

  test("a gate of n inputs: n devices in series are n times as wide, the others as in an inverter", () => {
    for (const n of [1, 2, 3, 5]) {
      const v = valuesOf(gateEffort, { gate_inputs: n });
      const p = 1 / v["p_to_n_current"]!;
      expectPaper(v, {
        nand_effort: (n * 1 + p) / (1 + p),
        nor_effort: (1 + n * p) / (1 + p),
        gate_parasitic: n * v["inverter_parasitic"]!,
      });
    }
  });
});

test("lines and bits that the periphery serves, counted", () => {
  const given = {
    rows: 100,
    columns: 60,
    spare_rows: 3,
    spare_columns: 4,
    decks: 2,
    row_lines: 3,
    column_lines: 2,
    column_share: 5,
    word: 17,
    check_bits: 6,
    bits_per_cell: 3,
    cells_per_bit: 2,
    groups: 3,
    tiles_active: 2,
    capacity: 20000,
  };
  // 23 bits are eight symbols of three bits, in sixteen cells; six at once, three of them in each tile.
  expectPaper(valuesOf(lines, given), {
    decoded_rows: 206,
    driven_rows: 618,
    driven_columns: 256,
    selected_columns: 10,
    coded_word: 23,
    word_cells: 16,
    cells_written: 6,
    row_cells_written: 3,
    // 20000 bits are 1176 words and a half: 1177, of eleven address bits.
    words: 1177,
    address_bits: 11,
  });
});

describe("control", () => {
  test("latches hold every bit in a flip-flop", () => {
    for (const [sheet, activity] of [
      [addressLatch, "address_activity"],
      [dataLatch, "data_activity"],
    ] as const) {
      const v = valuesOf(sheet);
      const bits = sheet === addressLatch ? v["address_bits"]! + 2 : 2 * v["word"]!;
      const each = v["flip_flop_transistors"]!;
      const energy = bits * flipFlop(v[activity]!, v);
      expectPaper(v, {
        transistors: bits * each,
        area: bits * v["flip_flop_area"]!,
        leakage: bits * each * v["transistor_leakage"]!,
        delay: 2 * v["tau"]! * (v["best_stage_effort"]! + v["inverter_parasitic"]!),
        read_energy: energy,
        write_energy: energy,
      });
    }
  });

  test("control of a bank: gates, and three enables along each tile's amplifiers", () => {
    for (const row_length of [2e-6, 900e-6]) {
      const v = valuesOf(bankControl, { row_length });
      const gates = 4 * v["bank_control_gates"]!;
      const enables = 3 * v["tiles_per_bank"]!;
      const load =
        v["route_wire_capacitance_per_length"]! * row_length +
        4 * v["sense_amplifiers"]! * v["unit_gate_input_capacitance"]!;
      const chain = chainTo(load, false, v);
      const drawn = chain.width * v["device_area_per_width"]! * v["wide_layout_share"]!;
      const least = 2 * chain.inverters * v["transistor_area"]!;
      // In an access two of the enables of a tile move.
      const lines =
        2 *
        v["tiles_active"]! *
        (load * v["supply"]! ** 2 + own(chain.width, false, v["supply"]!, v));
      const energy = (v["control_activity"]! * gates * v["logic_pair_energy"]!) / 2 + lines;
      expectPaper(v, {
        transistors: gates + 2 * chain.inverters * enables,
        area: gates * v["transistor_area"]! + enables * Math.max(drawn, least),
        leakage:
          gates * v["transistor_leakage"]! +
          (enables * chain.width * v["leakage_power_per_width"]!) / 2,
        delay: chain.delay,
        read_energy: energy,
        write_energy: energy,
      });
    }
  });

  test("control of the macro and of its refresh are gates by count", () => {
    const macro = valuesOf(macroControl);
    const refresh = valuesOf(refreshControl, { decoded_rows: 300 });
    const each = ["flip_flop", "half_adder", "multiplexer"].reduce(
      (sum, part) => sum + refresh[`${part}_transistors`]!,
      0,
    );
    // 300 rows are counted in nine bits.
    const counted = 9 * each + refresh["refresh_timer_transistors"]!;
    for (const [v, count] of [
      [macro, 4 * macro["macro_control_gates"]!],
      [refresh, counted],
    ] as const) {
      const energy = (v["control_activity"]! * count * v["logic_pair_energy"]!) / 2;
      expectPaper(v, { ...logic(count, v), read_energy: energy, write_energy: energy });
    }
    expect(valuesOf(refreshControl, { decoded_rows: 1 })["counter_bits"]).toBe(1);
  });

  test("drivers at the outputs are chains to their load, half of them rise", () => {
    for (const output_load of [0.9e-12, 2e-15]) {
      const v = valuesOf(outputDriver, { output_load });
      const word = v["word"]!;
      const chain = chainTo(output_load, false, v);
      const charge = output_load * v["supply"]! ** 2 + own(chain.width, false, v["supply"]!, v);
      const drawn = word * chain.width * v["device_area_per_width"]! * v["wide_layout_share"]!;
      expectPaper(v, {
        transistors: word * 2 * chain.inverters,
        width: word * chain.width,
        area: Math.max(drawn, word * 2 * chain.inverters * v["transistor_area"]!),
        leakage: ((word * chain.width) / 2) * v["leakage_power_per_width"]!,
        delay: chain.delay,
        read_energy: ((word * v["data_activity"]!) / 2) * charge,
        write_energy: 0,
      });
    }
  });
});

describe("the way across the macro", () => {
  const rc = (v: Values) => ({
    r: v["route_wire_resistance_per_length"]!,
    c: v["route_wire_capacitance_per_length"]!,
    gate: v["unit_gate_input_capacitance"]!,
    driver: v["tau"]! / LN2 / v["unit_gate_input_capacitance"]!,
    p: v["inverter_parasitic"]!,
  });
  /** Elmore's half-crossing of one repeater of a size, its wire and the next one. */
  const segment = (length: number, size: number, next: number, v: Values) => {
    const { r, c, gate, driver, p } = rc(v);
    const resistance = driver / size;
    return (
      LN2 *
      (resistance * (p * size * gate + c * length + next * gate) +
        r * length * ((c * length) / 2 + next * gate))
    );
  };

  test("no other spacing and no other size of repeaters is faster", () => {
    const v = valuesOf(route);
    const [l, s] = [v["fastest_segment"]!, v["fastest_size"]!];
    const speed = (length: number, size: number) => segment(length, size, size, v) / length;
    const best = speed(l, s);
    for (const k of [0.999, 1.001]) {
      expect(speed(l * k, s)).toBeGreaterThan(best);
      expect(speed(l, s * k)).toBeGreaterThan(best);
    }
    // The slope vanishes: to a millionth, a step of a thousandth to either side costs the same.
    for (const [a, b] of [
      [speed(l * 1.001, s), speed(l / 1.001, s)],
      [speed(l, s * 1.001), speed(l, s / 1.001)],
    ]) {
      expect(Math.abs(a! - b!) / best).toBeLessThan(1e-12);
    }
  });

  test.each([20e-6, 0.2e-3, 9e-3])("a macro of %f m", (macro_side) => {
    const v = valuesOf(route, { macro_side });
    const { c, gate } = rc(v);
    const length = v["route_share"]! * macro_side;
    const wires = v["address_bits"]! + 2 * v["coded_word"]!;
    const spacing = v["repeater_spacing_share"]! * v["fastest_segment"]!;
    const large = v["repeater_size_share"]! * v["fastest_size"]!;
    let repeaters = 1;
    while (repeaters * spacing < length) repeaters++;
    const needed = (c * length) / (v["drive_effort"]! * gate);
    const size = repeaters > 1 ? large : Math.max(1, Math.min(large, needed));
    const rho = v["best_stage_effort"]!;
    const first = Math.max(1, Math.round(Math.log(size) / Math.log(rho)));
    const wire =
      repeaters > 1
        ? (length * segment(spacing, large, large, v)) / spacing
        : segment(length, size, 0, v);
    // The chain before the first repeater, each inverter smaller by the stage effort: a geometric series.
    let [chain, one] = [0, size];
    for (let k = 0; k < 200; k++) chain += one /= rho;
    const width = (wires * (repeaters * size + chain) * gate) / v["gate_capacitance"]!;
    const perWire = c * length * v["supply"]! ** 2 + own(width / wires, false, v["supply"]!, v);
    const moved =
      v["address_activity"]! * v["address_bits"]! + v["data_activity"]! * v["coded_word"]!;
    const channel = v["channel_share"]! * wires * length;
    expectPaper(v, {
      length,
      repeaters_per_wire: repeaters,
      segment_length: spacing,
      transistors: wires * 2 * (repeaters + first),
      width,
      delay: v["tau"]! * (rho + v["inverter_parasitic"]!) * first + wire,
      read_energy: (moved * perWire) / 2,
      write_energy: (moved * perWire) / 2,
      leakage: (width / 2) * v["leakage_power_per_width"]!,
      area:
        width * v["device_area_per_width"]! * v["wide_layout_share"]! +
        channel * (v["intermediate_wire_width"]! + v["intermediate_wire_spacing"]!),
    });
  });
});

describe("a die", () => {
  test("pads: counted by signals and pairs of supplies, or stated; each has a chain to its load", () => {
    for (const die_pads of [0, 54]) {
      const v = valuesOf(pads, { die_pads, word: 18, address_bits: 13 });
      // 18 data pads want a pair of supplies for every so many.
      const pairs = v["core_supply_pairs"]! + Math.ceil(18 / v["data_pads_per_supply_pair"]!);
      const count = die_pads || 18 + 13 + v["control_pads"]! + 2 * pairs;
      const chain = chainTo(v["pad_load"]!, true, v);
      const energy =
        v["pad_load"]! * v["io_supply"]! ** 2 + own(chain.width, true, v["io_supply"]!, v);
      expectPaper(v, {
        transistors: count * v["pad_transistors"]!,
        area: count * v["pad_pitch"]! * v["pad_depth"]!,
        leakage: (count * chain.width * v["thick_leakage_power_per_width"]!) / 2,
        delay: chain.delay,
        input_delay: 2 * v["thick_tau"]! * (v["best_stage_effort"]! + v["inverter_parasitic"]!),
        read_energy: ((18 * v["data_activity"]!) / 2) * energy,
        write_energy: 0,
      });
    }
  });

  test("interface and test are gates by count; fuses keep their place", () => {
    const face = valuesOf(dieInterface);
    const gates = 4 * face["die_interface_gates"]!;
    const energy = (face["control_activity"]! * gates * face["logic_pair_energy"]!) / 2;
    expectPaper(face, { ...logic(gates, face), read_energy: energy, write_energy: energy });
    const v = valuesOf(dieTest);
    const logicGates = 4 * v["die_test_gates"]!;
    const count = logicGates + v["die_fuses"]! * v["fault_bit_transistors"]!;
    expectPaper(v, {
      ...logic(count, v),
      area: logicGates * v["transistor_area"]! + v["die_fuses"]! * v["fuse_area"]!,
      read_energy: 0,
      write_energy: 0,
    });
  });

  test("supplies: charge for the regulators' answer, and pass devices for the busiest access", () => {
    for (const whole_read_energy of [1.3e-9, 40e-9]) {
      const v = valuesOf(dieSupplies, {
        whole_read_energy,
        whole_write_energy: 9e-9,
        pads_read_energy: 0.4e-9,
        read_cycle: 31e-9,
        write_latency: 55e-9,
      });
      const power = Math.max((whole_read_energy - 0.4e-9) / 31e-9, 9e-9 / 55e-9);
      const current = power / v["supply"]!;
      const c = (current * v["supply_response"]!) / (v["supply_droop"]! * v["supply"]!);
      const pass =
        (v["thick_unit_linear_resistance"]! * current) /
        v["p_to_n_current"]! /
        v["regulator_drop"]!;
      const count = v["die_regulators"]! * v["regulator_transistors"]!;
      const oxide = v["thick_gate_capacitance"]! / v["thick_gate_length"]!;
      const devices =
        (pass + 20 * count * v["thick_gate_length"]!) * v["thick_device_area_per_width"]!;
      expectPaper(v, {
        transistors: count,
        capacitance: c,
        pass_width: pass,
        area: c / oxide + devices * v["wide_layout_share"]!,
        leakage: pass * v["thick_leakage_power_per_width"]!,
        read_energy: 0,
        write_energy: 0,
      });
    }
  });

  test("rails are a share, and the seal runs along all four edges with its corners", () => {
    const rails = valuesOf(dieRails);
    const inside = rails["macro_side"]! ** 2 + rails["pads_area"]!;
    const none = { transistors: 0, leakage: 0, read_energy: 0, write_energy: 0 };
    expectPaper(rails, { ...none, area: rails["die_rail_share"]! * inside });
    const edges = valuesOf(dieEdges);
    const side = Math.sqrt(inside + rails["die_rail_share"]! * inside);
    const whole = side + 2 * edges["seal_width"]!;
    expectPaper(edges, { ...none, area: whole ** 2 - side ** 2 });
  });
});

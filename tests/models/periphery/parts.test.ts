import { describe, expect, test } from "vitest";
import { effort } from "../../../src/models/periphery/effort.ts";
import { chargePump, pumpOutput } from "../../../src/models/periphery/macro/pump.ts";
import { partsFor } from "../../../src/models/periphery/periphery.ts";
import { raisedColumnMultiplexer } from "../../../src/models/periphery/tile/columns.ts";
import {
  currentSenseAmplifier,
  differentialSenseAmplifier,
} from "../../../src/models/periphery/tile/sense-current.ts";
import { evaluate } from "./fixture.ts";
import { instancesOf, STRUCTURES } from "./structures.ts";

describe("latencies", () => {
  // Worked by hand: the terms of a read and a write added up in the order of the signal.
  test("a read and a write of a static memory are the sums of their stages", () => {
    const [, structure] = STRUCTURES[0]!;
    const v = evaluate(instancesOf(structure));
    const get = (name: string) => v[`${name}_delay`] ?? Number.NaN;
    const row = get("row_decoder") + get("row_driver") + 20e-12;
    const column = get("column_decoder") + get("column_select");
    const reach = get("address_latch") + get("route") + Math.max(row, column);
    const settle = 30e-12 + get("column_multiplexer");
    // A replica waits a quarter longer, and for six deviations of ten gates: 1.3 times 2.8 mV um over the root of
    // 0.24 um x 88 nm, over 0.67 V.
    const gate = (1.3 * 2.8e-9) / Math.sqrt(240e-9 * 88e-9) / 0.67;
    const guard = 1.25 * (1 + (6 * gate) / Math.sqrt(10));
    const inner = guard * (Math.max(row, column) + settle) + get("sense_amplifier");
    const held = get("address_latch") + get("data_latch");
    const read = held + inner + 2 * get("route") + get("output_driver");
    expect((v["read_latency"] ?? 0) / read).toBeCloseTo(1, 12);
    const write = reach + get("write_driver") + settle + 50e-9;
    expect((v["write_latency"] ?? 0) / write).toBeCloseTo(1, 12);
  });

  test("with verify and groups, each group pays its pulses, its drive and its verify reads", () => {
    const [, structure] = STRUCTURES[2]!;
    const one = evaluate(instancesOf(structure), { groups: 1 });
    const four = evaluate(instancesOf(structure), { groups: 4 });
    const terms = ["drive_delay", "bit_line_delay", "sense_delay"].map((name) => one[name] ?? 0);
    const [drive = 0, line = 0, sense = 0] = terms;
    const group = drive + 50e-9 + 2 * (line + sense);
    const extra = (four["write_latency"] ?? 0) - (one["write_latency"] ?? 0);
    expect(extra / (3 * group)).toBeCloseTo(1, 9);
  });
});

describe("a designed charge pump", () => {
  const DESIGN = { cells_written: 32, groups: 1, write_voltage: 2.2, pump_supply: 1.2 };
  const design = [{ of: effort }, { of: chargePump }];

  // Source: the pump formula of 1976, put forward instead of backward.
  test("gives exactly the voltage it was designed for at its full load", () => {
    for (const write_voltage of [1.3, 2.2, 3.7, 6]) {
      const pump = evaluate(design, { ...DESIGN, write_voltage });
      const check = evaluate([{ of: pumpOutput }], {
        ...DESIGN,
        stages: pump["stages"] ?? 0,
        stage_capacitance: pump["stage_capacitance"] ?? 0,
        load_current: pump["load_current"] ?? 0,
      });
      expect((check["output_voltage"] ?? 0) / (pump["target_voltage"] ?? 0)).toBeCloseTo(1, 12);
      expect((check["efficiency"] ?? 0) / (pump["efficiency"] ?? 0)).toBeCloseTo(1, 12);
    }
  });

  test("loses what it takes from the supply and does not deliver", () => {
    const pump = evaluate(design, DESIGN);
    const taken = 1.2 * (pump["input_current"] ?? 0) * 50e-9;
    const delivered = 2.2 * 100e-6 * 32 * 50e-9;
    expect((pump["write_energy"] ?? 0) / (taken - delivered)).toBeCloseTo(1, 12);
  });

  test("never has an efficiency above that of an ideal pump of its stages", () => {
    for (const write_voltage of [1.3, 2.2, 3.7, 6]) {
      const pump = evaluate(design, { ...DESIGN, write_voltage });
      const ideal = (pump["target_voltage"] ?? 0) / (1.2 * ((pump["stages"] ?? 0) + 1));
      expect(pump["efficiency"]).toBeLessThan(ideal);
      expect(pump["efficiency"]).toBeGreaterThan(0.05);
    }
  });
});

describe("current sense amplifiers", () => {
  const at = (replaced: Readonly<Record<string, number>>) =>
    evaluate([{ of: effort }, { of: currentSenseAmplifier }], replaced);
  const alike = { tail_on_spread: 0, tail_off_spread: 0 };

  test("is made for cells in the tails: the mismatch gets half of what they leave", () => {
    const spread = { tail_on_spread: 0.1, tail_off_spread: 0.2 };
    const { tail_signal, margin } = at(spread);
    // 30 and 4.9 uA, two deviations out: 30 exp(-0.2) and 4.9 exp(0.4).
    const lost = 30 * (1 - Math.exp(-0.2)) + 4.9 * (Math.exp(0.4) - 1);
    expect(tail_signal! / ((25 - lost) / 2) / 1e-6).toBeCloseTo(1, 12);
    expect(margin! / (12.5e-6 / (tail_signal! / 2))).toBeCloseTo(1, 12);
    const wide = at({ tail_on_spread: 1, tail_off_spread: 1 });
    // Cells beyond a tenth of the median signal are left to the code or to spares.
    expect(wide["tail_signal"]! / (12.5e-6 / 10)).toBeCloseTo(1, 12);
  });

  test("samples its offset first where it is told to: smaller devices, four more, one more wait", () => {
    const plain = at({});
    const sampled = at({ offset_cancelled: 1 });
    // A fifth of the mismatch is left: a twenty-fifth of the area of the pair.
    expect(plain["pair_width"]! / sampled["pair_width"]!).toBeCloseTo(25, 9);
    expect(sampled["margin"]! / plain["margin"]!).toBeCloseTo(1, 12);
    expect(sampled["transistors"]! - plain["transistors"]!).toBe(4);
    const constant = sampled["node_capacitance"]! * sampled["clamp_resistance"]!;
    const wait = constant * Math.log(1 / sampled["settling_error"]!);
    expect(sampled["sampling_time"]! / wait).toBeCloseTo(1, 12);
    const parts = ["sampling_time", "signal_time", "regeneration_time", "output_time"];
    const sum = parts.reduce((all, name) => all + sampled[name]!, 0);
    expect(sampled["delay"]! / sum).toBeCloseTo(1, 12);
    expect(plain["sampling_time"]).toBe(0);
  });

  test("a smaller difference of currents costs area and time, never the margin in sigmas", () => {
    let before = at({ ...alike, signal_current: 29e-6 });
    for (const signal_current of [20e-6, 10e-6, 4e-6, 1e-6]) {
      const now = at({ ...alike, signal_current });
      expect(now["area"]).toBeGreaterThan(before["area"] ?? 0);
      expect(now["delay"]).toBeGreaterThan(before["delay"] ?? 0);
      expect(now["margin"]).toBeCloseTo(2, 9);
      before = now;
    }
  });

  test("a signal of zero or less is shown by a margin that is not above zero", () => {
    expect(at({ signal_current: 0 })["margin"]).toBe(0);
    expect(at({ signal_current: -1e-6 })["margin"]).toBeLessThan(0);
  });

  test("two columns that are compared have twice the difference of one with a reference", () => {
    const one = at({});
    const two = evaluate([{ of: effort }, { of: differentialSenseAmplifier }], {});
    expect((two["half_signal"] ?? 0) / (one["half_signal"] ?? 1)).toBeCloseTo(2, 12);
    expect(two["area"]).toBeLessThan(one["area"] ?? 0);
  });
});

describe("the list of parts", () => {
  test("names and prefixes are unique in every structure", () => {
    for (const [, structure] of STRUCTURES) {
      const parts = partsFor(structure);
      expect(new Set(parts.map(({ prefix }) => prefix)).size).toBe(parts.length);
      expect(new Set(parts.map(({ name }) => name)).size).toBe(parts.length);
    }
  });

  test("a switch of a multiplexer loses at most the stated share of the write voltage", () => {
    for (const write_current of [1e-6, 1e-4, 1e-3]) {
      const values = evaluate([{ of: effort }, { of: raisedColumnMultiplexer }], {
        write_current,
        selected_columns: 8,
      });
      const drop = write_current * (values["resistance"] ?? Number.NaN);
      expect(drop).toBeLessThanOrEqual(0.05 * 1.5 * (1 + 1e-12));
    }
  });
});

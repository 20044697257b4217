import { describe, expect, test } from "vitest";
import { given, part } from "../../src/models/periphery/define.ts";
import {
  delayOfStages,
  effort,
  gateEffort,
  nandEffort,
  path,
} from "../../src/models/periphery/effort.ts";
import { pumpOutput } from "../../src/models/periphery/macro/pump.ts";
import { route } from "../../src/models/periphery/macro/route.ts";
import { decoder, decoderAlternatives } from "../../src/models/periphery/tile/decoder.ts";
import { offsetYield } from "../../src/models/periphery/tile/offset.ts";
import { voltageSenseAmplifier } from "../../src/models/periphery/tile/sense-voltage.ts";
import { evaluate } from "../models/periphery/fixture.ts";
import { expectWorked, inputsOf } from "./checks.ts";
import { decoders } from "./periphery-checks.ts";

/** The mobility ratio of two that the textbooks assume. */
const TEXTBOOK = { p_to_n_current: 0.5 };

/** A worked example of shared/checks: its inputs in SI, and the assertion on one of its numbers. */
function worked(id: string) {
  const inputs = inputsOf(id);
  return {
    value: (name: string) => inputs[name] ?? Number.NaN,
    matches: (name: string, got: number | undefined) => expectWorked(id, name, got ?? Number.NaN),
  };
}

// Source beside each number in shared/checks/delay-checks.yaml: textbook Logical Effort (1999).
describe("logical effort", () => {
  test("gates have the efforts of the textbook at a mobility ratio of two", () => {
    const { matches } = worked("logical-effort-gates");
    const of = (gate_inputs: number) =>
      evaluate([{ of: gateEffort }], { ...TEXTBOOK, gate_inputs });
    for (const inputs of [2, 3, 4]) matches(`nand${inputs}`, of(inputs)["nand_effort"]);
    for (const inputs of [2, 3]) matches(`nor${inputs}`, of(inputs)["nor_effort"]);
    matches("inverter", of(1)["nand_effort"]);
    matches("inverter", of(1)["nor_effort"]);
    expect(of(3)["gate_parasitic"]).toBe(3);
  });

  test("three gates of two inputs in a row take the textbook's 10 and 14 units", () => {
    const { value, matches } = worked("path-effort");
    const sheet = part({
      name: "three_gates",
      title: "Three gates",
      about: "The textbook's example.",
      inputs: { load_ratio: { unit: "1", meaning: "load over input" } },
      formulas: path({
        name: "three",
        effort: `(${nandEffort("2")}) ^ 3 * load_ratio`,
        fewest: 3,
        step: 1,
        extraParasitic: "3",
      }),
    });
    const run = (load_ratio: number) =>
      evaluate([{ of: effort }, { of: sheet }], { ...TEXTBOOK, load_ratio, tau: 1 });
    const one = run(value("H"));
    matches("F", one["three_effort"]);
    matches("stage_effort", one["three_stage_effort"]);
    matches("D", one["three_delay"]);
    const eight = run(value("path_effort_load_8_H"));
    matches("path_effort_load_8_F", eight["three_effort"]);
    matches("path_effort_load_8_stage_effort", eight["three_stage_effort"]);
    matches("path_effort_load_8_D", eight["three_delay"]);
  });

  test("the best stage effort solves its equation at a parasitic of 0, 0.5 and 1", () => {
    const { matches } = worked("best-stage-effort");
    const of = (inverter_parasitic: number) =>
      evaluate([{ of: effort }], { inverter_parasitic })["best_stage_effort"];
    matches("rho_p1", of(1));
    matches("rho_p0", of(0));
    matches("rho_p0_5", of(0.5));
  });

  test("chains of one to four inverters to 64 times the input take the textbook's delays", () => {
    const { value, matches } = worked("buffer-chain-64");
    const sheet = part({
      name: "chain_of_stages",
      title: "Chain",
      about: "The textbook's example.",
      inputs: {
        load_ratio: { unit: "1", meaning: "load over input" },
        number: { unit: "1", meaning: "inverters" },
      },
      formulas: { chain: given(delayOfStages("load_ratio", "number"), "1", "delay") },
    });
    for (const number of [1, 2, 3, 4]) {
      const values = evaluate([{ of: sheet }], { load_ratio: value("H"), number });
      matches(`D_N${number}`, values["chain"]);
    }
  });
});

describe("repeaters", () => {
  // Source: textbook CMOS VLSI Design (2010); Elmore sums, hence the division by ln 2.
  test("best distance, size and delay per length are those of the textbook", () => {
    const { value, matches } = worked("repeaters");
    const capacitance = value("C");
    const values = evaluate([{ of: effort }, { of: route }], {
      tau: Math.LN2 * value("R") * capacitance,
      unit_gate_input_capacitance: capacitance,
      route_wire_resistance_per_length: value("rw"),
      route_wire_capacitance_per_length: value("cw"),
      repeater_size_share: 1,
      repeater_spacing_share: 1,
      address_bits: 15,
      coded_word: 32,
    });
    matches("segment_length", values["segment_length"]);
    matches("size", values["repeater_size"]);
    matches("delay_per_length", (values["delay_per_length"] ?? 0) / Math.LN2);
  });
});

describe("sense amplifiers", () => {
  // Source: Matching properties of MOS transistors (1989).
  test("offset, swing for six sigma, and time for the swing are the worked ones", () => {
    const { value, matches } = worked("sense-offset-and-bitline");
    const values = evaluate([{ of: effort }, { of: voltageSenseAmplifier }], {
      matching_coefficient: value("A_VT"),
      contacted_gate_pitch: value("L"),
      pair_length_ratio: 1,
      minimum_width: value("W") / 10,
      sense_sigmas: value("k"),
      // A swing that is all offset asks for exactly the width of the worked example.
      column_swing: value("dV"),
      offset_share: 1,
      sense_guard: 1,
      column_capacitance: value("C"),
      signal_current: value("I"),
    });
    expect((values["pair_width"] ?? 0) / value("W")).toBeCloseTo(1, 6);
    matches("sigma", values["offset_sigma"]);
    matches("swing_6_sigma", values["offset"]);
    matches("t", values["signal_time"]);
  });

  // Source: standard normal distribution.
  test("failure at k sigma and the k for a yield are those of the normal distribution", () => {
    const { value, matches } = worked("k-sigma-failure");
    const of = (sense_sigmas: number) =>
      evaluate([{ of: offsetYield }], {
        sense_sigmas,
        amplifiers: value("amplifiers"),
        amplifier_yield: value("yield_target"),
      });
    for (const k of [3, 5, 6]) matches(`P${k}`, of(k)["failure_probability"]);
    const needed = of(6)["needed_sigmas"] ?? 0;
    matches("k_for_yield", needed);
    expect(of(needed)["yield"]).toBeCloseTo(value("yield_target"), 9);
  });
});

describe("charge pump", () => {
  // Source: improved voltage multiplier, IEEE Journal of Solid-State Circuits 11(3), 1976.
  test("voltage with and without load, resistance and efficiency are the worked ones", () => {
    const { value, matches } = worked("charge-pump");
    const run = (pump_diode_voltage: number, load_current: number) =>
      evaluate([{ of: pumpOutput }], {
        pump_diode_voltage,
        load_current,
        stages: value("N"),
        pump_supply: value("Vin"),
        stage_capacitance: value("C"),
        pump_stray_ratio: value("Cs") / value("C"),
        pump_bottom_ratio: 0,
        pump_clock_frequency: value("f"),
      });
    const current = value("I");
    matches("open_circuit_Vd0", run(0, 0)["output_voltage"]);
    matches("loaded_Vd0", run(0, current)["output_voltage"]);
    matches("loaded_Vd0_3", run(0.3, current)["output_voltage"]);
    matches("efficiency_Vd0", run(0, current)["efficiency"]);
    matches("output_resistance", run(0, current)["output_resistance"]);
  });
});

describe("decoders", () => {
  const count = (bits: number, predecode_bits: number) =>
    evaluate([{ of: effort }, { of: decoder }], {
      decoder_outputs: 2 ** bits,
      decoder_span: 1e-4,
      predecode_bits,
    })["static_transistors"];

  // Source: worked solutions of a textbook on microelectronic circuits; the rest counted.
  test("8 to 256: flat and predecoded counts are exact", () => {
    const { value, matches } = worked("decoder-counts");
    const bits = value("n");
    matches("flat", count(bits, bits));
    matches("groups_4_4", count(bits, 4));
    matches("groups_3_3_2", count(bits, 3));
    matches("groups_2_2_2_2", count(bits, 2));
    const others = (decoder_bits: number) =>
      evaluate([{ of: decoderAlternatives }], { decoder_bits });
    matches("flat", others(bits)["flat_transistors"]);
    matches("tree_7bit_passgate", others(7)["pass_tree_transistors"]);
    matches("ratioed_nor_10bit", others(10)["ratioed_transistors"]);
  });

  for (const row of decoders.rows) {
    test(`${row.address_bits} bits: all counts of the table are exact`, () => {
      expect(count(row.address_bits, row.address_bits)).toBe(row.flat);
      for (const { groups, transistors } of row.predecoded) {
        expect(count(row.address_bits, Math.max(...groups)), groups.join(" ")).toBe(transistors);
      }
    });
  }

  // Source: published solution, F = 2^(n + m) (n + 2) / 6; one output drives 2^m = 1 inverter.
  test("the path effort of a flat decoder is that of the published solution", () => {
    for (const bits of [2, 4, 6, 8]) {
      const values = evaluate([{ of: effort }, { of: decoder }], {
        ...TEXTBOOK,
        decoder_outputs: 2 ** bits,
        decoder_span: 0,
        predecode_bits: bits,
      });
      expect(values["predecode_effort"]).toBeCloseTo((2 ** bits * (bits + 2)) / 6, 9);
    }
  });
});

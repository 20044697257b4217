// Sense amplifiers as a designer sizes them: how much of the difference may mismatch take, how large a pair that asks
// for, what then has to be charged, and how long the latch needs. Mismatch after the law of areas, latches as
// exponentials, mirrors of square-law devices: textbooks.
import { describe, expect, test } from "vitest";
import { chargeSenseAmplifier } from "../../../../src/models/periphery/tile/sense-charge.ts";
import {
  currentSenseAmplifier,
  differentialSenseAmplifier,
  reference,
} from "../../../../src/models/periphery/tile/sense-current.ts";
import {
  parallelSenseAmplifier,
  successiveSenseAmplifier,
} from "../../../../src/models/periphery/tile/sense-levels.ts";
import { voltageSenseAmplifier } from "../../../../src/models/periphery/tile/sense-voltage.ts";
import { behind, expectPaper, layout, pair, type Values, valuesOf } from "./paper.ts";

/** Two populations of currents that are told apart at a reference between them. */
interface Comparison {
  readonly upper: number;
  readonly lower: number;
  readonly upperSpread: number;
  readonly lowerSpread: number;
  readonly signal: number;
}

/** Share of the signal that the reference leaves to each state: a half; all where two columns are compared. */
function judge(
  { upper, lower, upperSpread, lowerSpread, signal }: Comparison,
  whole: number,
  v: Values,
) {
  const k = v["read_tail_sigmas"]!;
  const median = Math.max(signal * whole, 1e-6 * v["cell_on_current"]!);
  const weak = upper - upper * Math.exp(-k * upperSpread);
  const strong = lower * Math.exp(k * lowerSpread) - lower;
  const tail = Math.max(median - (weak + strong) * whole, v["least_tail_share"]! * median);
  return { signal, median, tail, reference: upper + v["column_leak_current"]! - signal / 2 };
}

/** The width of a pair whose offset of so many deviations is allowed. */
function pairFor(allowed: number, matching: number, v: Values) {
  const length = v["pair_length_ratio"]! * v["contacted_gate_pitch"]!;
  const sigma = v["sense_offset"]! > 0 ? v["sense_offset"]! : allowed / v["sense_sigmas"]!;
  const width = Math.max(v["minimum_width"]!, (matching / sigma) ** 2 / length);
  const left = v["sense_offset"]! > 0 ? v["sense_offset"]! : matching / Math.sqrt(width * length);
  return { width, length, offset: left * v["sense_sigmas"]! };
}

/** Two cross-coupled inverters' pull-downs, at least twice the average gate, and what hangs on a node. */
function latchOf(width: number, v: Values) {
  const device = Math.max(2 * v["gate_width"]!, width / 2);
  const c =
    2 * device * v["gate_capacitance"]! +
    4 * device * v["drain_capacitance"]! +
    2 * v["unit_gate_input_capacitance"]!;
  return { device, c, constant: c / (v["transconductance"]! * device) };
}

/** From a starting difference to the supply, at least one time constant. */
const regenerate = (constant: number, start: number, v: Values) =>
  constant * Math.max(1, Math.log(v["supply"]! / start));

/** What amplifiers with a pair and a latch cost. */
function costs(p: { width: number; length: number }, transistors: number, v: Values): Values {
  const { device, c } = latchOf(p.width, v);
  const longer = p.length / v["contacted_gate_pitch"]!;
  const drawn = 2 * p.width * (1 + longer) + 4 * device + (transistors - 6) * v["gate_width"]!;
  const others = (transistors * v["unit_gate_input_capacitance"]!) / 2;
  // Two paths from supply to ground, each through a device of the pair and one of the latch.
  const paths = 2 * Math.min(device, p.width);
  return {
    transistors,
    latch_energy: (2 * c + others) * v["supply"]! ** 2,
    leakage: (transistors - 6) * v["transistor_leakage"]! + paths * v["leakage_power_per_width"]!,
    pitch: behind(8 * v["contacted_gate_pitch"]!, v["cell_width"]! * v["column_share"]!),
    area: layout(drawn, transistors, false, "pitch", v),
  };
}

/** An amplifier of currents that has to make all comparisons. */
function currentPaper(comparisons: readonly Comparison[], whole: number, v: Values, copies = 0) {
  const judged = comparisons.map((one) => judge(one, whole, v));
  const least = (of: (one: (typeof judged)[0]) => number) => Math.min(...judged.map(of));
  const mirror = Math.max(
    v["mirror_overdrive_share"]! * v["overdrive"]!,
    (2 * v["swing_at_temperature"]!) / Math.LN10,
  );
  // A square law: a relative current is twice a relative overdrive.
  const allowed = least((one) => (v["offset_share"]! * one.tail * mirror) / 2 / one.reference);
  const cancelled = v["offset_cancelled"]! > 0.5;
  const matching = v["matching_coefficient"]! * (cancelled ? v["cancellation_ratio"]! : 1);
  const p = pairFor(allowed, matching, v);
  const lost = (current: number) => (2 * p.offset * current) / mirror;
  const latch = latchOf(p.width, v);
  const mirrorGate =
    ((p.width * p.length) / v["contacted_gate_pitch"]!) * 2 * v["gate_capacitance"]!;
  const node = latch.c + mirrorGate + 2 * p.width * v["drain_capacitance"]!;
  const own =
    (v["sense_sigmas"]! * v["matching_coefficient"]!) / Math.sqrt(latch.device * p.length);
  const start = Math.min(own / v["offset_share"]!, v["supply"]! / 2);
  const net = least((one) => Math.max(one.tail - lost(one.reference), 0.01 * one.median));
  const clamp = mirror / 2 / least((one) => one.reference);
  const missing = Math.min(
    0.5,
    least((one) => (v["settling_share"]! * one.tail) / one.reference),
  );
  const waits = Math.log(1 / missing);
  const sampling = cancelled ? waits * node * clamp : 0;
  const signal = (v["sense_guard"]! * node * start) / net;
  const regeneration = regenerate(latch.constant, start, v);
  const output = 2 * v["tau"]! * (v["best_stage_effort"]! + v["inverter_parasitic"]!);
  const copy = waits * copies * mirrorGate * clamp;
  const delay = sampling + signal + regeneration + output + copy;
  const own_transistors = v["sense_current_transistors"]! + (cancelled ? 4 : 0);
  const cost = costs(p, own_transistors + v["output_latch_transistors"]!, v);
  const two =
    2 *
    v["supply"]! *
    (v["cell_on_current"]! + v["column_leak_current"]! - v["signal_current"]! / 2);
  return {
    ...cost,
    pair_width: p.width,
    margin: least((one) => (one.signal * whole) / lost(one.reference)),
    net_current: net,
    clamp_resistance: clamp,
    settling_error: missing,
    sampling_time: sampling,
    signal_time: signal,
    regeneration_time: regeneration,
    delay,
    read_energy: cost["latch_energy"]! + two * delay,
    write_energy: 0,
    /** Time in which the gates of all amplifiers settle that share a reference. */
    shared: (waits * v["amplifiers_per_reference"]! * mirrorGate * clamp) / v["reference_cells"]!,
  };
}

const POINTS: readonly (readonly [string, Values])[] = [
  ["middle figures", {}],
  ["wide spreads", { tail_on_spread: 0.9, tail_off_spread: 1.1 }],
  ["a sampled offset", { offset_cancelled: 1 }],
  ["a stated offset", { sense_offset: 0.7e-3 }],
  ["large offset of small devices", { sense_offset: 30e-3, matching_coefficient: 9e-9 }],
  ["below threshold", { overdrive: 0.02, tail_on_spread: 0.02, tail_off_spread: 0.02 }],
  ["next to no signal", { signal_current: 1e-12, first_pair_signal: 1e-12 }],
  ["much signal", { signal_current: 29e-6, cell_off_current: 1e-9, matching_coefficient: 1e-10 }],
  ["columns closer than amplifiers", { cell_width: 47e-9, column_share: 2 }],
  ["a slow latch", { matching_coefficient: 60e-9, supply: 0.4 }],
  [
    "a long reference",
    { settling_share: 8, last_pair_signal: 21e-6, last_but_one_level_current: 25e-6 },
  ],
];

describe.each(POINTS)("%s", (_, point) => {
  const states = (v: Values): Comparison => ({
    upper: v["cell_on_current"]!,
    lower: v["cell_off_current"]!,
    upperSpread: v["tail_on_spread"]!,
    lowerSpread: v["tail_off_spread"]!,
    signal: v["signal_current"]!,
  });

  test("an amplifier that compares a column with a reference", () => {
    const v = valuesOf(currentSenseAmplifier, point);
    const { shared, ...paper } = currentPaper([states(v)], 1 / 2, v);
    expectPaper(v, { ...paper, reference_delay: shared });
  });

  test("an amplifier that compares two columns", () => {
    const v = valuesOf(differentialSenseAmplifier, point);
    const { shared: _, ...paper } = currentPaper([states(v)], 1, v);
    expectPaper(v, paper);
  });

  test.each([successiveSenseAmplifier, parallelSenseAmplifier])("$title", (sheet) => {
    for (const bits_per_cell of [1, 2, 3]) {
      const references = 2 ** bits_per_cell - 1;
      const v = valuesOf(sheet, {
        first_pair_signal: 13e-6,
        last_pair_signal: 3e-6,
        second_level_current: 17e-6,
        last_but_one_level_current: 9e-6,
        ...point,
        bits_per_cell,
        level_references: references,
      });
      const [on, off] = [v["tail_on_spread"]!, v["tail_off_spread"]!];
      // Spreads go evenly from the first level to the last.
      const step = (off - on) / references;
      const first = {
        upper: v["cell_on_current"]!,
        lower: v["second_level_current"]!,
        upperSpread: on,
        lowerSpread: bits_per_cell > 1 ? on + step : off,
        signal: v["first_pair_signal"]!,
      };
      const last = {
        upper: v["last_but_one_level_current"]!,
        lower: v["cell_off_current"]!,
        upperSpread: bits_per_cell > 1 ? off - step : on,
        lowerSpread: off,
        signal: v["last_pair_signal"]!,
      };
      const parallel = sheet === parallelSenseAmplifier;
      const copies = parallel ? references - 1 : 0;
      const { shared, ...paper } = currentPaper([first, last], 1 / 2, v, copies);
      expectPaper(v, { ...paper, reference_delay: shared }, `${bits_per_cell} bits`);
      if (!parallel) expect(v["recovery"]).toBe(v["regeneration_time"]);
    }
  });

  test("an amplifier of swings: mismatch gets a share of what the column moves", () => {
    const v = valuesOf(voltageSenseAmplifier, point);
    const swing = v["column_swing"]!;
    const p = pairFor(v["offset_share"]! * swing, v["matching_coefficient"]!, v);
    const latch = latchOf(p.width, v);
    const start = Math.max(swing - p.offset, swing / 100);
    const signal = (v["sense_guard"]! * v["column_capacitance"]! * swing) / v["signal_current"]!;
    const regeneration = regenerate(latch.constant, start, v);
    const output = 2 * v["tau"]! * (v["best_stage_effort"]! + v["inverter_parasitic"]!);
    const count = v["sense_latch_transistors"]! + v["output_latch_transistors"]!;
    const cost = costs(p, count, v);
    expectPaper(v, {
      ...cost,
      pair_width: p.width,
      margin: swing / p.offset,
      signal_time: signal,
      regeneration_time: regeneration,
      delay: signal + regeneration + output,
      read_energy: cost["latch_energy"]!,
      write_energy: 0,
    });
  });

  test("an amplifier at each column restores it: its latch pulls the whole column", () => {
    const v = valuesOf(chargeSenseAmplifier, point);
    const swing = v["column_swing"]!;
    const p = pairFor(v["offset_share"]! * swing, v["matching_coefficient"]!, v);
    const device = Math.max(v["gate_width"]!, p.width);
    const c = pair(v) * device * (v["gate_capacitance"]! + 2 * v["drain_capacitance"]!);
    // A pair at half of the supply has half of its transconductance.
    const constant = (v["column_capacitance"]! + c) / ((v["transconductance"]! * device) / 2);
    const start = Math.max(swing - p.offset, swing / 100);
    const regeneration = regenerate(constant, start, v);
    const signal = (v["sense_guard"]! * v["column_capacitance"]! * swing) / v["signal_current"]!;
    const count = v["charge_latch_transistors"]!;
    const others = Math.max(0, count - 4);
    const longer = 1 + p.length / v["contacted_gate_pitch"]!;
    const drawn = 2 * pair(v) * device * longer + others * v["gate_width"]!;
    const energy = (2 * c + others * v["unit_gate_input_capacitance"]!) * v["supply"]! ** 2;
    expectPaper(v, {
      transistors: count,
      width: 2 * pair(v) * device,
      margin: swing / p.offset,
      signal_time: signal,
      regeneration_time: regeneration,
      delay: signal + regeneration,
      leakage: others * v["transistor_leakage"]!,
      read_energy: energy,
      write_energy: energy,
      area: layout(drawn, count, false, "pitch", v),
    });
  });
});

test("a reference is a generator, cells of both states, and two mirrors for each amplifier", () => {
  const v = valuesOf(reference);
  const count =
    v["generator_transistors"]! + v["reference_cells"]! + 2 * v["amplifiers_per_reference"]!;
  const middle = v["cell_on_current"]! - v["signal_current"]! / 2;
  const gates = (count / 2) * v["unit_gate_energy"]!;
  expectPaper(v, {
    transistors: count,
    area: count * v["transistor_area"]! * v["pitch_layout_share"]!,
    leakage: count * v["transistor_leakage"]!,
    read_energy: gates + v["supply"]! * middle * v["sensing_time"]!,
    write_energy: 0,
  });
});

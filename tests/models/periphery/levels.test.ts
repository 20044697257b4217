import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { effort } from "../../../src/models/periphery/effort.ts";
import {
  levelEncoder,
  levelPairs,
  levelPairsInSeries,
  levelRegister,
} from "../../../src/models/periphery/tile/levels.ts";
import { currentSenseAmplifier } from "../../../src/models/periphery/tile/sense-current.ts";
import {
  parallelSenseAmplifier,
  successiveSenseAmplifier,
} from "../../../src/models/periphery/tile/sense-levels.ts";
import { evaluate } from "./fixture.ts";

const SIGNAL = fc.double({ min: 1, max: 24.9, noNaN: true });
const SPREAD = fc.double({ min: 0, max: 0.3, noNaN: true });
const ONE = { cells_written: 1 };

/**
 * Gates of two inputs between decisions T_1 ... T_(n-1) of n levels and the reflected binary code,
 * from its table: every run of ones of a bit is one product T_a and not T_b, but that which lasts to
 * the highest level, which is a decision itself; a gate joins two of them.
 */
function encoderGates(bits: number): number {
  const levels = 2 ** bits;
  const code = Array.from({ length: levels }, (_, k) => k ^ (k >> 1));
  let gates = 0;
  for (let bit = 0; bit < bits; bit++) {
    const ones = code.map((word) => ((word >> bit) & 1) === 1);
    const ends = ones.flatMap((one, k) => (one && !ones[k + 1] ? [k] : []));
    const products = ends.filter((k) => k < levels - 1).length;
    gates += products + (ends.length - 1);
  }
  return gates;
}

/** The reference after j - 1 decisions is told by them and by the step: an and of j inputs. */
function choosingGates(low: number, high: number, step = 1): number {
  if (low > high) return 0;
  const middle = (low + high) / 2;
  return (
    step - 1 + choosingGates(low, middle - 1, step + 1) + choosingGates(middle + 1, high, step + 1)
  );
}

describe("the logic of several levels", () => {
  const encoder = (bits_per_cell: number) =>
    evaluate([{ of: effort }, { of: levelEncoder }], { bits_per_cell });
  const register = (bits: number) =>
    evaluate([{ of: effort }, { of: levelRegister }], {
      bits_per_cell: bits,
      level_references: 2 ** bits - 1,
    });

  // By hand: of two bits, the low one is T1 and not T3; of three, T1 and not T3 or T5 and not T7,
  // then T2 and not T6. The highest bit is the middle decision itself.
  test("an encoder of two bits is one gate, of three bits four, of four bits eleven", () => {
    expect([2, 3, 4].map((bits) => encoder(bits)["transistors"])).toEqual([4, 16, 44]);
  });

  test("an encoder has the gates that the table of the reflected binary code asks for", () => {
    for (const bits of [1, 2, 3, 4, 5, 6]) expect(encoder(bits)["gates"]).toBe(encoderGates(bits));
  });

  // By hand: two flip-flops of 20, two gates of 4, three switches of 2; then 3, 10 and 7 of them.
  test("a register of two bits has 54 transistors, of three bits 114", () => {
    expect(register(2)["transistors"]).toBe(54);
    expect(register(3)["transistors"]).toBe(114);
  });

  test("a register has the gates of the tree in which references are searched", () => {
    for (const bits of [1, 2, 3, 4, 5, 6])
      expect(register(bits)["choosing_gates"]).toBe(choosingGates(1, 2 ** bits - 1));
  });
});

describe("amplifiers of several levels", () => {
  const at = (sheet: typeof currentSenseAmplifier, replaced: Readonly<Record<string, number>>) =>
    evaluate([{ of: effort }, { of: levelPairsInSeries }, { of: sheet }], { ...ONE, ...replaced });

  test("at one bit are those of two states, to the bit", () => {
    fc.assert(
      fc.property(SIGNAL, SPREAD, SPREAD, (signal, tail_on_spread, tail_off_spread) => {
        const spreads = { tail_on_spread, tail_off_spread };
        const given = { bits_per_cell: 1, signal_current: signal * 1e-6, ...spreads };
        const two = evaluate([{ of: effort }, { of: currentSenseAmplifier }], given);
        for (const sheet of [successiveSenseAmplifier, parallelSenseAmplifier]) {
          const many = at(sheet, given);
          for (const name of Object.keys(two)) expect(many[name], name).toBe(two[name]);
          expect(many["second_level_spread"]).toBe(tail_off_spread);
          expect(many["last_but_one_level_spread"]).toBe(tail_on_spread);
        }
      }),
    );
  });

  test("are larger and slower for every further bit", () => {
    for (const sheet of [successiveSenseAmplifier, parallelSenseAmplifier]) {
      const made = [1, 2, 3, 4].map((bits_per_cell) => at(sheet, { bits_per_cell }));
      for (const name of ["area", "delay", "clamp_resistance"]) {
        const rising = made.map((one) => one[name]!);
        expect(rising, name).toEqual([...rising].sort((a, b) => a - b));
        expect(new Set(rising).size, name).toBe(4);
      }
    }
  });

  // Mismatch of a mirror as in `parts.test.ts`, for each pair of levels that the sheet could be made for.
  test("leave their mismatch half of the signal of the worst pair of levels", () => {
    for (const leak of [0.1e-6, 20e-6]) {
      for (const bits of [2, 3]) {
        const values = at(successiveSenseAmplifier, {
          bits_per_cell: bits,
          column_leak_current: leak,
          on_resistance: 0.2 / 30e-6 - 2e3,
          off_resistance: 0.2 / 4.9e-6 - 2e3,
          signal_current: 25.1e-6,
          tail_on_spread: 0,
          tail_off_spread: 0,
        });
        const [on, off] = [0.2 / 30e-6 - 2e3, 0.2 / 4.9e-6 - 2e3];
        const currents = Array.from(
          { length: 2 ** bits },
          (_, k) => 0.2 / (2e3 + on * (off / on) ** (k / (2 ** bits - 1))),
        );
        const allowed = currents.slice(1).map((below, k) => {
          const half = (currents[k]! - below) / 2;
          return (0.5 * half * values["mirror_overdrive"]!) / (2 * (currents[k]! - half + leak));
        });
        expect(values["allowed_offset"]! / Math.min(...allowed)).toBeCloseTo(1, 9);
        const halves = currents.slice(1).map((below, k) => (currents[k]! - below) / 2);
        expect(values["half_signal"]! / Math.min(...halves)).toBeCloseTo(1, 9);
        const net = halves.map((half, k) => {
          const reference = currents[k]! - half + leak;
          return half - (2 * reference * values["offset"]!) / values["mirror_overdrive"]!;
        });
        expect(values["net_current"]! / Math.min(...net)).toBeCloseTo(1, 9);
      }
    }
  });

  // All neighbours one by one against the two that the sheet looks at.
  test("no pair of levels in between is harder to tell apart than both ends", () => {
    const given = fc.record({
      bits: fc.integer({ min: 2, max: 5 }),
      ratio: fc.double({ min: 2, max: 1e4, noNaN: true }),
      series: fc.double({ min: 0, max: 5, noNaN: true }),
      leak: fc.double({ min: 0, max: 1, noNaN: true }),
    });
    fc.assert(
      fc.property(given, ({ bits, ratio, series, leak }) => {
        const on = 10e3;
        const currents = Array.from(
          { length: 2 ** bits },
          (_, k) => 0.2 / (on * ratio ** (k / (2 ** bits - 1)) + series * on),
        );
        const step = (k: number) => {
          const signal = currents[k]! - currents[k + 1]!;
          return signal / (currents[k]! - signal / 2 + leak * currents[0]!);
        };
        const steps = Array.from({ length: 2 ** bits - 1 }, (_, k) => step(k));
        const ends = Math.min(steps[0]!, steps.at(-1)!);
        expect(Math.min(...steps) / ends).toBeCloseTo(1, 9);
        const [first = 0] = currents;
        const last = currents.at(-1)!;
        const values = evaluate([{ of: levelPairsInSeries }], {
          ...ONE,
          bits_per_cell: bits,
          on_resistance: on,
          off_resistance: on * ratio,
          read_voltage: 0.2,
          cell_on_current: first,
          cell_off_current: last,
          signal_current: first - last,
        });
        expect(values["second_level_current"]! / currents[1]!).toBeCloseTo(1, 9);
        expect(values["last_but_one_level_current"]! / currents.at(-2)!).toBeCloseTo(1, 9);
      }),
    );
  });

  // By hand: 30 uA and 4.9 uA with two levels evenly in the logarithm between them.
  test("without a resistance in series the currents of levels are a geometric series", () => {
    const values = evaluate([{ of: levelPairs }], { ...ONE, bits_per_cell: 2 });
    expect(values["second_level_current"]! * 1e6).toBeCloseTo((30 ** 2 * 4.9) ** (1 / 3), 9);
    expect(values["last_but_one_level_current"]! * 1e6).toBeCloseTo((30 * 4.9 ** 2) ** (1 / 3), 9);
    // 25.1 uA between on and off, of which 25 can be used: a tenth is the leak of the others.
    const step = values["last_but_one_level_current"]! - 4.9e-6;
    expect(values["last_pair_signal"]! / (step - 0.1e-6)).toBeCloseTo(1, 9);
  });
});

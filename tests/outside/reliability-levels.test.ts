/**
 * Levels, drift and pairs against a general-purpose library of arbitrary precision (40 digits) and
 * one of numeric arrays (sums over a grid of a hundredth of a deviation), which compute the same
 * probabilities from their definitions: each level read as each other one, times the bits in which
 * their labels differ. None of our formulas is in them.
 */
import { describe, expect, it } from "vitest";
import {
  aged,
  pairError,
  type ReadPath,
  readLevels,
  type WrittenLevel,
} from "../../src/models/reliability/index.ts";

/** Half of the last digit that stands here. */
const PRINTED = 1e-13;

describe("four levels of a drifting material", () => {
  /**
   * Levels at 3, 4, 5, 6 decades of ohm of 0.17 decades each; exponents 0.001, 0.02, 0.06, 0.1 with
   * deviations of 40 %; references in the middle. Such figures stand in studies of four-level
   * phase-change cells; from memory, and here for the arithmetic alone.
   */
  const LN10 = Math.LN10;
  const levels = [0.001, 0.02, 0.06, 0.1].map(
    (drift, i): WrittenLevel => ({
      current: 10 ** -(3 + i),
      spread: 0.17 * LN10,
      drift,
      driftDeviation: 0.4 * drift,
    }),
  );
  const quiet: ReadPath = { leak: 0, noise: () => 0 };
  const EXACT: readonly (readonly [time: number, bit: number, symbol: number])[] = [
    [1, 0.0012261307547601333, 0.0024522615095202661],
    [3600, 0.009338767091735443, 0.018677534183470866],
    [86400, 0.021954338517989926, 0.04390867703597724],
    [31557600, 0.05602894060751968, 0.11205788120655817],
  ];

  it("err as each level is read as each other, from a second to a year", () => {
    for (const [time, bit, symbol] of EXACT) {
      const found = readLevels(
        aged(levels, Math.log(time)),
        [3.5, 4.5, 5.5].map((decade) => 10 ** -decade),
        quiet,
      );
      expect(Math.abs(found.bit / bit - 1)).toBeLessThan(PRINTED * 10);
      expect(Math.abs(found.symbol / symbol - 1)).toBeLessThan(PRINTED * 10);
    }
  });
});

describe("four levels with noise and a leak", () => {
  it("err as the mean over their spread of the normal tail of the noise", () => {
    const noise = new Map([
      [17, 0.9],
      [5, 0.3],
      [1.5, 0.1],
    ]);
    const levels = [
      { current: 30, spread: 0.08 },
      { current: 9, spread: 0.1 },
      { current: 2.7, spread: 0.12 },
      { current: 0.8, spread: 0.15 },
    ];
    const path: ReadPath = { leak: 0.05, noise: (t) => noise.get(t)! };
    const found = readLevels(levels, [17, 5, 1.5], path);
    // Means by the trapezoidal rule are right to 1e-9.
    expect(Math.abs(found.bit / 0.000025596533242189642 - 1)).toBeLessThan(1e-9);
    expect(Math.abs(found.symbol / 0.000051193066484379284 - 1)).toBeLessThan(1e-9);
  });
});

describe("pairs of switches with noise", () => {
  it("err as the sum over a grid of both spreads", () => {
    const EXACT: readonly (readonly [number[], number])[] = [
      [[30, 3, 0.1, 0.4, 2], 2.207202272289256e-8],
      [[30, 3, 0.3, 0.1, 0.5], 4.829017962328991e-12],
      [[30, 6, 0.25, 0.25, 8], 0.009588599382884897],
    ];
    for (const [[on, off, onSpread, offSpread, noise], error] of EXACT) {
      const found = pairError({
        on: on!,
        off: off!,
        onSpread: onSpread!,
        offSpread: offSpread!,
        noise: noise!,
      });
      // The rule for pairs is right to 1e-5.
      expect(Math.abs(found / error - 1)).toBeLessThan(1e-5);
    }
  });
});

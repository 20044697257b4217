import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { aged, readWord } from "../../../src/models/reliability/aged-levels.ts";
import { levelErrors, optimumThreshold } from "../../../src/models/reliability/index.ts";
import {
  type Level,
  labelDistance,
  leastErrorReference,
  leastErrorReferences,
  type ReadPath,
  readLevels,
  reflectedLabel,
} from "../../../src/models/reliability/level-reads.ts";
import { readErrors } from "../../../src/models/reliability/read-errors.ts";
import { normalMean } from "../../../src/numerics/quadrature.ts";
import { binomialTail } from "../../../src/numerics/special/discrete.ts";
import { normalTail } from "../../../src/numerics/special/normal.ts";
import { run } from "../../outside/reliability/run.ts";

const quiet: ReadPath = { leak: 0, noise: () => 0 };
const noisy = (noise: number, leak = 0): ReadPath => ({ leak, noise: () => noise });
/** Levels evenly spaced in the logarithm, so many deviations apart. */
const even = (count: number, spread: number, apart: number): Level[] =>
  Array.from({ length: count }, (_, i) => ({ current: Math.exp(-i * apart * spread), spread }));

describe("labels of levels", () => {
  it("differ in one bit between neighbours, and are all different, up to 64 levels", () => {
    for (const count of [2, 4, 8, 16, 64]) {
      const labels = Array.from({ length: count }, (_, i) => reflectedLabel(i));
      expect(new Set(labels).size).toBe(count);
      expect(Math.max(...labels)).toBe(count - 1);
      for (let i = 1; i < count; i++) expect(labelDistance(i - 1, i)).toBe(1);
    }
    expect(labelDistance(0, 3)).toBe(1);
    expect(labelDistance(0, 2)).toBe(2);
  });
});

describe("errors of several levels", () => {
  it("are those of equally spaced levels in closed form, down to 1e-18", () => {
    for (const [levels, apart] of [
      [2, 7],
      [4, 7],
      [8, 6],
      [4, 17.5],
    ] as const) {
      const written = even(levels, 0.1, apart);
      const found = readLevels(written, leastErrorReferences(written, quiet), quiet);
      const closed = run(levelErrors, { levels, level_spacing: apart });
      expect(found.symbol / closed["symbol_error"]!).toBeCloseTo(1, 10);
      // The closed form leaves out what reaches over a whole level.
      expect(found.bit / closed["level_bit_error"]!).toBeCloseTo(1, 10);
      for (const share of found.shares) expect(share).toBeCloseTo(1 / (levels - 1), 10);
      if (apart === 17.5) expect(found.bit).toBeLessThan(2e-18);
    }
  });

  it("stand at the root of the quadratic where spreads are unequal, in closed form", () => {
    for (const [onSpread, offSpread] of [
      [0.1, 0.25],
      [0.3, 0.1],
      [0.2, 0.2],
    ] as const) {
      const given = { on_resistance: 1e4, off_resistance: 1e5 };
      const closed = run(optimumThreshold, {
        ...given,
        on_spread: onSpread,
        off_spread: offSpread,
      });
      const levels = [
        { current: 1e-4, spread: onSpread },
        { current: 1e-5, spread: offSpread },
      ];
      const at = leastErrorReference(levels[0]!, levels[1]!, quiet);
      expect(at * closed["optimum_threshold_resistance"]!).toBeCloseTo(1, 8);
      const found = readLevels(levels, [at], quiet);
      expect(found.bit / closed["least_read_error"]!).toBeCloseTo(1, 9);
    }
  });

  it("are those of the two-level read at its own reference, and less at the best one", () => {
    for (const noise of [0.1e-6, 1e-6, 3e-6]) {
      const p = { on: 30e-6, off: 1e-6, leak: 2e-6, onSpread: 0.15, offSpread: 0.5, noise };
      const two = readErrors(p);
      const path = noisy(noise, p.leak);
      const levels = [
        { current: p.on, spread: p.onSpread },
        { current: p.off, spread: p.offSpread },
      ];
      const same = readLevels(levels, [two.reference], path).bit;
      expect(same / ((two.onAsOff + two.offAsOn) / 2)).toBeCloseTo(1, 12);
      const best = readLevels(levels, leastErrorReferences(levels, path), path).bit;
      expect(best).toBeLessThanOrEqual(same);
      expect(best).toBeGreaterThan(same / 2);
    }
  });

  it("counts a wide level with the bits that differ where it is read", () => {
    // The lowest of four levels is so wide that it is read as each of the others now and then.
    const levels = [...even(3, 0.02, 50), { current: Math.exp(-4), spread: 1.5 }];
    const references = leastErrorReferences(levels, quiet);
    const tails = references.map((t) => normalTail((Math.log(t) + 4) / 1.5));
    // Read as level 2 (one bit differs), 1 (two bits) or 0 (one bit).
    const next = normalTail((-2 - Math.log(references[2]!)) / 0.02);
    const wrong = next + tails[2]! - tails[1]! + 2 * (tails[1]! - tails[0]!) + tails[0]!;
    const found = readLevels(levels, references, quiet);
    expect(found.bit / (wrong / 8)).toBeCloseTo(1, 6);
    expect(found.shares[2]).toBeGreaterThan(0.99);
  });

  it("never grow when the levels move apart, and stay probabilities", () => {
    const spread = fc.double({ min: 0.02, max: 0.8, noNaN: true });
    const apart = fc.double({ min: 0.1, max: 3, noNaN: true });
    const noise = fc.double({ min: 0.001, max: 0.3, noNaN: true });
    fc.assert(
      fc.property(fc.array(spread, { minLength: 4, maxLength: 4 }), apart, noise, (s, d, n) => {
        const at = (distance: number): number => {
          const levels = s.map((one, i) => ({ current: Math.exp(-i * distance), spread: one }));
          const path: ReadPath = { leak: 0, noise: (t) => n * t };
          const found = readLevels(levels, leastErrorReferences(levels, path), path);
          expect(found.symbol).toBeGreaterThanOrEqual(0);
          expect(found.bit).toBeLessThanOrEqual(1);
          expect(found.shares.reduce((a, b) => a + b)).toBeCloseTo(1, 9);
          return found.symbol;
        };
        expect(at(1.2 * d)).toBeLessThanOrEqual(at(d) * (1 + 1e-6));
      }),
      { seed: 20261125, numRuns: 60 },
    );
  });
});

describe("levels after some time", () => {
  it("are lost as the drift law says in closed form", () => {
    // `ber-drift` of the worked checks: 100 kohm falling as t^-0.02, threshold 31.6 kohm.
    const off = { current: 1e-5, spread: 0.2, drift: -0.02, driftDeviation: 0.005 };
    const wanted: readonly (readonly [number, number])[] = [
      [1, 4.294736685986652e-9],
      [3600, 6.581688724015807e-7],
      [86400, 4.4182205936727135e-6],
      [315576000, 3.2137459093406874e-4],
    ];
    for (const [time, lost] of wanted) {
      const [level] = aged([off], Math.log(time));
      const above = readLevels(
        [{ current: 1, spread: 1e-3 }, level!],
        [1 / 31622.776601683796],
        quiet,
      );
      expect((2 * above.symbol) / lost).toBeCloseTo(1, 9);
    }
  });
});

describe("words with shared references", () => {
  const levels = [
    { current: 1045, spread: 0 },
    { current: 5, spread: 0 },
  ];
  const word = (deviation: number, corrected: number) =>
    readWord({
      levels,
      references: [1000],
      path: noisy(4),
      offset: 0,
      deviation,
      changed: 0,
      codeLength: 72,
      corrected,
    });

  it("fail as the mean over the reference of the binomial tail", () => {
    for (const corrected of [0, 1, 3]) {
      const p = (g: number) => normalTail((45 - 5 * g) / 4) / 2;
      const exact = normalMean((g) => binomialTail(72, corrected + 1, p(g)));
      expect(word(0.005, corrected).word / exact).toBeCloseTo(1, 9);
    }
  });

  it("have the bit errors of offset and reference in quadrature, but more words lost with a code", () => {
    const shared = word(0.005, 1);
    expect(shared.bit / (normalTail(45 / Math.hypot(4, 5)) / 2)).toBeCloseTo(1, 9);
    // The trap: the same bit error rate, independent from bit to bit.
    expect(shared.word).toBeGreaterThan(1e6 * binomialTail(72, 2, shared.bit));
  });

  it("are those of independent bits where nothing is shared", () => {
    const plain = word(0, 1);
    expect(plain.word / binomialTail(72, 2, plain.bit)).toBeCloseTo(1, 12);
  });

  it("take a cell that has lost its level as read as any other: all bits of one, 2/3 of two", () => {
    const sharp = (count: number) => even(count, 0.001, 100);
    for (const [count, wrong] of [
      [2, 1],
      [4, 2 / 3],
      [8, 4 / 7],
    ] as const) {
      const found = readWord({
        levels: sharp(count),
        references: leastErrorReferences(sharp(count), quiet),
        path: quiet,
        offset: 0,
        deviation: 0,
        changed: 1e-5,
        codeLength: 32,
        corrected: 0,
      });
      expect(found.bitWithChanged / (wrong * 1e-5)).toBeCloseTo(1, 9);
      let sum = 0;
      for (let other = 1; other < count; other++) sum += labelDistance(0, other);
      expect(sum / (count - 1) / Math.log2(count)).toBeCloseTo(wrong, 12);
    }
  });
});

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { part } from "../../../src/models/periphery/define.ts";
import { chain, effort, path } from "../../../src/models/periphery/effort.ts";
import { route } from "../../../src/models/periphery/macro/route.ts";
import { partsFor } from "../../../src/models/periphery/periphery.ts";
import { decoder } from "../../../src/models/periphery/tile/decoder.ts";
import { evaluate } from "./fixture.ts";
import { instancesOf, STRUCTURES } from "./structures.ts";

const SEED = 20261125;
const ROUNDS = { seed: SEED, numRuns: 200 };

/** A hair for rounding: relative. */
const HAIR = 1e-12;

describe("the number of stages", () => {
  const inputs = { load_ratio: { unit: "1", meaning: "load over input" } };
  for (const [fewest, step] of [
    [1, 1],
    [1, 2],
    [3, 2],
    [2, 1],
  ] as const) {
    const sheet = part({
      name: "chain",
      title: "Chain",
      about: "A chain.",
      inputs,
      formulas: path({ name: "way", effort: "load_ratio", fewest, step }),
    });
    const instances = [{ of: effort }, { of: sheet }];

    test(`from ${fewest} by ${step}: no other number of stages is faster (brute force)`, () => {
      fc.assert(
        fc.property(
          fc.double({ min: 0, max: 16, noNaN: true }),
          fc.double({ min: 0.3, max: 2, noNaN: true }),
          (logarithm, inverter_parasitic) => {
            const load_ratio = Math.exp(logarithm);
            const values = evaluate(instances, {
              load_ratio,
              inverter_parasitic,
              tau: 1,
            });
            let fastest = Number.POSITIVE_INFINITY;
            for (let n = fewest; n < 40; n += step) {
              fastest = Math.min(fastest, n * load_ratio ** (1 / n) + n * inverter_parasitic);
            }
            expect(values["way_delay"]).toBeLessThanOrEqual(fastest * (1 + HAIR));
            expect(values["way_delay"]).toBeGreaterThanOrEqual(fastest * (1 - HAIR));
          },
        ),
        ROUNDS,
      );
    });
  }
});

describe("a chain sized from its line backwards", () => {
  for (const [odd, thick] of [
    [false, false],
    [true, false],
    [false, true],
  ] as const) {
    const sheet = part({
      name: "chain",
      title: "Chain",
      about: "A chain.",
      inputs: { line: { unit: "F", meaning: "load" } },
      formulas: chain({ name: "chain", load: "line", odd, thick }),
    });
    const instances = [{ of: effort }, { of: sheet }];
    const run = (line: number) => evaluate(instances, { line });
    const kind = `${odd ? "odd, " : ""}${thick ? "thick" : "core"}`;

    test(`${kind}: a larger line is never faster, and never takes less width`, () => {
      fc.assert(
        fc.property(
          fc.double({ min: -37, max: -25, noNaN: true }),
          fc.double({ min: 0, max: 3, noNaN: true }),
          (logarithm, more) => {
            const [small, large] = [run(Math.exp(logarithm)), run(Math.exp(logarithm + more))];
            for (const name of ["chain_delay", "chain_width", "chain_stages"]) {
              expect(large[name], name).toBeGreaterThanOrEqual((small[name] ?? 0) * (1 - HAIR));
            }
          },
        ),
        ROUNDS,
      );
    });

    test(`${kind}: is the chain that sizes of inverters written one by one give`, () => {
      for (const ratio of [0.5, 1, 3, 8, 9, 70, 600, 5000]) {
        const values = run(ratio * (thick ? 1 : 0.338e-15));
        const [load, f] = [values["chain_effort"] ?? 0, 8];
        const sizes: number[] = [];
        for (let size = load / f; size > 1 + 1e-12; size /= f) sizes.unshift(size);
        sizes.unshift(1);
        if (odd && sizes.length % 2 === 0) sizes.unshift(1);
        const loads = [...sizes.slice(1), load];
        const delay = loads.reduce((sum, next, i) => sum + next / (sizes[i] ?? 1) + 1, 0);
        expect(values["chain_stages"]).toBe(sizes.length);
        const total = sizes.reduce((sum, size) => sum + size, 0);
        expect((values["chain_size"] ?? 0) / total).toBeCloseTo(1, 12);
        const unit = thick ? (values["thick_tau"] ?? 0) : 4e-12;
        expect((values["chain_delay"] ?? 0) / (delay * unit)).toBeCloseTo(1, 12);
      }
    });
  }
});

describe("decoders", () => {
  const instances = [{ of: effort }, { of: decoder }];
  const run = (decoder_outputs: number, decoder_span = 1e-4) =>
    evaluate(instances, { decoder_outputs, decoder_span });

  test("more rows never need fewer transistors, from 1 to 1100 rows", () => {
    let before = 0;
    for (let rows = 1; rows <= 1100; rows++) {
      const now = run(rows)["static_transistors"] ?? 0;
      if (now < before) expect.fail(`${rows} rows: ${now} transistors after ${before}`);
      before = now;
    }
  });

  test("a longer decoder is never faster", () => {
    for (const rows of [16, 100, 256, 1024]) {
      let before = 0;
      for (let span = 1e-6; span < 2e-3; span *= 1.3) {
        const now = run(rows, span)["delay"] ?? 0;
        expect(now).toBeGreaterThanOrEqual(before);
        before = now;
      }
    }
  });
});

describe("repeaters", () => {
  const run = (repeater_size_share: number, repeater_spacing_share: number) =>
    evaluate([{ of: effort }, { of: route }], {
      repeater_size_share,
      repeater_spacing_share,
      address_bits: 15,
      coded_word: 32,
    });

  /** Elmore delay per length of one repeated segment cut into many lumps. */
  function lumped(size: number, length: number): number {
    const [unit, lumps] = [0.338e-15, 4000];
    const driver = 4e-12 / Math.LN2 / unit / size;
    const [r, c] = [(0.743e6 * length) / lumps, (0.1945e-9 * length) / lumps];
    let delay = driver * unit * size;
    for (let i = 1; i <= lumps; i++) delay += (driver + r * i) * c;
    delay += (driver + r * lumps) * unit * size;
    return (Math.LN2 * delay) / length;
  }

  test("the delay per length is the Elmore sum of a segment cut into 4000 lumps", () => {
    for (const [size, spacing] of [
      [1, 1],
      [0.5, 1.5],
      [0.3, 2],
    ] as const) {
      const values = run(size, spacing);
      const wanted = lumped(values["repeater_size"] ?? 0, values["segment_length"] ?? 0);
      expect((values["delay_per_length"] ?? 0) / wanted).toBeCloseTo(1, 3);
    }
  });

  test("a numerical search over size and distance finds the closed-form optimum", () => {
    const best = run(1, 1);
    let [size, length, step] = [20, 1e-4, 2];
    while (step > 1 + 1e-7) {
      const around = [
        [1, 1],
        [step, 1],
        [1 / step, 1],
        [1, step],
        [1, 1 / step],
      ].map(([s = 1, l = 1]) => [size * s, length * l] as const);
      const closest = around.reduce((a, b) =>
        continuous(b[0], b[1]) < continuous(a[0], a[1]) ? b : a,
      );
      if (closest[0] === size && closest[1] === length) step = Math.sqrt(step);
      [size, length] = closest;
    }
    expect((best["repeater_size"] ?? 0) / size).toBeCloseTo(1, 5);
    expect((best["segment_length"] ?? 0) / length).toBeCloseTo(1, 5);
    expect((best["delay_per_length"] ?? 0) / continuous(size, length)).toBeCloseTo(1, 9);
  });

  /** Elmore delay per length of a repeated segment: driver and its parasitic, wire, next gate. */
  function continuous(size: number, length: number): number {
    const unit = 0.338e-15;
    const driver = 4e-12 / Math.LN2 / unit / size;
    const [r, c] = [0.743e6 * length, 0.1945e-9 * length];
    const gate = unit * size;
    return (Math.LN2 * (driver * (2 * gate + c) + r * (c / 2 + gate))) / length;
  }
});

describe("a whole periphery", () => {
  const LOADS = ["row_capacitance", "column_capacitance", "row_line_delay", "macro_side"] as const;
  const SIZES = ["write_current", "rows", "word", "sense_amplifiers"] as const;

  for (const [name, structure] of STRUCTURES) {
    const instances = instancesOf(structure);

    test(`${name}: more load is never faster`, () => {
      for (const load of LOADS) {
        let before = 0;
        for (const scale of [1, 1.01, 1.5, 3, 3.1, 10, 30]) {
          const value = scale * BASE[load];
          const now = evaluate(instances, { [load]: value })["read_latency"] ?? 0;
          expect(now, `${load} times ${scale}`).toBeGreaterThanOrEqual(before * (1 - HAIR));
          before = now;
        }
      }
    });

    test(`${name}: what is larger never has fewer transistors in any part`, () => {
      for (const size of SIZES) {
        let before: Readonly<Record<string, number>> = {};
        for (const scale of [1, 2, 4, 16]) {
          // A wider word at the same capacity has a shorter address: so the capacity grows with it.
          const capacity = 2 ** 20 * (size === "word" ? scale : 1);
          const larger = { [size]: scale * BASE[size], capacity, spare_rows: 4 };
          const now = evaluate(instances, larger);
          for (const { prefix } of partsFor(structure)) {
            const quantity = `${prefix}transistors`;
            expect(now[quantity], `${quantity}, ${size} times ${scale}`).toBeGreaterThanOrEqual(
              before[quantity] ?? 0,
            );
          }
          before = now;
        }
      }
    });
  }
});

const BASE = {
  row_capacitance: 200e-15,
  column_capacitance: 80e-15,
  row_line_delay: 20e-12,
  macro_side: 1e-3,
  write_current: 100e-6,
  rows: 256,
  word: 32,
  sense_amplifiers: 32,
};

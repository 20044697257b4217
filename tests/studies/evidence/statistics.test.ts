import { describe, expect, test } from "vitest";
import { RandomStream } from "../../../src/numerics/sampling/random.ts";
import { normalQuantile } from "../../../src/numerics/special/normal.ts";
import type { Compared } from "../../../src/studies/evidence/compare.ts";
import { quantityError, sampleOf } from "../../../src/studies/evidence/sample.ts";
import {
  heldByOthers,
  modelErrors,
  summaries,
  verdicts,
} from "../../../src/studies/evidence/summary.ts";
import { errorBasis, modelInterval, ratioInterval } from "../../../src/studies/model-error.ts";

const row = (ratio: number, more: Partial<Compared> = {}): Compared => ({
  chip: "one",
  kind: "static",
  quantity: "macro_area",
  predicted: ratio,
  measured: 1,
  ratio,
  recalled: false,
  capacity: 1,
  ...more,
});
const rowsOf = (logs: readonly number[], more: Partial<Compared> = {}) =>
  logs.map((log) => row(Math.exp(log), more));
const basisOf = (rows: readonly Compared[], kind = "static", coverage = 0.95) =>
  errorBasis(modelErrors(rows), "macro_area", kind, coverage)!;

describe("a sample of ratios", () => {
  test("that are equal has their value for median and no spread", () => {
    const { median, spread } = sampleOf([row(2), row(2), row(2)]);
    expect(median).toBeCloseTo(2, 12);
    expect(spread).toBeCloseTo(0, 12);
  });

  test("weighs a recalled figure half of one that was read", () => {
    const recalled = { recalled: true };
    const rows = [row(1), row(1), row(4, recalled), row(4, recalled), row(4, recalled)];
    expect(sampleOf(rows).median).toBeCloseTo(1, 12);
    // (1 + 1 + 3/2)² / (1 + 1 + 3/4)
    expect(sampleOf(rows).effective).toBeCloseTo(3.5 ** 2 / 2.75, 12);
  });

  test("takes the mean of the two in the middle where half of the weight lies on each side", () => {
    expect(sampleOf([row(1), row(Math.E ** 2)]).median).toBeCloseTo(Math.E, 12);
  });

  test("of two gives no spread, and so no model error", () => {
    expect(sampleOf([row(1), row(2)]).spread).toBeUndefined();
    expect(errorBasis(modelErrors([row(1), row(2)]), "macro_area", "static", 0.95)).toBeUndefined();
  });
});

describe("the factor of a further chip", () => {
  // Student's two-sided 95 % points, tables of any handbook of statistics.
  test.each([
    [3, 4.303],
    [5, 2.776],
    [11, 2.228],
    [21, 2.086],
  ])(
    "is the prediction interval of a normal sample: t(n − 1) s √(1 + 1/n), for %i chips",
    (n, t) => {
      // Symmetric about zero, so that median and mean agree.
      const logs = Array.from({ length: n }, (_, i) => (i - (n - 1) / 2) / 10);
      const s = Math.sqrt(logs.reduce((sum, x) => sum + x * x, 0) / (n - 1));
      const { factor } = basisOf(rowsOf(logs));
      expect(Math.log(factor) / (t * s * Math.sqrt(1 + 1 / n))).toBeCloseTo(1, 3);
    },
  );

  test("holds at least the share of further chips that it says, for eight of them", () => {
    // 4000 samples of a normal distribution with bias 0.3 and spread 0.5; seeded.
    const draws = new Float64Array(4000 * 9);
    new RandomStream(1, "further chips").fill(draws);
    let held = 0;
    for (let i = 0; i < 4000; i++) {
      const logs = [...draws.subarray(9 * i, 9 * i + 9)].map((u) => 0.3 + 0.5 * normalQuantile(u));
      const measured = Math.exp(-logs[8]!);
      const { low, high } = modelInterval(1, "macro_area", basisOf(rowsOf(logs.slice(0, 8))));
      if (measured >= low && measured <= high) held++;
    }
    // A median scatters more than a mean: a little less than 95 % would be held by its spread alone.
    expect(held / 4000).toBeGreaterThan(0.94);
    expect(held / 4000).toBeLessThan(0.97);
  });

  test("is not given where the chips are so far apart that a further one may be anywhere", () => {
    const errors = modelErrors(rowsOf([-5, 0, 5]));
    expect(errorBasis(errors, "macro_area", "static", 0.95)).toBeUndefined();
  });

  test("grows with the coverage that is asked for", () => {
    const rows = rowsOf([-0.2, -0.1, 0, 0.1, 0.2]);
    expect(basisOf(rows, "static", 0.99).factor).toBeGreaterThan(basisOf(rows).factor);
  });
});

describe("a kind of memory", () => {
  const five = rowsOf([0.9, 1, 1, 1, 1.1], { kind: "magnetic" });
  const four = rowsOf([-0.1, 0, 0, 0.1], { kind: "static" });

  test("takes the error of its own chips from five on, else of all", () => {
    const rows = [...five, ...four];
    const magnetic = basisOf(rows, "magnetic");
    expect([magnetic.pooled, magnetic.chips, magnetic.own]).toEqual([false, 5, 5]);
    expect(Math.log(magnetic.median)).toBeCloseTo(1, 12);
    const others = basisOf(rows, "static");
    expect([others.pooled, others.chips, others.own]).toEqual([true, 9, 4]);
    expect(basisOf(rows, "dynamic").own).toBe(0);
  });

  test("whose cells are given has no error of their area", () => {
    const rows = rowsOf([-0.1, 0, 0, 0, 0.1], { quantity: "cell_area", kind: "resistive" });
    const errors = modelErrors(rows);
    expect(errorBasis(errors, "cell_area", "resistive", 0.95)).toBeDefined();
    expect(errorBasis(errors, "cell_area", "static", 0.95)).toBeUndefined();
  });
});

describe("a model interval", () => {
  test("is value / (median × factor^±1), so that the bias lies in it and nothing is corrected", () => {
    const basis = { ...basisOf(rowsOf([-1, 0, 0, 0, 1])), median: 2, factor: 3 };
    expect(modelInterval(12, "macro_area", basis)).toEqual({ low: 2, high: 18 });
  });

  test("of a share ends at one", () => {
    const basis = { ...basisOf(rowsOf([-1, 0, 0, 0, 1])), median: 1, factor: 2 };
    expect(modelInterval(0.7, "array_efficiency", basis)).toEqual({ low: 0.35, high: 1 });
  });

  test("of a ratio is narrower where kinds are the same and differ among each other", () => {
    const rows = [
      ...rowsOf([1, 1.1, 1.2, 0.9], { kind: "magnetic" }),
      ...rowsOf([-0.9, -1.1, -1, -1.2], { kind: "static" }),
    ];
    const errors = modelErrors(rows);
    const [magnetic, fixed] = ["magnetic", "static"].map((kind) => basisOf(rows, kind));
    const same = ratioInterval(1, errors, "macro_area", [magnetic!, magnetic!], 0.95);
    const other = ratioInterval(1, errors, "macro_area", [magnetic!, fixed!], 0.95);
    expect(Math.log(same.high)).toBeLessThan(Math.log(other.high) / 4);
    expect(same.low * same.high).toBeCloseTo(1, 12);
  });

  test("of a ratio of one kind is that of two independent chips: t s √2, the median cancelled", () => {
    const rows = rowsOf([0.9, 1, 1, 1, 1.1], { kind: "magnetic" });
    const basis = basisOf(rows, "magnetic");
    const { low, high } = ratioInterval(5, modelErrors(rows), "macro_area", [basis, basis], 0.95);
    expect(Math.sqrt(low * high)).toBeCloseTo(5, 12);
    // Student's t for 4 degrees of freedom; s² = 0.02 / 4.
    expect(Math.log(high / 5) / (2.776 * Math.sqrt((2 * 0.02) / 4))).toBeCloseTo(1, 3);
  });

  test("of a ratio of two kinds with samples of their own contains the bias of each", () => {
    const rows = [
      ...rowsOf([0.9, 1, 1, 1, 1.1], { kind: "magnetic" }),
      ...rowsOf([-0.1, 0, 0, 0, 0.1], { kind: "static" }),
    ];
    const errors = modelErrors(rows);
    const pair = [basisOf(rows, "magnetic"), basisOf(rows, "static")] as const;
    const { low, high } = ratioInterval(1, errors, "macro_area", pair, 0.95);
    // Predictions of magnetic ones are e times too large.
    expect(Math.sqrt(low * high)).toBeCloseTo(1 / Math.E, 12);
    // Equal variances, 4 degrees of freedom each: 8 in all, t = 2.306; s² (1 + 1/5) of either.
    const variance = (0.02 / 4) * 1.2;
    expect(Math.log(high / low) / 2 / (2.306 * Math.sqrt(2 * variance))).toBeCloseTo(1, 3);
  });
});

test("the spread within kinds is that of a one-way analysis of variance", () => {
  // NIST Statistical Reference Datasets, analysis of variance, SiRstv (average difficulty): resistivity of
  // silicon by five instruments; certified within-instrument mean square with 20 degrees of freedom.
  const instruments = [
    [196.3052, 196.124, 196.189, 196.2569, 196.3403],
    [196.3042, 196.3825, 196.1669, 196.3257, 196.0422],
    [196.1303, 196.2005, 196.2889, 196.0343, 196.1811],
    [196.2795, 196.1748, 196.1494, 196.1485, 195.9885],
    [196.2119, 196.1051, 196.185, 196.0052, 196.209],
  ];
  const rows = instruments.flatMap((values, i) => rowsOf(values, { kind: `instrument-${i}` }));
  const { within } = quantityError(rows);
  expect(within!.freedom).toBeCloseTo(20, 12);
  expect(within!.spread ** 2 / 1.0831828e-2).toBeCloseTo(1, 9);
});

describe("bounds", () => {
  test("are tested from eight chips on, and fail where the median is off", () => {
    const holds = (ratio: number, count: number) =>
      verdicts(Array.from({ length: count }, () => row(ratio)))[0]!.holds;
    expect(holds(1, 7)).toBeUndefined();
    expect(holds(1, 8)).toBe(true);
    expect(holds(1.3, 8)).toBe(false);
    expect(holds(1 / 1.3, 8)).toBe(false);
  });

  test("fail where fewer than 80 % of the chips are near, though the median is right", () => {
    const far = (count: number) =>
      verdicts(Array.from({ length: 10 }, (_, i) => row(i < count ? 1.7 : 1)))[0]!.holds;
    expect(far(2)).toBe(true);
    expect(far(3)).toBe(false);
  });

  test("and samples of read latencies leave out parts above 64 Mibit", () => {
    const latency = (ratio: number, capacity: number) =>
      row(ratio, { quantity: "read_latency", capacity });
    const rows = [latency(1, 2 ** 26), latency(100, 2 ** 26 + 1)];
    expect(verdicts(rows)[0]!.chips).toBe(1);
    expect(modelErrors(rows)["read_latency"]!.all.chips).toBe(1);
    expect(summaries(rows)[0]!.worst).toBe(1);
  });
});

test("each figure is asked of the interval that the others alone give", () => {
  const near = rowsOf([-0.1, -0.05, 0, 0.05, 0.1]);
  expect(heldByOthers(near)).toEqual([{ quantity: "macro_area", figures: 5, held: 5 }]);
  // The outlier is not held by the others; the others are held by the wide interval that it makes.
  expect(heldByOthers([...near, row(5)])).toEqual([
    { quantity: "macro_area", figures: 6, held: 5 },
  ]);
});

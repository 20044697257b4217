import { describe, expect, it } from "vitest";
import { CONSTANTS } from "../../src/quantities/constants.ts";
import { quantileFunction, quantileOf, type Spread } from "../../src/quantities/distribution.ts";
import { momentsOf } from "../../src/quantities/moments.ts";

const skewed = { value: 6e3, low: 1e3, high: 20e3 };
const kinds: Spread[] = [
  { ...skewed, distribution: "exact" },
  { ...skewed, distribution: "two-piece lognormal" },
  { ...skewed, distribution: "two-piece normal" },
  { ...skewed, distribution: "normal", sigma: 500 },
  { ...skewed, distribution: "lognormal", sigma: 0.4 },
  { ...skewed, distribution: "rectangular" },
  { ...skewed, distribution: "triangular" },
  { ...skewed, distribution: "two-point" },
  { ...skewed, distribution: "measured", samples: [3e3, 1e3, 9e3, 4e3] },
];

describe("distributions", () => {
  it.each(["two-piece lognormal", "two-piece normal"] as const)(
    "a %s has its median at the value and its 2.5 %% and 97.5 %% points at low and high",
    (distribution) => {
      const inverse = quantileFunction({ ...skewed, distribution });
      expect(inverse(0.5)).toBe(6e3);
      expect(inverse(0.025) / 1e3).toBeCloseTo(1, 12);
      expect(inverse(0.975) / 20e3).toBeCloseTo(1, 12);
    },
  );

  // Abramowitz and Stegun, table 26.1: P(1) = 0.841344746068543, P(2) = 0.977249868051821.
  it("a normal distribution has the tabulated points", () => {
    const p: Spread = { value: 10, low: 0, high: 0, sigma: 3, distribution: "normal" };
    expect(quantileOf(p, 0.841344746068543)).toBeCloseTo(13, 11);
    expect(quantileOf(p, 0.977249868051821)).toBeCloseTo(16, 11);
    expect(quantileOf(p, 1 - 0.841344746068543)).toBeCloseTo(7, 11);
  });

  it.each(kinds)("$distribution never decreases", (p) => {
    const inverse = quantileFunction(p);
    let last = Number.NEGATIVE_INFINITY;
    for (let i = 1; i < 1000; i++) {
      const x = inverse(i / 1000);
      expect(x).toBeGreaterThanOrEqual(last);
      last = x;
    }
  });

  // The moments in closed form against the midpoint rule over the inverse distribution function:
  // independent of them. The rule's error is that of the cut tails, below 1e-4 for the widest
  // lognormal half here (sigma 0.91).
  it.each(kinds)("$distribution has the mean and deviation that its quantiles give", (p) => {
    const inverse = quantileFunction(p);
    const points = 400_000;
    let sum = 0;
    let squares = 0;
    for (let i = 0; i < points; i++) {
      const x = inverse((i + 0.5) / points);
      sum += x;
      squares += x * x;
    }
    const mean = sum / points;
    const { mean: closedMean, deviation } = momentsOf(p);
    expect(Math.abs(closedMean / mean - 1)).toBeLessThan(1e-5);
    const numeric = Math.sqrt(Math.max(0, squares / points - mean * mean));
    expect(Math.abs(deviation - numeric)).toBeLessThan(3e-4 * Math.max(numeric, 1e-3 * mean));
  });

  it("measured samples are each drawn equally often", () => {
    const inverse = quantileFunction(kinds.at(-1)!);
    expect([0.1, 0.3, 0.6, 0.9].map(inverse)).toEqual([1e3, 3e3, 4e3, 9e3]);
  });

  it("a probability of 0 or 1 is a bug of the caller", () => {
    expect(() => quantileOf(kinds[1]!, 0)).toThrow(RangeError);
    expect(() => quantileOf(kinds[1]!, 1)).toThrow(RangeError);
  });
});

describe("constants", () => {
  // 2018 CODATA values (Rev. Mod. Phys. 93, 025010): the later adjustment moved both by less than
  // five of its standard uncertainties. A slip of a digit would show.
  it.each([
    ["vacuum_permittivity", 8.8541878128e-12],
    ["electron_mass", 9.1093837015e-31],
  ] as const)("%s agrees with the earlier adjustment", (name, earlier) => {
    const { value, uncertainty } = CONSTANTS[name];
    expect(Math.abs(value - earlier)).toBeLessThan(5 * uncertainty);
  });

  // CODATA prints 1.054 571 817... × 10^-34 J s, cut and not rounded.
  it("the reduced Planck constant has the printed digits", () => {
    const { value } = CONSTANTS.reduced_planck_constant;
    expect(Math.floor(value * 1e43)).toBe(1054571817);
  });
});

import { describe, expect, it } from "vitest";
import { sorted } from "../../src/numerics/quantile.ts";
import { RandomStream } from "../../src/numerics/sampling/random.ts";
import { SobolSequence } from "../../src/numerics/sampling/sobol.ts";
import { normalCumulative, normalDensity } from "../../src/numerics/special/normal.ts";
import { cumulativeFunction } from "../../src/quantities/cumulative.ts";
import { quantileFunction, type Spread } from "../../src/quantities/distribution.ts";
import { momentsOf } from "../../src/quantities/moments.ts";
import { kolmogorovDistance, kolmogorovTail } from "../numerics/sampling/kolmogorov.ts";

const skewed = { value: 6e3, low: 1e3, high: 20e3 };
const smooth: Spread[] = [
  { ...skewed, distribution: "two-piece lognormal" },
  { ...skewed, distribution: "two-piece normal" },
  { ...skewed, distribution: "normal", sigma: 500 },
  { ...skewed, distribution: "lognormal", sigma: 0.4 },
  { ...skewed, distribution: "rectangular" },
  { ...skewed, distribution: "triangular" },
];
const cut: Spread[] = smooth.map((p) => ({ ...p, least: 5.4e3, most: 7e3 }));
const samples = [3e3, 1e3, 9e3, 4e3, 4e3];
const stepped: Spread[] = [
  { ...skewed, distribution: "two-point" },
  { ...skewed, distribution: "measured", samples },
];

/** Of the part between the cuts. */
function cumulativeOfCut(p: Spread): (x: number) => number {
  const { below } = cumulativeFunction(p);
  const from = p.least === undefined ? 0 : below(p.least);
  const to = p.most === undefined ? 1 : below(p.most);
  return (x) => (below(x) - from) / (to - from);
}

describe("the distribution function", () => {
  it.each([...smooth, ...cut])("of $distribution undoes its inverse (least $least)", (p) => {
    const inverse = quantileFunction(p);
    const cumulative = cumulativeOfCut(p);
    for (const u of [1e-6, 0.01, 0.25, 0.499, 0.5, 0.75, 0.99, 1 - 1e-6]) {
      expect(Math.abs(cumulative(inverse(u)) - u)).toBeLessThan(1e-11);
    }
  });

  it.each(stepped)("of $distribution jumps where its values are", (p) => {
    const { below, upTo } = cumulativeFunction(p);
    expect(below(1e3)).toBe(0);
    expect(upTo(1e3)).toBeCloseTo(p.distribution === "measured" ? 0.2 : 14 / 19, 14);
    expect(upTo(20e3)).toBeCloseTo(1, 14);
    if (p.distribution === "measured") expect(upTo(4e3) - below(4e3)).toBeCloseTo(0.4, 14);
  });
});

describe("draws", () => {
  // Seeds are fixed; a probability below 1e-4 would be a wrong distribution, not bad luck.
  it.each([...smooth, ...cut])(
    "of $distribution pass the Kolmogorov-Smirnov test (least $least)",
    (p) => {
      const n = 20_000;
      const uniform = new Float64Array(n);
      new RandomStream(1, p.distribution).fill(uniform);
      const drawn = sorted(uniform.map(quantileFunction(p)));
      const distance = kolmogorovDistance(drawn, cumulativeOfCut(p));
      expect(kolmogorovTail(Math.sqrt(n) * distance)).toBeGreaterThan(1e-4);
      // The same draws fail for a distribution that is shifted by a tenth of its deviation.
      const shift = momentsOf(p).deviation / 10;
      const wrong = kolmogorovDistance(drawn, (x) => cumulativeOfCut(p)(x - shift));
      expect(kolmogorovTail(Math.sqrt(n) * wrong)).toBeLessThan(1e-4);
    },
  );

  it("of a measured list come equally often, as often as a value stands in it", () => {
    const inverse = quantileFunction(stepped[1]!);
    const counts = new Map<number, number>();
    const sequence = new SobolSequence(1, { seed: 3 });
    const point = new Float64Array(1);
    for (let i = 0; i < 2 ** 14; i++) {
      sequence.next(point);
      const x = inverse(point[0]!);
      counts.set(x, (counts.get(x) ?? 0) + 1);
    }
    for (const [x, count] of counts) {
      expect(Math.abs(count / 2 ** 14 - (x === 4e3 ? 0.4 : 0.2))).toBeLessThan(1e-3);
    }
  });

  it("of a cut distribution never lie outside of the cuts, even at its ends", () => {
    for (const p of cut) {
      const inverse = quantileFunction(p);
      expect(inverse(2 ** -53)).toBeGreaterThanOrEqual(5.4e3);
      expect(inverse(1 - 2 ** -53)).toBeLessThanOrEqual(7e3);
    }
    const far: Spread = { ...skewed, distribution: "normal", sigma: 500, least: 4e3 };
    expect(quantileFunction(far)(1 - 2 ** -53)).toBeLessThan(6e3 + 9 * 500);
  });
});

// "Continuous univariate distributions", volume 1, Wiley 1994, section 13.10.1 (from memory): the
// normal distribution between a and b has mean m + s (f(a) - f(b)) / Z and variance
// s^2 (1 + (a f(a) - b f(b)) / Z - ((f(a) - f(b)) / Z)^2), with a, b in standard deviations.
it("a cut normal distribution has the mean and deviation of the closed form", () => {
  const p: Spread = { ...skewed, distribution: "normal", sigma: 500, least: 5.5e3, most: 7.2e3 };
  const [a, b] = [-1, 2.4];
  const z = normalCumulative(b) - normalCumulative(a);
  const shift = (normalDensity(a) - normalDensity(b)) / z;
  const spread = 1 + (a * normalDensity(a) - b * normalDensity(b)) / z - shift ** 2;
  const { mean, deviation } = momentsOf(p);
  expect(Math.abs(mean / (6e3 + 500 * shift) - 1)).toBeLessThan(1e-12);
  expect(Math.abs(deviation / (500 * Math.sqrt(spread)) - 1)).toBeLessThan(1e-10);
});

import { describe, expect, test } from "vitest";
import { sorted } from "../../../src/numerics/quantile.ts";
import { normalQuantile } from "../../../src/numerics/special/normal.ts";
import { meanOf, varianceOf } from "../../../src/numerics/sum.ts";
import type { Parameter } from "../../../src/quantities/parameter.ts";
import type { UncertainModel } from "../../../src/studies/uncertainty/model.ts";
import { propagateDistributions } from "../../../src/studies/uncertainty/propagate.ts";
import { sensitivityOf } from "../../../src/studies/uncertainty/sensitivity.ts";
import { ParameterSpace, UniformBatches } from "../../../src/studies/uncertainty/space.ts";
import { whatMustImprove } from "../../../src/studies/uncertainty/target.ts";
import { tornadoes } from "../../../src/studies/uncertainty/tornado.ts";

function parameter(name: string, value: number, more: Partial<Parameter>): Parameter {
  const base = { name, unit: "1", value, low: value, high: value, source: "test", key: name };
  return { ...base, basis: "invented", distribution: "exact", ...more };
}
const normal = (name: string, value: number, sigma: number) =>
  parameter(name, value, { distribution: "normal", sigma });
const lognormal = (name: string, value: number, sigma: number) =>
  parameter(name, value, { distribution: "lognormal", sigma });

/** A model of one quantity by a function of one set. */
function model(parameters: Parameter[], f: (x: readonly number[]) => number): UncertainModel {
  return {
    parameters,
    quantities: ["y"],
    evaluate(inputs, count, [output]) {
      for (let i = 0; i < count; i++) output![i] = f(inputs.map((column) => column[i]!));
    },
  };
}

const settings = { seed: 1, coverage: 0.95, most: 262_144 };
const Z = normalQuantile(0.975);

describe("propagation", () => {
  // y = 2 a - 3 b + 0.5 c of normal parameters is normal: mean and variance add.
  const sum = model(
    [normal("a", 1, 1), normal("b", 2, 0.5), normal("c", 4, 2)],
    ([a, b, c]) => 2 * a! - 3 * b! + 0.5 * c!,
  );
  const deviation = Math.sqrt(4 + 2.25 + 1);

  test.each(["low-discrepancy", "pseudo-random"] as const)(
    "of a linear model agrees with the closed form to two digits of u (%s)",
    (sampling) => {
      const { quantities, draws } = propagateDistributions(sum, { ...settings, sampling });
      const [y] = quantities;
      expect(y!.stable).toBe(true);
      // 7.9.4 of the guide: each result lies within the tolerance with 95 % confidence; twice that is asked.
      for (const [got, exact] of [
        [y!.mean, -2],
        [y!.uncertainty, deviation],
        [y!.interval.low, -2 - Z * deviation],
        [y!.interval.high, -2 + Z * deviation],
      ] as const) {
        expect(Math.abs(got - exact)).toBeLessThan(2 * y!.tolerance);
      }
      // Two batches are the least that say anything of stability.
      expect(draws).toBeLessThan(sampling === "low-discrepancy" ? 65_537 : 262_145);
    },
  );

  // ln y = 2 ln a + ln b - ln c is normal.
  test("of a lognormal product has the closed form's quantiles on the logarithmic scale", () => {
    const product = model(
      [lognormal("a", 3, 0.3), lognormal("b", 5, 0.1), lognormal("c", 2, 0.2)],
      ([a, b, c]) => (a! ** 2 * b!) / c!,
    );
    const options = { ...settings, scale: "logarithmic" } as const;
    const [y] = propagateDistributions(product, options).quantities;
    const s = Math.sqrt(0.36 + 0.01 + 0.04);
    expect(y!.scale).toBe("logarithmic");
    expect(y!.stable).toBe(true);
    expect(Math.abs(Math.log(y!.interval.low / 22.5) + Z * s)).toBeLessThan(2 * y!.tolerance);
    expect(Math.abs(Math.log(y!.interval.high / 22.5) - Z * s)).toBeLessThan(2 * y!.tolerance);
    expect(Math.abs(Math.log(y!.median / 22.5))).toBeLessThan(1e-3);
  });

  // ln y is normal: of all intervals from the quantile p to that at p + 0.95 the shortest is sought.
  test("of a lognormal has the shortest interval of the quantity, not of its logarithm", () => {
    const one = model([lognormal("a", 1, 0.6)], ([a]) => a!);
    const options = { ...settings, interval: "shortest", scale: "logarithmic" } as const;
    const [y] = propagateDistributions(one, options).quantities;
    const end = (p: number) => Math.exp(0.6 * normalQuantile(p));
    const lengths = Array.from(
      { length: 4999 },
      (_, i) => end((i + 1) / 1e5 + 0.95) - end((i + 1) / 1e5),
    );
    const shortest = Math.min(...lengths);
    const { low, high } = y!.interval;
    expect(Math.abs((high - low) / shortest - 1)).toBeLessThan(3e-3);
    expect(end(0.975) - end(0.025)).toBeGreaterThan(1.1 * shortest);
  });

  test("leaves out the draws that have no answer, and tells their share", () => {
    const half = model([normal("a", 0, 1)], ([a]) => (a! > 0 ? a! : Number.NaN));
    const { quantities, failed } = propagateDistributions(half, settings);
    expect(failed).toBeCloseTo(0.5, 3);
    // The mean of the positive half of a standard normal is sqrt(2 / pi).
    expect(quantities[0]!.mean).toBeCloseTo(Math.sqrt(2 / Math.PI), 3);
  });

  test("refuses a model that hardly ever has an answer", () => {
    const never = model([normal("a", 0, 1)], () => Number.NaN);
    expect(() => propagateDistributions(never, settings)).toThrow(/hardly ever works/);
  });
});

describe("correlated parameters", () => {
  const pair = [
    lognormal("a", 1, 0.5),
    parameter("b", 2, { low: 0, high: 4, distribution: "rectangular" }),
  ];

  test.each([-0.8, 0.3, 0.95])(
    "have the stated rank correlation %d and keep their distributions",
    (rank) => {
      const space = new ParameterSpace(pair, [{ first: 0, second: 1, rank }]);
      const count = 2 ** 15;
      const uniform = new UniformBatches("low-discrepancy", 1, ["a", "b"]).points(0, 0, count);
      const [a, b] = space.values(uniform, count) as [Float64Array, Float64Array];
      const ranks = (values: Float64Array) => {
        const order = Array.from(values.keys()).sort((i, j) => values[i]! - values[j]!);
        const place = new Float64Array(count);
        order.forEach((i, r) => {
          place[i] = r;
        });
        return place;
      };
      const [x, y] = [ranks(a), ranks(b)];
      const half = (count - 1) / 2;
      const both = meanOf(x.map((r, i) => (r - half) * (y[i]! - half)));
      expect(Math.abs(both / ((count ** 2 - 1) / 12) - rank)).toBeLessThan(2e-3);
      expect(sorted(b)[count / 4]! / 1).toBeCloseTo(1, 2);
      expect(Math.log(sorted(a)[count / 2]!)).toBeCloseTo(0, 2);
    },
  );

  // Var(a + b) = s^2 + t^2 + 2 r s t with r = 2 sin(pi rank / 6) for normal parameters.
  test("of a sum add their covariance to its variance, and their indices are of both together", () => {
    const sum = model(
      [normal("a", 0, 1), normal("b", 0, 2), normal("c", 0, 1)],
      ([a, b, c]) => a! + b! + c!,
    );
    const correlations = [{ first: 0, second: 1, rank: 0.6 }];
    const r = 2 * Math.sin(Math.PI / 10);
    const variance = 1 + 4 + 4 * r + 1;
    const [y] = propagateDistributions(sum, { ...settings, correlations }).quantities;
    expect(Math.abs(y!.uncertainty - Math.sqrt(variance))).toBeLessThan(2 * y!.tolerance);
    const [swings] = tornadoes(sum);
    const found = sensitivityOf(sum, swings!.swings, { seed: 1, correlations, count: 1024 });
    expect(found.influences.map(({ parameters }) => parameters.map(({ name }) => name))).toEqual([
      ["a", "b"],
      ["c"],
    ]);
    const exact = (variance - 1) / variance;
    const { first, total } = found.influences[0]!;
    expect(first.low).toBeLessThan(exact);
    expect(first.high).toBeGreaterThan(exact);
    expect(Math.abs(total.value - exact)).toBeLessThan(0.02);
  });

  test("that contradict each other are refused", () => {
    const three = [...pair, normal("c", 0, 1)];
    const against = [
      { first: 0, second: 1, rank: 0.9 },
      { first: 1, second: 2, rank: 0.9 },
      { first: 0, second: 2, rank: -0.9 },
    ];
    expect(() => new ParameterSpace(three, against)).toThrow(/impossible-correlation/);
  });
});

// "Sensitivity analysis for importance assessment", Risk Analysis 22 (2002) 579, and many others:
// y = sin a + 7 sin^2 b + 0.1 c^4 sin a with parameters uniform on (-pi, pi). First-order and total
// indices in closed form: 0.3139, 0.4424, 0 and 0.5576, 0.4424, 0.2437.
test("indices of the Ishigami function lie within their own intervals, the small ones together", () => {
  const angle = (name: string) =>
    parameter(name, 0, { low: -Math.PI, high: Math.PI, distribution: "rectangular" });
  const f = model(
    [angle("a"), angle("b"), angle("c")],
    ([a, b, c]) => Math.sin(a!) * (1 + 0.1 * c! ** 4) + 7 * Math.sin(b!) ** 2,
  );
  const options = { seed: 7, count: 2048, replicates: 16 };
  const all = sensitivityOf(f, [], options);
  const known = { a: [0.3139, 0.5576], b: [0.4424, 0.4424], c: [0, 0.2437] } as const;
  for (const { parameters, first, total } of all.influences) {
    const [s, t] = known[parameters[0]!.name as "a"];
    expect(Math.abs(first.value - s)).toBeLessThan(1.5 * (first.high - first.low));
    expect(Math.abs(total.value - t)).toBeLessThan(1.5 * (total.high - total.low));
    expect(total.high - total.low).toBeLessThan(0.02);
  }
  // a and c together carry all that b does not.
  const grouped = sensitivityOf(
    f,
    [{ parameter: f.parameters[1]!, from: 0, to: 1, atLow: 0, atHigh: 1 }],
    {
      ...options,
      shown: 1,
    },
  );
  expect(grouped.others).toBe(2);
  expect(grouped.influences[1]!.parameters).toEqual([]);
  expect(grouped.influences[1]!.first.value).toBeCloseTo(1 - 0.4424, 2);
});

test("points with a value that is no number are left out of all indices and counted", () => {
  const f = model([normal("a", 0, 1), normal("b", 0, 1)], ([a, b]) =>
    a! > 2.5 ? Number.NaN : a! + b!,
  );
  const { leftOut, influences } = sensitivityOf(f, [], { seed: 1, count: 1024 });
  expect(leftOut).toBeGreaterThan(0.005);
  expect(leftOut).toBeLessThan(0.03);
  expect(Number.isFinite(influences[0]!.total.value)).toBe(true);
});

test("a tornado has each parameter's own swing, the widest first, and leaves out what changes nothing", () => {
  const f = model(
    [normal("a", 1, 1), normal("b", 0, 3), normal("idle", 0, 1)],
    ([a, b]) => a! - 2 * b!,
  );
  const [{ nominal, swings }] = tornadoes(f) as [ReturnType<typeof tornadoes>[0]];
  expect(nominal).toBe(1);
  expect(swings.map(({ parameter: { name } }) => name)).toEqual(["b", "a"]);
  expect(swings[0]!.atLow).toBeCloseTo(1 + 6 * Z, 12);
  expect(swings[0]!.atHigh).toBeCloseTo(1 - 6 * Z, 12);
});

describe("what must improve", () => {
  const product = model([lognormal("a", 3, 0.3), lognormal("b", 5, 0.4)], ([a, b]) => a! * b!);
  const options = { seed: 1, confidence: 0.9, draws: 2 ** 14 };
  const [a, b] = product.parameters as [Parameter, Parameter];

  // a b <= T holds with confidence C at b = 5 exp(0.4 z_C) if a <= T / that; likewise for b.
  test("is the value at which a lognormal product meets its target, in closed form", () => {
    const { needed, share } = whatMustImprove(product, ([y], i) => y![i]! <= 12, [a, b], options);
    const z = normalQuantile(0.9);
    expect(Math.abs(needed[0]!.below! / (12 / (5 * Math.exp(0.4 * z))) - 1)).toBeLessThan(2e-3);
    expect(Math.abs(needed[1]!.below! / (12 / (3 * Math.exp(0.3 * z))) - 1)).toBeLessThan(2e-3);
    expect(needed[0]!.above).toBeUndefined();
    // P(ln y <= ln 12): the product's logarithm has the deviation 0.5.
    expect(share).toBeCloseTo(0.3277, 3);
  });

  test("is nothing where no value in reach is enough", () => {
    const { needed } = whatMustImprove(product, ([y], i) => y![i]! <= -1, [a], options);
    expect(needed[0]!.below).toBeUndefined();
    expect(needed[0]!.above).toBeUndefined();
  });
});

// Mean of a smooth product over five dimensions: the error of a scrambled net falls nearly as 1/n^1.5
// in the mean square ("Scrambled net variance for integrals of smooth functions", Annals of
// Statistics 25 (1997) 1541), that of random draws as 1/sqrt(n).
test("the low-discrepancy sampler converges faster than 1/n, random draws as 1/sqrt(n)", () => {
  const keys = ["a", "b", "c", "d", "e"];
  const order = (sampling: "low-discrepancy" | "pseudo-random"): number => {
    const error = (n: number): number => {
      const means = Array.from({ length: 24 }, (_, batch) => {
        const columns = new UniformBatches(sampling, 5, keys).points(batch, 0, n);
        const y = Float64Array.from({ length: n }, (_, i) =>
          columns.reduce((p, column) => p * (1 + (column[i]! - 0.5) / 2), 1),
        );
        return meanOf(y) - 1;
      });
      return Math.sqrt(varianceOf(means));
    };
    return Math.log2(error(2 ** 6) / error(2 ** 12)) / 6;
  };
  expect(order("low-discrepancy")).toBeGreaterThan(1.1);
  expect(order("pseudo-random")).toBeGreaterThan(0.35);
  expect(order("pseudo-random")).toBeLessThan(0.65);
});

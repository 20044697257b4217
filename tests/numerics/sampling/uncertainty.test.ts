/**
 * Sampling against exact answers. Tolerances are standard errors of the sample, with fixed seeds;
 * the exact values are those of `shared/checks/reliability-checks.yaml`.
 */
import { describe, expect, test } from "vitest";
import {
  adaptiveMonteCarlo,
  type ModelOfUnitCube,
  meanOf,
  normalQuantile,
  quantile,
  RandomStream,
  sensitivityIndices,
  sorted,
  studentTailQuantile,
  varianceOf,
} from "../../../src/numerics/index.ts";
import { LAWS } from "../../outside/reliability/sampling.ts";
import { massDeviation, sumOfUniformsTail } from "../../outside/reliability/supplement.ts";
import { kolmogorovDistance, kolmogorovTail } from "./kolmogorov.ts";

/** A model of one point, as a model of columns. */
function pointwise(f: (u: readonly number[]) => number): ModelOfUnitCube {
  return (inputs, count, output) => {
    for (let i = 0; i < count; i++) output[i] = f(inputs.map((column) => column[i]!));
  };
}

const SEED = 20261125;

/**
 * Standard errors of the same estimators with as many independent draws: the deviation of what is
 * averaged, linearised for the ratio to the variance, over the root of their number.
 */
function plainErrors(
  model: ModelOfUnitCube,
  parameters: number,
  count: number,
): { first: number[]; total: number[] } {
  const draw = (what: string): Float64Array[] =>
    Array.from({ length: parameters }, (_, k) => {
      const stream = new RandomStream(SEED, `${what} ${k}`);
      return Float64Array.from({ length: count }, (_, i) => stream.uniform(i));
    });
  const [a, b] = [draw("first set"), draw("second set")];
  const run = (inputs: readonly Float64Array[]): Float64Array => {
    const output = new Float64Array(count);
    model(inputs, count, output);
    return output;
  };
  const [ofA, ofB] = [run(a), run(b)];
  const mean = (meanOf(ofA) + meanOf(ofB)) / 2;
  const squares = ofA.map((f, i) => ((f - mean) ** 2 + (ofB[i]! - mean) ** 2) / 2);
  const variance = meanOf(squares);
  const error = (terms: Float64Array): number => {
    const index = meanOf(terms) / variance;
    return Math.sqrt(
      varianceOf(terms.map((term, i) => (term - index * squares[i]!) / variance)) / count,
    );
  };
  const mixed = a.map((_, k) => run(a.map((column, j) => (j === k ? b[j]! : column))));
  return {
    first: mixed.map((all) => error(all.map((f, i) => (ofB[i]! - mean) * (f - ofA[i]!)))),
    total: mixed.map((all) => error(all.map((f, i) => (f - ofA[i]!) ** 2 / 2))),
  };
}

describe("sensitivity indices", () => {
  const ishigami = pointwise((u) => {
    const [a, b, c] = u.map((v) => Math.PI * (2 * v - 1));
    return Math.sin(a!) + 7 * Math.sin(b!) ** 2 + 0.1 * c! ** 4 * Math.sin(a!);
  });
  // Ishigami function: 10.1109/ISUMA.1990.151285. g-function: 10.1016/0951-8320(95)00099-2.
  const ISHIGAMI = {
    first: [0.3139051911478115, 0.4424111447900408, 0],
    total: [0.5575888552099592, 0.4424111447900408, 0.2436836640621477],
  };
  const gFunction = pointwise((u) => {
    const a = [0, 1, 4.5, 9, 99, 99, 99, 99];
    return u.reduce((p, v, i) => (p * (Math.abs(4 * v - 2) + a[i]!)) / (1 + a[i]!), 1);
  });
  const G = {
    first: [0.7161921688790333, 0.1790480422197583, 0.02367577417781928, 0.007161921688790333],
    total: [0.787144126659275, 0.24219819281823846, 0.034316910154082836, 0.010460387065239534],
  };

  test("those of the Ishigami function lie in their 99.9 % intervals, narrower than of plain draws", () => {
    const found = sensitivityIndices(ishigami, 3, { seed: SEED, confidence: 0.999 });
    const plain = plainErrors(ishigami, 3, 16 * 1024);
    // Student's t of 16 replicates: the factor that the intervals are made with.
    const t = studentTailQuantile(0.0005, 15);
    for (const kind of ["first", "total"] as const) {
      found[kind].forEach((index, k) => {
        expect(index.low).toBeLessThanOrEqual(ISHIGAMI[kind][k]!);
        expect(index.high).toBeGreaterThanOrEqual(ISHIGAMI[kind][k]!);
        expect(index.high - index.low).toBeLessThan(2 * t * plain[kind][k]!);
      });
    }
    expect(found.mean.low).toBeLessThanOrEqual(3.5);
    expect(found.mean.high).toBeGreaterThanOrEqual(3.5);
    expect(found.variance.low).toBeLessThanOrEqual(13.844587940719256);
    expect(found.variance.high).toBeGreaterThanOrEqual(13.844587940719256);
    expect(found.evaluations).toBe(16 * 1024 * 5);
  });

  test("those of the g-function lie in their 99.9 % intervals, small ones included", () => {
    const found = sensitivityIndices(gFunction, 8, { seed: SEED, confidence: 0.999 });
    for (const kind of ["first", "total"] as const) {
      G[kind].forEach((want, k) => {
        expect(found[kind][k]!.low).toBeLessThanOrEqual(want);
        expect(found[kind][k]!.high).toBeGreaterThanOrEqual(want);
      });
    }
    // The smallest, 1.05e-4, is told from nothing at all.
    expect(found.total[7]!.low).toBeGreaterThan(0);
  });

  test("95 % intervals hold the truth in about 95 % of 200 seeds", () => {
    let inside = 0;
    for (let seed = 0; seed < 200; seed++) {
      const options = { seed, count: 64, replicates: 8 };
      const found = sensitivityIndices(ishigami, 3, options).total[1]!;
      if (found.low <= ISHIGAMI.total[1]! && found.high >= ISHIGAMI.total[1]!) inside++;
    }
    // Binomial spread of 200 trials at 0.95 is 3.1; five of them.
    expect(inside).toBeGreaterThan(190 - 16);
  });

  test("a linear model's first-order and total indices agree with its variances", () => {
    const linear = pointwise(([a, b, c]) => {
      return 2 * normalQuantile(a!) - 3 * b! + 0.5 * (10 + 4 * normalQuantile(c!));
    });
    const found = sensitivityIndices(linear, 3, { seed: SEED, confidence: 0.999 });
    [16 / 35, 3 / 35, 16 / 35].forEach((want, k) => {
      for (const kind of ["first", "total"] as const) {
        expect(found[kind][k]!.low).toBeLessThanOrEqual(want);
        expect(found[kind][k]!.high).toBeGreaterThanOrEqual(want);
      }
    });
  });

  test("more parameters than half of the dimensions are refused", () => {
    const constant = pointwise(() => 1);
    expect(() => sensitivityIndices(constant, 556, { seed: 1 })).toThrow(/too-many-dimensions/);
  });
});

describe("propagation of distributions", () => {
  const streams = [0, 1, 2, 3, 4].map((k) => new RandomStream(SEED, `input ${k}`));

  test("stops when two digits are stable, and then agrees with the exact mass calibration", () => {
    // JCGM 101:2008, 9.3: mean 1.234, u 0.0755, symmetric interval 1.0844 to 1.3836.
    const run = adaptiveMonteCarlo((start, count, [out]) => {
      for (let i = 0; i < count; i++) {
        const u = streams.map((s) => s.uniform(start + i));
        const x = [
          0.05 * normalQuantile(u[0]!),
          1.234 + 0.02 * normalQuantile(u[1]!),
          1.1 + 0.2 * u[2]!,
          7000 + 2000 * u[3]!,
          7950 + 100 * u[4]!,
        ];
        out![i] = massDeviation(x);
      }
    }, 1);
    const [mass] = run.outputs;
    expect(mass!.stable).toBe(true);
    expect(run.draws).toBeLessThan(1_000_000);
    expect(mass!.tolerance).toBe(0.0005);
    expect(Math.abs(mass!.mean - 1.234)).toBeLessThan(mass!.tolerance);
    expect(Math.abs(mass!.uncertainty - 0.0754797)).toBeLessThan(mass!.tolerance);
    expect(Math.abs(mass!.interval.low - 1.0844333)).toBeLessThan(2 * mass!.tolerance);
    expect(Math.abs(mass!.interval.high - 1.3835668)).toBeLessThan(2 * mass!.tolerance);
  });

  test("four unequal rectangles: half-width 17.0, not the 19.9 of the normal law", () => {
    // JCGM 101:2008, 9.2.4: exact 17.0158 and 10.1489.
    const draw = (start: number, count: number, [out]: readonly Float64Array[]): void => {
      for (let i = 0; i < count; i++) {
        const x = [1, 1, 1, 10].map((s, k) => s * (2 * streams[k]!.uniform(start + i) - 1));
        out![i] = Math.sqrt(3) * x.reduce((a, b) => a + b);
      }
    };
    const { outputs, draws } = adaptiveMonteCarlo(draw, 1, { digits: 3, most: 400_000 });
    const half = (outputs[0]!.interval.high - outputs[0]!.interval.low) / 2;
    const [exact, step] = [17.015814099866674, 1e-3];
    const parts = [1, 1, 1, 10].map((u) => u * Math.sqrt(3));
    const tail = (x: number) => sumOfUniformsTail(parts, x);
    expect(tail(exact)).toBeCloseTo(0.025, 12);
    const density = (tail(exact - step) - tail(exact + step)) / (2 * step);
    // Half the difference of two order statistics: variance p (1 - 2 p) / (2 M f^2).
    const error = Math.sqrt((0.025 * 0.95) / (2 * draws)) / density;
    expect(Math.abs(half - exact)).toBeLessThan(5 * error);
    // The answer of the normal law is far outside.
    expect(19.891461950583093 - exact).toBeGreaterThan(100 * error);
    // Of a deviation: u sqrt((kurtosis - 1) / (4 M)), the kurtosis by the fourth cumulants -6/5 s^4.
    const kurtosis = 3 - (6 / 5) * ((3 + 1e4) / 103 ** 2);
    const ofDeviation = Math.sqrt((103 * (kurtosis - 1)) / (4 * draws));
    expect(Math.abs(outputs[0]!.uncertainty - Math.sqrt(103))).toBeLessThan(5 * ofDeviation);
  });

  test("a loss that cannot be negative has a shortest interval that starts near zero", () => {
    // JCGM 101:2008, 9.4.2: x1 = 0, r = 0: exponential of mean 50e-6, interval 0 to 149.8e-6.
    const mean = 2 * 0.005 ** 2;
    const draw = (start: number, count: number, [out]: readonly Float64Array[]): void => {
      for (let i = 0; i < count; i++) {
        const a = normalQuantile(streams[0]!.uniform(start + i));
        const b = normalQuantile(streams[1]!.uniform(start + i));
        out![i] = 0.005 ** 2 * (a * a + b * b);
      }
    };
    const options = { interval: "shortest", digits: 3, most: 400_000 } as const;
    const { outputs, draws } = adaptiveMonteCarlo(draw, 1, options);
    expect(Math.abs(outputs[0]!.mean - mean)).toBeLessThan((5 * mean) / Math.sqrt(draws));
    // The density is 20 times less at the upper end: the interval starts at the n-th value with a
    // probability below 5.5^-n, and 30 values take more than 30 + 5 sqrt(30) mean spacings but once
    // in a million.
    expect(outputs[0]!.interval.low).toBeLessThan((60 * mean) / draws);
    const exact = mean * Math.log(20);
    expect(exact).toBeCloseTo(1.49786613677674e-4, 15);
    const error = Math.sqrt((0.95 * 0.05) / draws) / (0.05 / mean);
    expect(Math.abs(outputs[0]!.interval.high - exact)).toBeLessThan(5 * error);
    expect(5 * error).toBeLessThan(2e-6);
  });

  test("gives up at the allowed number of draws and says that it is not stable", () => {
    const draw = (start: number, count: number, [out]: readonly Float64Array[]): void => {
      for (let i = 0; i < count; i++) out![i] = 1 / streams[0]!.uniform(start + i);
    };
    const { outputs, draws } = adaptiveMonteCarlo(draw, 1, { most: 30_000 });
    expect(draws).toBe(30_000);
    expect(outputs[0]!.stable).toBe(false);
  });
});

describe("samples follow their distributions", () => {
  const draws = 100_000;
  const samplers: Record<string, (u: (k: number) => number) => number> = {
    "sum of two U(0,1)": (u) => u(0) + u(1),
    "product of two U(0,1)": (u) => u(0) * u(1),
    "ratio of two U(0,1)": (u) => u(0) / u(1),
    "square of N(0,1)": (u) => normalQuantile(u(0)) ** 2,
    "lognormal median 1 s 0.5": (u) => Math.exp(0.5 * normalQuantile(u(0))),
    "largest of ten U(0,1)": (u) => Math.max(...Array.from({ length: 10 }, (_, k) => u(k))),
  };
  const streams = Array.from({ length: 10 }, (_, k) => new RandomStream(SEED, `draw ${k}`));

  for (const [name, sample] of Object.entries(samplers)) {
    test(`${name}: percentiles within five standard errors, Kolmogorov-Smirnov above 1e-4`, () => {
      const values = Array.from({ length: draws }, (_, i) => sample((k) => streams[k]!.uniform(i)));
      const rising = sorted(values);
      const law = LAWS[name]!;
      for (const p of [0.025, 0.5, 0.975]) {
        const x = quantile(rising, p);
        const error = Math.sqrt((p * (1 - p)) / draws);
        expect(Math.abs(1 - law.above(x) - p)).toBeLessThan(5 * error);
      }
      const distance = kolmogorovDistance(rising, (x) => 1 - law.above(x));
      expect(kolmogorovTail(Math.sqrt(draws) * distance)).toBeGreaterThan(1e-4);
    });
  }

  test("a sample of another distribution is found out", () => {
    const rising = sorted(Array.from({ length: 2000 }, (_, i) => streams[0]!.uniform(i) ** 1.1));
    const distance = kolmogorovDistance(rising, (x) => x);
    expect(kolmogorovTail(Math.sqrt(2000) * distance)).toBeLessThan(1e-4);
  });
});

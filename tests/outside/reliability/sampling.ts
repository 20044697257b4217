import {
  integral,
  normalDensity,
  normalQuantile,
  normalTail,
  SobolSequence,
  solve,
} from "../../../src/numerics/index.ts";
import { kolmogorovTail } from "../../numerics/sampling/kolmogorov.ts";
import type { Answer, Case, Solver } from "./run.ts";

const G_A = [0, 1, 4.5, 9, 99, 99, 99, 99];

/** Indices of a product of independent factors from (standard deviation / mean)^2 of each. */
function productIndices(r: readonly number[], k: number): { first: number; total: number } {
  const all = r.reduce((p, v) => p * (1 + v), 1);
  return { first: r[k]! / (all - 1), total: (r[k]! * all) / (1 + r[k]!) / (all - 1) };
}

/** "S3" and "ST3" to the parameter's number from 0, and whether the total index is meant. */
function indexOf(name: string): { k: number; total: boolean } {
  return { k: Number(/\d+/.exec(name)![0]) - 1, total: name.startsWith("ST") };
}

function product(r: readonly number[], mean: number, name: string): number {
  if (name === "mean") return mean;
  const all = r.reduce((p, v) => p * (1 + v), 1);
  if (name === "variance") return mean * mean * (all - 1);
  const { k, total } = indexOf(name);
  return productIndices(r, k)[total ? "total" : "first"];
}

/** Moments of a factor by quadrature, from the halves on which it is smooth. */
function relativeVariance(f: (x: number) => number, breaks: readonly number[]): number {
  const mean = (g: (x: number) => number): number =>
    breaks.slice(1).reduce((sum, b, i) => sum + integral(g, breaks[i]!, b, 16), 0) /
    (breaks.at(-1)! - breaks[0]!);
  const m = mean(f);
  return mean((x) => (f(x) - m) ** 2) / (m * m);
}

function ishigami({ name }: Case): number {
  const mean = (f: (x: number) => number): number =>
    integral(f, -Math.PI, Math.PI, 40) / (2 * Math.PI);
  const variance = (f: (x: number) => number): number => mean((x) => (f(x) - mean(f)) ** 2);
  const tail = mean((x) => 1 + 0.1 * x ** 4);
  const first = variance((x) => tail * Math.sin(x));
  const second = variance((x) => 7 * Math.sin(x) ** 2);
  const both = variance(Math.sin) * mean((x) => (1 + 0.1 * x ** 4 - tail) ** 2);
  // sin x1 has mean zero, so that x1 and x3 together add E[sin^2] Var(1 + b x3^4).
  const all = first + second + both;
  const answers: Record<string, number> = {
    mean: mean((x) => 7 * Math.sin(x) ** 2),
    variance: all,
    S1: first / all,
    S2: second / all,
    S3: 0,
    S13: both / all,
    ST1: (first + both) / all,
    ST2: second / all,
    ST3: both / all,
  };
  return answers[name]!;
}

function linear({ name }: Case): number {
  const parts = [4, 9 / 12, 0.25 * 16];
  const all = parts.reduce((a, b) => a + b);
  if (name === "mean") return 2 * 0 - 3 * 0.5 + 0.5 * 10;
  return name === "variance" ? all : parts[indexOf(name).k]! / all;
}

function lognormal({ name }: Case): number {
  const t = [0.3 ** 2, (2 * 0.05) ** 2, 0.2 ** 2];
  const all = t.reduce((a, b) => a + b);
  const median = 2 * 9 * 5;
  if (name === "median") return median;
  if (name.startsWith("p")) {
    return median * Math.exp(normalQuantile(Number(name.slice(1)) / 100) * Math.sqrt(all));
  }
  const mean = median * Math.exp(all / 2);
  if (name === "standard_deviation") return mean * Math.sqrt(Math.expm1(all));
  if (name.endsWith("ln Y")) return t[indexOf(name).k]! / all;
  return product(t.map(Math.expm1), mean, name);
}

/** P(X > x), density, and the range of x, of each function that the table lists. */
interface Law {
  readonly above: (x: number) => number;
  readonly density: (x: number) => number;
  readonly range: readonly [number, number];
}

export const LAWS: Record<string, Law> = {
  "sum of two U(0,1)": {
    above: (x) => (x < 1 ? 1 - (x * x) / 2 : (2 - x) ** 2 / 2),
    density: (x) => (x < 1 ? x : 2 - x),
    range: [0, 2],
  },
  "product of two U(0,1)": {
    above: (x) => 1 - x + x * Math.log(x),
    density: (x) => -Math.log(x),
    range: [1e-6, 1 - 1e-9],
  },
  "ratio of two U(0,1)": {
    above: (x) => (x < 1 ? 1 - x / 2 : 0.5 / x),
    density: (x) => (x < 1 ? 0.5 : 0.5 / (x * x)),
    range: [1e-6, 1e6],
  },
  "square of N(0,1)": {
    above: (x) => 2 * normalTail(Math.sqrt(x)),
    density: (x) => normalDensity(Math.sqrt(x)) / Math.sqrt(x),
    range: [1e-9, 100],
  },
  "lognormal median 1 s 0.5": {
    above: (x) => normalTail(Math.log(x) / 0.5),
    density: (x) => normalDensity(Math.log(x) / 0.5) / (0.5 * x),
    range: [1e-3, 1e3],
  },
  "triangular 0 1 4": {
    above: (x) => (x < 1 ? 1 - (x * x) / 4 : (4 - x) ** 2 / 12),
    density: (x) => (x < 1 ? x / 2 : (4 - x) / 6),
    range: [0, 4],
  },
  "largest of ten U(0,1)": {
    above: (x) => 1 - x ** 10,
    density: (x) => 10 * x ** 9,
    range: [0.1, 1],
  },
};

function percentile({ name, at }: Case): number {
  const law = LAWS[name.replace(/^density /, "").replace(/ p=.*$/, "")]!;
  const p = at["p"]!;
  const x = solve((v) => law.above(v) - (1 - p), law.range[0], law.range[1]);
  return name.startsWith("density") ? law.density(x) : x;
}

function sobolPoint({ name }: Case): Answer {
  const sequence = new SobolSequence(6);
  sequence.seek(Number(name.split(" ")[1]));
  const point = new Float64Array(6);
  sequence.next(point);
  return Array.from(point);
}

export const SAMPLING: Record<string, Solver> = {
  "sens-ishigami": ishigami,
  "sens-g-function": ({ name }) => {
    const factor = (a: number) => (x: number) => (Math.abs(4 * x - 2) + a) / (1 + a);
    return product(
      G_A.map((a) => relativeVariance(factor(a), [0, 0.5, 1])),
      1,
      name,
    );
  },
  "sens-linear": linear,
  "sens-lognormal-product": lognormal,
  "sens-uniform-product": ({ name }) => {
    const ranges = [
      [1, 2],
      [0, 1],
      [5, 6],
    ];
    const r = ranges.map((range) => relativeVariance((x) => x, range));
    return product(r, 1.5 * 0.5 * 5.5, name);
  },
  "mc-percentiles": percentile,
  "mc-kolmogorov": ({ name }) => kolmogorovTail(Number(/\((.*)\)/.exec(name)![1])),
  "mc-sobol-points": sobolPoint,
};

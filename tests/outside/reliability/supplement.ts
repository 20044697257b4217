/** The worked examples of the supplement on propagation of distributions, by quadrature. */
import {
  gaussLegendre,
  integral,
  newton,
  normalMean,
  normalTail,
  normalTailQuantile,
  periodicMean,
  solve,
} from "../../../src/numerics/index.ts";
import { gradient, higherOrderVariance } from "../../numerics/sampling/first-order.ts";
import type { Case, Solver } from "./run.ts";

/** P(sum > x) for independent values uniform on (-a, a), by inclusion and exclusion. */
export function sumOfUniformsTail(a: readonly number[], x: number): number {
  let total = 0;
  for (let chosen = 0; chosen < 2 ** a.length; chosen++) {
    const signs = a.map((_, i): number => ((chosen >> i) & 1 ? -1 : 1));
    const place = a.reduce((sum, v, i) => sum + signs[i]! * v, -x);
    const sign = signs.reduce((p, s) => p * s, 1);
    total += sign * Math.max(0, place) ** a.length;
  }
  return a.reduce((value, v, i) => value / (2 * v * (i + 1)), total);
}

function additive({ name }: Case): number {
  const deviations = name.includes("unequal") ? [1, 1, 1, 10] : [1, 1, 1, 1];
  const u = Math.hypot(...deviations);
  if (name.startsWith("u ")) return u;
  if (name.includes("normal")) return u * normalTailQuantile(0.025);
  const half = deviations.map((d) => d * Math.sqrt(3));
  const reach = half.reduce((a, b) => a + b);
  return solve((x) => sumOfUniformsTail(half, x) - 0.025, 0, reach);
}

const NOMINAL = 1e5;

/** Deviation of a mass from its nominal value [mg]: reference beyond nominal, dm, air, densities. */
export function massDeviation([m, dm, air, w, r]: readonly number[]): number {
  const buoyancy = (air! - 1.2) * (1 / w! - 1 / r!);
  return NOMINAL * buoyancy + (m! + dm!) * (1 + buoyancy);
}

function massMoments() {
  const rule = gaussLegendre(20);
  const points: { weight: number; mean: number; deviation: number }[] = [];
  rule.nodes.forEach((a, i) => {
    rule.nodes.forEach((w, j) => {
      rule.nodes.forEach((r, k) => {
        const q = (a * 0.2 - 0.1) * (1 / (7000 + 2000 * w) - 1 / (7950 + 100 * r));
        const weight = rule.weights[i]! * rule.weights[j]! * rule.weights[k]!;
        const mean = NOMINAL * q + 1.234 * (1 + q);
        points.push({ weight, mean, deviation: Math.hypot(0.05, 0.02) * (1 + q) });
      });
    });
  });
  return points;
}

let mass: Record<string, number> | undefined;

function massCalibration({ name }: Case): number {
  mass ??= computeMass();
  return mass[name]!;
}

function computeMass(): Record<string, number> {
  const points = massMoments();
  const average = (f: (p: (typeof points)[number]) => number): number =>
    points.reduce((sum, p) => sum + p.weight * f(p), 0);
  const below = (y: number): number => average((p) => normalTail((p.mean - y) / p.deviation));
  const density = (y: number): number =>
    average((p) => Math.exp(-0.5 * ((y - p.mean) / p.deviation) ** 2) / p.deviation) /
    Math.sqrt(2 * Math.PI);
  const quantile = (share: number): number =>
    newton((y) => ({ value: below(y) - share, slope: density(y) }), 1.234, 0.5, 2, 1e-13);
  const mean = average((p) => p.mean);
  const variance = average((p) => (p.mean - mean) ** 2 + p.deviation ** 2);
  const low = solve((y) => density(y) - density(quantile(below(y) + 0.95)), 1.07, 1.095, {
    relative: 1e-9,
  });
  const x = [0, 1.234, 1.2, 8000, 8000];
  const u = [0.05, 0.02, 0.1 / Math.sqrt(3), 1000 / Math.sqrt(3), 50 / Math.sqrt(3)];
  const first = gradient(
    massDeviation,
    x,
    u.map((v) => v / 20),
  );
  const firstVariance = first.reduce((sum, c, i) => sum + (c * u[i]!) ** 2, 0);
  return {
    mean,
    u: Math.sqrt(variance),
    "low symmetric": quantile(0.025),
    "high symmetric": quantile(0.975),
    "low shortest": low,
    "high shortest": quantile(below(low) + 0.95),
    "u first order": Math.sqrt(firstVariance),
    "u higher order": Math.sqrt(firstVariance + higherOrderVariance(massDeviation, x, u)),
  };
}

const U = 0.005;
const losses = new Map<string, Record<string, number>>();

function reflection({ name, at }: Case): number {
  const key = `${at["x1"]} ${at["r"]}`;
  const found = losses.get(key) ?? computeLoss(at["x1"]!, at["r"]!);
  losses.set(key, found);
  return found[name.split(" ")[0]!]!;
}

/** Squared magnitude y of two correlated normal parts, in polar coordinates. */
function computeLoss(x1: number, r: number): Record<string, number> {
  const rest = Math.sqrt(1 - r * r);
  const moment = (power: number, centre: number): number =>
    normalMean((a) =>
      normalMean((b) => {
        return ((x1 + U * a) ** 2 + (U * (r * a + rest * b)) ** 2 - centre) ** power;
      }),
    );
  const mean = moment(1, 0);
  const density = (y: number): number =>
    Math.PI *
    periodicMean((angle) => {
      const p = (Math.sqrt(y) * Math.cos(angle) - x1) / U;
      const q = (Math.sqrt(y) * Math.sin(angle)) / U;
      const form = (p * p - 2 * r * p * q + q * q) / (2 * rest * rest);
      return Math.exp(-form) / (2 * Math.PI * U * U * rest);
    }, 1e-13);
  const top = (x1 + 8 * U) ** 2 + (8 * U) ** 2;
  const ahead = (low: number, share: number): number =>
    newton(
      (y) => ({ value: integral(density, low, y, 64) - share, slope: density(y) }),
      mean,
      low,
      top,
      1e-12,
    );
  const high = (low: number): number => ahead(low, 0.95);
  const excess = (low: number): number => density(low) - density(high(low));
  const low = excess(0) >= 0 ? 0 : solve(excess, 0, ahead(0, 0.0499), { relative: 1e-8 });
  return { mean, u: Math.sqrt(moment(2, mean)), low, high: high(low) };
}

export const SUPPLEMENT: Record<string, Solver> = {
  "unc-jcgm101-additive": additive,
  "unc-jcgm101-mass": massCalibration,
  "unc-jcgm101-loss": reflection,
};

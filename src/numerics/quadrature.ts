/** Integrals of smooth functions. */
import { fail } from "../errors/problem.ts";
import { cos } from "./special/elementary.ts";
import { normalDensity } from "./special/normal.ts";
import { CompensatedSum } from "./sum.ts";

export interface Rule {
  readonly nodes: Float64Array;
  readonly weights: Float64Array;
}

const rules = new Map<number, Rule>();

/** Gauss-Legendre nodes and weights on (0, 1): exact for polynomials of degree 2n - 1. */
export function gaussLegendre(n: number): Rule {
  const known = rules.get(n) ?? makeRule(n);
  rules.set(n, known);
  return known;
}

function makeRule(n: number): Rule {
  const nodes = new Float64Array(n);
  const weights = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let x = cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let step = 0; step < 100; step++) {
      const [value, derivative] = legendre(n, x);
      slope = derivative;
      const change = value / derivative;
      x -= change;
      if (Math.abs(change) < 1e-16) break;
    }
    slope = legendre(n, x)[1];
    nodes[n - 1 - i] = (1 + x) / 2;
    weights[n - 1 - i] = 1 / ((1 - x * x) * slope * slope);
  }
  return { nodes, weights };
}

/** The Legendre polynomial of degree n and its slope. */
function legendre(n: number, x: number): [number, number] {
  let before = 1;
  let here = x;
  for (let k = 2; k <= n; k++) {
    const next = ((2 * k - 1) * x * here - (k - 1) * before) / k;
    before = here;
    here = next;
  }
  return [here, (n * (x * here - before)) / (x * x - 1)];
}

/** The integral of f from a to b by a Gauss-Legendre rule of n points. */
export function integral(f: (x: number) => number, a: number, b: number, n = 64): number {
  const rule = gaussLegendre(n);
  const sum = new CompensatedSum();
  for (let i = 0; i < n; i++) sum.add(rule.weights[i]! * f(a + (b - a) * rule.nodes[i]!));
  return (b - a) * sum.value;
}

/**
 * The mean of f(g) over a standard normal g, right to `relative` also where it is tiny.
 *
 * The trapezoidal rule on the whole line converges exponentially for smooth integrands ("The
 * exponentially convergent trapezoidal rule", SIAM Review 56 (2014) 385-458,
 * doi 10.1137/130932132); the step is halved until two results agree.
 */
export function normalMean(f: (g: number) => number, relative = 1e-13): number {
  const reach = 38;
  let step = 0.5;
  let points = new CompensatedSum();
  for (let g = -reach; g <= reach; g += step) points.add(normalDensity(g) * f(g));
  let before = step * points.value;
  for (let halving = 0; halving < 14; halving++) {
    const middle = new CompensatedSum();
    middle.add(points.value);
    for (let g = -reach + step / 2; g < reach; g += step) middle.add(normalDensity(g) * f(g));
    points = middle;
    step /= 2;
    const now = step * points.value;
    if (halving > 1 && Math.abs(now - before) <= relative * Math.abs(now)) return now;
    before = now;
  }
  return fail({
    code: "integral-not-converged",
    what: "the mean over a normal spread did not settle",
    fix: "make the noise larger, or leave it out where it is negligible",
  });
}

/** The mean of a function of period 2 pi over its period. */
export function periodicMean(f: (angle: number) => number, relative = 1e-14): number {
  let count = 8;
  let sum = 0;
  for (let k = 0; k < count; k++) sum += f((2 * Math.PI * k) / count);
  for (let doubling = 0; doubling < 18; doubling++) {
    const before = sum / count;
    for (let k = 0; k < count; k++) sum += f((2 * Math.PI * (k + 0.5)) / count);
    count *= 2;
    if (Math.abs(sum / count - before) <= relative * Math.abs(before)) break;
  }
  return sum / count;
}

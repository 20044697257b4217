import {
  covarianceOf,
  meanOf,
  numericalTolerance,
  studentTailQuantile,
} from "../../../src/numerics/index.ts";
import {
  correlations,
  covarianceMatrix,
  effectiveDegrees,
  fitLine,
  gradient,
  HALF_WIDTH_DIVISORS,
  higherOrderVariance,
  propagate,
  trapezoidUncertainty,
} from "../../numerics/sampling/first-order.ts";
import type { Case, Solver } from "./run.ts";

/** Resistance, reactance and impedance from voltage, current and phase. */
const IMPEDANCE = [
  ([v, i, phi]: readonly number[]) => (v! / i!) * Math.cos(phi!),
  ([v, i, phi]: readonly number[]) => (v! / i!) * Math.sin(phi!),
  ([v, i]: readonly number[]) => v! / i!,
];

function impedance(means: number[], covariance: number[][], inputs: Record<string, number>) {
  const u = covariance.map((row, k) => Math.sqrt(row[k]!));
  const jacobian = IMPEDANCE.map((f) => gradient(f, means, u));
  const result = correlations(propagate(jacobian, covariance));
  const [r, x, z] = IMPEDANCE.map((f) => f(means));
  return {
    ...inputs,
    R: r!,
    X: x!,
    Z: z!,
    "u(R)": result.u[0]!,
    "u(X)": result.u[1]!,
    "u(Z)": result.u[2]!,
    "r(R,X)": result.r[0]![1]!,
    "r(R,Z)": result.r[0]![2]!,
    "r(X,Z)": result.r[1]![2]!,
  } as Record<string, number>;
}

/** From the raw readings; without correlations where the trap of the check is asked for. */
export function impedanceOfReadings(given: Case["inputs"], dropCorrelations = false) {
  const inputs = given as unknown as Record<string, { value: number[] }>;
  const series = ["V", "I", "phi"].map((name) => inputs[name]!.value);
  const covariance = series.map((a, i) =>
    series.map((b, j) => (dropCorrelations && i !== j ? 0 : covarianceOf(a, b) / a.length)),
  );
  const { u, r } = correlations(covariance);
  return impedance(series.map(meanOf), covariance, {
    "mean V": meanOf(series[0]!),
    "mean I": meanOf(series[1]!),
    "mean phi": meanOf(series[2]!),
    "u(V)": u[0]!,
    "u(I)": u[1]!,
    "u(phi)": u[2]!,
    "r(V,I)": r[0]![1]!,
    "r(V,phi)": r[0]![2]!,
    "r(I,phi)": r[1]![2]!,
  });
}

function impedanceOfSummary({ name }: Case): number {
  const r = [
    [1, -0.36, 0.86],
    [-0.36, 1, -0.65],
    [0.86, -0.65, 1],
  ];
  const covariance = covarianceMatrix([0.0032, 9.5e-6, 0.00075], r);
  return impedance([4.999, 0.019661, 1.04446], covariance, {})[name]!;
}

/** Length of a gauge block beyond its nominal 50 mm: ls, d, d-alpha, theta, alpha, d-theta. */
function gaugeBlock({ name }: Case): number {
  const nominal = 0.05;
  const x = [0.050000623, 2.15e-7, 0, -0.1, 1.15e-5, 0];
  const u = [2.5e-8, 9.7e-9, 5.8e-7, 0.41, 1.2e-6, 0.029];
  const excess = ([ls, d, da, theta, alpha, dt]: readonly number[]): number =>
    ls! - nominal + d! - ls! * (da! * theta! + alpha! * dt!);
  const parts = gradient(excess, x, u).map((c, i) => Math.abs(c) * u[i]!);
  const variance = parts.reduce((sum, part) => sum + part * part, 0);
  const used = [0, 1, 2, 5].map((i) => parts[i]!);
  const t = studentTailQuantile(0.005, 16);
  const onlyThese = (a: number, b: number): number => {
    const some = u.map((v, i) => (i === a || i === b ? v : 0));
    return Math.sqrt(higherOrderVariance(excess, x, some));
  };
  const answers: Record<string, number> = {
    l: nominal + excess(x),
    "part dalpha": parts[2]!,
    "part dtheta": parts[5]!,
    u: Math.sqrt(variance),
    nu_eff: effectiveDegrees(used, [18, 25.6, 50, 2]),
    "t99(16)": t,
    U99: t * Math.sqrt(variance),
    "second order alpha theta": onlyThese(2, 3),
    "second order theta alpha": onlyThese(4, 5),
    "u with second order": Math.sqrt(variance + higherOrderVariance(excess, x, u)),
  };
  return answers[name]!;
}

function calibrationLine({ name, inputs }: Case): number {
  const data = inputs as unknown as Record<string, { value: number[] }>;
  const line = fitLine(data["t"]!.value, data["b"]!.value, 20);
  const { u, r } = correlations(line.covariance);
  const at30 = propagate([[1, 10]], line.covariance)[0]![0]!;
  const answers: Record<string, number> = {
    intercept: line.intercept,
    slope: line.slope,
    s: line.deviation,
    "u(intercept)": u[0]!,
    "u(slope)": u[1]!,
    r: r[0]![1]!,
    "b(30)": line.intercept + 10 * line.slope,
    "u(b(30))": Math.sqrt(at30),
  };
  return answers[name]!;
}

function product({ name }: Case): number {
  const parts = [0.25, 0.57, 0.82];
  const answers: Record<string, number> = {
    u: Math.hypot(...parts),
    nu_eff: effectiveDegrees(parts, [9, 4, 14]),
    "t95(19)": studentTailQuantile(0.025, 19),
    "t95(18)": studentTailQuantile(0.025, 18),
  };
  return answers[name]!;
}

function typeB({ name }: Case): number {
  const a = 4e-7;
  const series = (r: number): number => {
    const ten = Array.from({ length: 10 }, () => 0.1);
    const ones = ten.map((_, i) => ten.map((_other, j) => (i === j ? 1 : r)));
    return Math.sqrt(propagate([ten.map(() => 1)], covarianceMatrix(ten, ones))[0]![0]!);
  };
  const answers: Record<string, number> = {
    rectangular: a / HALF_WIDTH_DIVISORS.rectangular,
    triangular: a / HALF_WIDTH_DIVISORS.triangular,
    "trapezoid top half the base": trapezoidUncertainty(a, 0.5),
    arcsine: a / HALF_WIDTH_DIVISORS.arcsine,
    "ten correlated": series(1),
    "ten independent": series(0),
  };
  return answers[name]!;
}

export const GUIDE: Record<string, Solver> = {
  "unc-gum-h2": ({ name, inputs }) => impedanceOfReadings(inputs)[name]!,
  "unc-gum-h2-rounded": impedanceOfSummary,
  "unc-gum-h1": gaugeBlock,
  "unc-gum-h3": calibrationLine,
  "unc-gum-g4": product,
  "unc-gum-type-b": typeB,
  "unc-jcgm101-tolerance": ({ at }) => numericalTolerance(at["u"]!, at["digits"]!),
};

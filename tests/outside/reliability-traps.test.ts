/**
 * The wrong answers that the worked checks warn of (`trap` and `wrong` in
 * `shared/checks/reliability-checks.yaml`): each is made here by the mistake itself, and ours isn't it.
 */
import { describe, expect, test } from "vitest";
import {
  blockCheckBits,
  currentBelow,
  driftErrors,
  failureRateInterval,
  optimumThreshold,
  sharedReferenceWordError,
  singleErrorCheckBits,
  triangleWeighted,
  zeroFailureDevices,
} from "../../src/models/reliability/index.ts";
import {
  binomialTail,
  normalTail,
  numericalTolerance,
  roundWithUncertainty,
} from "../../src/numerics/index.ts";
import { kolmogorovTail } from "../numerics/sampling/kolmogorov.ts";
import { run } from "./reliability/run.ts";

/** Relative distance of two answers. */
const apart = (ours: number, theirs: number): number => Math.abs(theirs / ours - 1);

describe("codes", () => {
  test("ceil(log2 k) + 1 check bits is wrong at the edges", () => {
    const rule = (k: number): number => Math.ceil(Math.log2(k)) + 1;
    expect(singleErrorCheckBits(64)).toBe(rule(64));
    // At 4 and 5 bits, which the trap lists as well, the rule happens to be right.
    for (const k of [11, 26, 57, 120, 247, 502, 1013]) {
      expect(singleErrorCheckBits(k + 1)).toBe(singleErrorCheckBits(k) + 1);
      expect(rule(k)).toBe(singleErrorCheckBits(k) + 1);
    }
  });

  test("the field degree from the data bits alone is too small", () => {
    const fromDataAlone = Math.ceil(Math.log2(64));
    expect(blockCheckBits(64, 2).degree).toBe(7);
    expect(fromDataAlone).toBe(6);
  });

  test("one minus the good cases has no right digit; C(n,2) p^2 alone is 4.8 % high", () => {
    const p = 1e-9;
    const naive = 1 - (1 - p) ** 72 - 72 * p * (1 - p) ** 71;
    expect(apart(binomialTail(72, 2, p), naive)).toBeGreaterThan(0.5);
    const first = 72 * 71 * 0.5 * 1e-6;
    expect(apart(binomialTail(72, 2, 1e-3), first)).toBeCloseTo(0.0476, 3);
  });
});

describe("tails", () => {
  test("0.5 (1 - erf) is zero above 8.3 standard deviations", () => {
    expect(0.5 * (1 - 1)).toBe(0);
    expect(normalTail(8.4)).toBeGreaterThan(0);
    expect(1 - normalTail(-9)).toBe(0);
    expect(normalTail(9)).toBeGreaterThan(1e-19);
  });

  test("the geometric mean of the medians is no optimum when the spreads differ", () => {
    const given = { on_resistance: 1e4, off_resistance: 1e5, on_spread: 0.1, off_spread: 0.25 };
    const values = run(optimumThreshold, given);
    expect(apart(values["optimum_threshold_resistance"]!, Math.sqrt(1e9))).toBeGreaterThan(0.5);
    // The other root of the quadratic lies below the on median.
    const [d, sa, sb] = [Math.log(10), 0.1, 0.25];
    const a = 1 / sa ** 2 - 1 / sb ** 2;
    const b = d / sb ** 2;
    const c = d ** 2 / sb ** 2 + 2 * Math.log(sb / sa);
    const other = (-b - Math.sqrt(b * b + a * c)) / a;
    expect(other).toBeLessThan(0);
    expect(values["optimum_distance"]!).toBeGreaterThan(0);
    // The least error is least: both neighbours are worse.
    const error = (x: number) => normalTail(x / sa) + normalTail((d - x) / sb);
    const x = values["optimum_distance"]!;
    expect(error(x * 1.001)).toBeGreaterThan(error(x));
    expect(error(x * 0.999)).toBeGreaterThan(error(x));
  });

  test("a normal of equal mean and variance is wrong by a factor 200 in the tail", () => {
    const ours = currentBelow(0.2, 1e4, 0.1, 0.8e-6, 10e-6);
    const mean = 20e-6 * Math.exp(0.005);
    const deviation = Math.hypot(mean * Math.sqrt(Math.expm1(0.01)), 0.8e-6);
    const matched = normalTail((mean - 10e-6) / deviation);
    expect(apart(1.5913286839391697e-6, matched)).toBeLessThan(1e-9);
    expect(matched / ours).toBeGreaterThan(200);
  });

  test("words with a shared reference fail together: not as independent bits", () => {
    const shared = sharedReferenceWordError(0.045, 0.004, 0.005, 64);
    const bit = normalTail(0.045 / Math.hypot(0.004, 0.005));
    expect(apart(shared, -Math.expm1(64 * Math.log1p(-bit)))).toBeGreaterThan(0.01);
  });

  test("the spread of the drift exponent counts, not only its mean", () => {
    const given = { off_resistance: 1e5, off_spread: 0.2, drift_exponent: 0.02, drift_start: 1 };
    const rest = { storage_time: 315576000, threshold_resistance: 31622.776601683796 };
    const lost = (drift_exponent_deviation: number): number =>
      run(driftErrors, { ...given, ...rest, drift_exponent_deviation })["off_lost"]!;
    expect(lost(0.005) / lost(0)).toBeGreaterThan(2);
  });

  test("the alternating Kolmogorov series loses its digits at small x: ours does not", () => {
    const { lost, x } = { lost: 1 - kolmogorovTail(0.2), x: 0.2 };
    let theta = 0;
    for (let k = 1; k < 9; k += 2) theta += Math.exp(-((k * Math.PI) ** 2) / (8 * x * x));
    expect(kolmogorovTail(0.2)).toBeLessThanOrEqual(1);
    expect(lost).toBeLessThan(1e-11);
    expect(Math.abs(lost - (Math.sqrt(2 * Math.PI) / x) * theta)).toBeLessThan(1e-16 * 4);
    expect(apart(kolmogorovTail(0.999999), kolmogorovTail(1.000001))).toBeLessThan(1e-5);
  });
});

describe("yield and tests", () => {
  test("(1 - e^-x)/x without expm1 is wrong at x = 1e-10, its loss from 1 - yield more so", () => {
    const x = 1e-10;
    const naive = ((1 - Math.exp(-x)) / x) ** 2;
    const { yielded, lost } = triangleWeighted(x);
    expect(apart(yielded, naive)).toBeGreaterThan(1e-8);
    expect(apart(lost, 1 - yielded)).toBeGreaterThan(1e-8);
  });

  test("rounding noise does not add a device to a test: ceil of 1.0000000000000002", () => {
    expect(Math.ceil(Math.log(1 - 0.9) / Math.log(0.1))).toBe(2);
    expect(zeroFailureDevices(0.9, 0.9).devices).toBe(1);
  });

  test("the lower end of a two-sided interval has two degrees of freedom less", () => {
    const { low, high } = failureRateInterval(2, 0.95, 1);
    expect(high / low).toBeGreaterThan(20);
    expect(failureRateInterval(0, 0.95, 1).low).toBe(0);
    expect(failureRateInterval(0, 0.95, 1).high).toBeCloseTo(-Math.log(0.025), 12);
  });
});

describe("rounding", () => {
  test("toPrecision and toFixed round 0.0115 and 2.675 the wrong way", () => {
    expect((0.0115).toPrecision(2)).toBe("0.011");
    expect((2.675).toFixed(2)).toBe("2.67");
    expect(roundWithUncertainty(0.5034, 0.0115).uncertainty).toBe("0.012");
    expect(roundWithUncertainty(2.675, 0.23).value).toBe("2.68");
  });

  test("the decimal exponent does not come from a logarithm", () => {
    expect(Math.floor(Math.log(1000) / Math.log(10))).toBe(2);
    expect(numericalTolerance(1000, 1)).toBe(500);
  });

  test("negative, infinite and NaN uncertainties are refused", () => {
    for (const u of [-1, Number.POSITIVE_INFINITY, Number.NaN]) {
      expect(() => roundWithUncertainty(1, u)).toThrow(/out-of-range/);
    }
  });
});

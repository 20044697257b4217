/** What a test with few or no failures shows, and how many devices it takes. */
import { refuse } from "../../errors/problem.ts";
import { solve } from "../../numerics/roots.ts";
import { binomialCumulative } from "../../numerics/special/discrete.ts";
import { exp, expm1, log, log1p, pow } from "../../numerics/special/elementary.ts";
import { chiSquaredQuantile } from "../../numerics/special/gamma.ts";
import { reliabilityProcedure } from "./define.ts";

const HANDBOOK = "statistics-handbook";

/** Rounding noise that must not add a device: ln(1 - 0.9)/ln(0.1) is 1.0000000000000002. */
const NOISE = 1e-12;

/**
 * Devices without a failure: ln(1-C)/(k^b ln R). The share that may fail, 1 - R, is given and not
 * R, which in doubles has lost the digits of 1 - R.
 */
export function zeroFailureDevices(
  confidence: number,
  failingShare: number,
  lifetimes = 1,
  shape = 1,
): { unrounded: number; devices: number } {
  requireShare(confidence, "a confidence level");
  requireShare(failingShare, "a failing share");
  const perDevice = pow(lifetimes, shape) * log1p(-failingShare);
  const unrounded = log1p(-confidence) / perDevice;
  return { unrounded, devices: Math.ceil(unrounded * (1 - NOISE)) };
}

/** The least sample that shows a failing share with confidence C when f failures are allowed. */
export function devicesWithFailures(
  confidence: number,
  failingShare: number,
  failures: number,
): number {
  requireShare(confidence, "a confidence level");
  requireShare(failingShare, "a failing share");
  const passes = (n: number): boolean => {
    const chance = binomialCumulative(n, failures, failingShare);
    return chance <= (1 - confidence) * (1 + NOISE);
  };
  let high = failures + 1;
  while (!passes(high)) high *= 2;
  let low = Math.floor(high / 2);
  if (passes(low) && low > failures) return low;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (passes(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** Exact one-sided upper bound on the failing fraction after f failures of n. */
export function failingFractionBound(n: number, failures: number, confidence: number): number {
  requireShare(confidence, "a confidence level");
  if (failures >= n) return 1;
  if (failures === 0) return -expm1(log1p(-confidence) / n);
  const goal = log1p(-confidence);
  const excess = (logP: number): number => log(binomialCumulative(n, failures, exp(logP))) - goal;
  return exp(solve(excess, -60, -1e-12));
}

/** Upper bound on a failure rate [1/s] after f failures in that device time [s] at stress. */
export function failureRateBound(failures: number, confidence: number, time: number): number {
  requireShare(confidence, "a confidence level");
  return chiSquaredQuantile(1 - confidence, 2 * failures + 2) / (2 * time);
}

/** Both ends of the two-sided interval; the lower end has 2f degrees of freedom, 0 for f = 0. */
export function failureRateInterval(
  failures: number,
  confidence: number,
  time: number,
): { low: number; high: number } {
  const tail = (1 - confidence) / 2;
  const low = failures === 0 ? 0 : chiSquaredQuantile(1 - tail, 2 * failures) / (2 * time);
  return { low, high: chiSquaredQuantile(tail, 2 * failures + 2) / (2 * time) };
}

function requireShare(value: number, what: string): void {
  if (value > 0 && value < 1) return;
  refuse({
    code: "bad-probability",
    what: `${what} must lie between 0 and 1`,
    got: String(value),
  });
}

export const zeroFailureTest = reliabilityProcedure(
  "zero_failure_test",
  {
    title: "Devices of a test without failures",
    about: "Closed form for a Weibull life of known shape; rounding noise adds no device.",
    source: HANDBOOK,
  },
  ["confidence", "failing_share", "test_lifetimes", "life_shape"],
  {
    zero_failure_devices: { unit: "1", meaning: "devices to test" },
    zero_failure_devices_unrounded: { unit: "1", meaning: "the same before rounding up" },
  },
  (confidence, failing, lifetimes, shape) => {
    const { devices, unrounded } = zeroFailureDevices(confidence!, failing!, lifetimes!, shape!);
    return [devices, unrounded];
  },
);

export const failureBounds = reliabilityProcedure(
  "failure_bounds",
  {
    title: "Bounds after a test",
    about:
      "Upper bound on the failing fraction (exact binomial) and on the failure rate " +
      "(chi-squared with 2f + 2 degrees of freedom), both to the last digits but four.",
    source: "jesd85",
  },
  ["devices", "device_time", "acceleration", "failures", "confidence"],
  {
    failing_fraction_bound: { unit: "1", meaning: "upper bound on the failing fraction" },
    failure_rate_bound: { unit: "1/s", meaning: "upper bound on the failure rate in use" },
  },
  (devices, time, acceleration, failures, confidence) => [
    failingFractionBound(devices!, failures!, confidence!),
    failureRateBound(failures!, confidence!, time! * acceleration!),
  ],
);

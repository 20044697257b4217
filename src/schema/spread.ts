/** What can be wrong with low, value, high, sigma and samples of one figure. */

import type { Problem } from "../errors/problem.ts";
import { quantileOf } from "../quantities/distribution.ts";
import type { DistributionKind, Parameter } from "../quantities/parameter.ts";

export interface SpreadProblem {
  /** The key to mark. */
  readonly key: string;
  readonly what: string;
  readonly more: Partial<Problem>;
}

const BY_BOUNDS = [
  "two-piece lognormal",
  "two-piece normal",
  "rectangular",
  "triangular",
  "two-point",
];
const UNBOUNDED = ["two-piece lognormal", "lognormal", "two-piece normal", "normal"];
const LOGARITHMIC = ["two-piece lognormal", "lognormal"];

/** The first reason why the parts make no distribution, or undefined. */
export function spreadProblem(given: GivenSpread, positive: boolean): SpreadProblem | undefined {
  const { value, low, high, sigma, samples, distribution } = given;
  const bounded = low !== undefined || high !== undefined;
  if (low !== undefined && low > value) {
    return { key: "low", what: "`low` is above `value`", more: { expected: "low ≤ value ≤ high" } };
  }
  if (high !== undefined && high < value) {
    return {
      key: "high",
      what: "`high` is below `value`",
      more: { expected: "low ≤ value ≤ high" },
    };
  }
  if ((low === undefined) !== (high === undefined)) {
    const missing = low === undefined ? "low" : "high";
    const there = low === undefined ? "high" : "low";
    return {
      key: there,
      what: `\`${there}\` stands without \`${missing}\``,
      more: { fix: `add \`${missing}\`` },
    };
  }
  if (sigma !== undefined && bounded) {
    return {
      key: "sigma",
      what: "`sigma` and `low`, `high` exclude each other",
      more: { fix: "keep one of them" },
    };
  }
  if (samples !== undefined && (bounded || sigma !== undefined)) {
    return {
      key: "samples",
      what: "`samples` need no `low`, `high` or `sigma`",
      more: { fix: "remove those" },
    };
  }
  const cut = cutProblem(given);
  if (cut !== undefined || distribution === undefined) return cut;
  return wantedBy(given, distribution, bounded, positive);
}

/** Cuts must leave something on both sides of the value. */
function cutProblem({ value, least, most, ...rest }: GivenSpread): SpreadProblem | undefined {
  const key = least === undefined ? "most" : "least";
  if (least === undefined && most === undefined) return undefined;
  const spread = [rest.low, rest.high, rest.sigma, rest.samples].some((x) => x !== undefined);
  if (!spread)
    return { key, what: `\`${key}\` cuts a distribution, and this figure has none`, more: {} };
  if ((least ?? value) <= value && (most ?? value) >= value) return undefined;
  return {
    key,
    what: "`value` lies outside of `least` and `most`",
    more: { expected: "least ≤ value ≤ most" },
  };
}

function wantedBy(
  given: GivenSpread,
  kind: string,
  bounded: boolean,
  positive: boolean,
): SpreadProblem | undefined {
  const key = "distribution";
  const needs = (what: string): SpreadProblem => ({
    key,
    what: `a ${kind} distribution needs ${what}`,
    more: {},
  });
  if (BY_BOUNDS.includes(kind) && !bounded) return needs("`low` and `high`");
  if ((kind === "normal" || kind === "lognormal") && !bounded && given.sigma === undefined) {
    return needs("`sigma`, or `low` and `high`");
  }
  if (kind === "measured" && given.samples === undefined) return needs("`samples`");
  if (kind === "exact" && (bounded || given.sigma !== undefined)) {
    return { key, what: "an exact figure has no `low`, `high` or `sigma`", more: {} };
  }
  if (kind !== "measured" && given.samples !== undefined) {
    return { key, what: "`samples` make a measured distribution", more: { nearest: "measured" } };
  }
  if (BY_BOUNDS.includes(kind) && given.sigma !== undefined)
    return needs("`low` and `high`, not `sigma`");
  if (LOGARITHMIC.includes(kind) && (given.low ?? given.value) <= 0) {
    return { key, what: `a ${kind} figure lies above zero`, more: { fix: "use two-piece normal" } };
  }
  if (kind === "normal" && positive) {
    return {
      key,
      what: "this figure is positive by nature, and a normal distribution isn't",
      more: { nearest: "lognormal", fix: "use lognormal, triangular or rectangular" },
    };
  }
  return undefined;
}

export type Spread = Pick<
  Parameter,
  "value" | "low" | "high" | "distribution" | "sigma" | "samples" | "least" | "most"
>;

/** What was given of a figure in long form. */
export interface GivenSpread {
  readonly value: number;
  readonly low: number | undefined;
  readonly high: number | undefined;
  readonly sigma: number | undefined;
  readonly samples: readonly number[] | undefined;
  readonly distribution: DistributionKind | undefined;
  readonly least?: number | undefined;
  readonly most?: number | undefined;
}

/**
 * The distribution that is meant, with its low and high. The parts fit together (`spreadProblem`).
 */
export function completed(given: GivenSpread, positive: boolean): Spread {
  const kind = given.distribution ?? impliedKind(given, positive);
  const { least, most } = given;
  const cuts = { ...(least !== undefined && { least }), ...(most !== undefined && { most }) };
  return { ...uncut(given, kind), ...cuts };
}

/** What draws leave the bounds of what a figure may be is cut there, unless the study cuts it itself. */
export function within(
  spread: Spread,
  minimum: number | undefined,
  maximum: number | undefined,
): Spread {
  if (!UNBOUNDED.includes(spread.distribution)) return spread;
  const { least = minimum, most = maximum } = spread;
  return { ...spread, ...(least !== undefined && { least }), ...(most !== undefined && { most }) };
}

function uncut(given: GivenSpread, kind: DistributionKind): Spread {
  const { value, sigma, samples } = given;
  if (kind === "measured") {
    const sorted = [...samples!].sort((a, b) => a - b);
    return { value, low: sorted[0]!, high: sorted.at(-1)!, distribution: kind, samples: samples! };
  }
  if (sigma !== undefined) {
    const spread = { value, low: value, high: value, sigma, distribution: kind };
    return { ...spread, low: quantileOf(spread, 0.025), high: quantileOf(spread, 0.975) };
  }
  const low = given.low ?? value;
  const high = given.high ?? value;
  return { value, low, high, distribution: low === high ? "exact" : kind };
}

function impliedKind(given: GivenSpread, positive: boolean): DistributionKind {
  if (given.samples !== undefined) return "measured";
  if (given.sigma !== undefined) return positive ? "lognormal" : "normal";
  if (given.low === undefined && given.high === undefined) return "exact";
  return positive ? "two-piece lognormal" : "two-piece normal";
}

export function middle(samples: readonly number[] | undefined): number | undefined {
  if (samples === undefined || samples.length === 0) return undefined;
  const sorted = [...samples].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half] : (sorted[half - 1]! + sorted[half]!) / 2;
}

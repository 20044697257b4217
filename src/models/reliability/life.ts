/** Life: endurance distributions, first failure among many cells, wear, program and verify. */
import { expm1, log1p, pow } from "../../numerics/special/elementary.ts";
import { formula, reliabilityProcedure, reliabilitySheet } from "./define.ts";

const WEIBULL = "iec61649";

export const weibullLife = reliabilitySheet(
  "weibull_life",
  "Endurance of a cell, Weibull",
  "Cycles to failure of a cell, and of the first of many: again Weibull with a smaller scale.",
  {
    failed_cells: formula(
      "1",
      "-expm1(-(cycles / life_scale)^life_shape)",
      "share of cells that have failed",
      WEIBULL,
    ),
    life_at_share: formula(
      "1",
      "life_scale * (-log1p(-failed_share))^(1 / life_shape)",
      "cycles by which that share has failed",
      WEIBULL,
    ),
    mean_life: formula("1", "life_scale * gamma(1 + 1 / life_shape)", "mean endurance", WEIBULL),
    first_failure_ratio: formula(
      "1",
      "cells^(-1 / life_shape)",
      "scale of the first failure over the scale of a cell",
      WEIBULL,
    ),
    first_failure_at_share: formula(
      "1",
      "life_at_share * first_failure_ratio",
      "cycles by which a cell has failed in that share of arrays",
      WEIBULL,
    ),
  },
);

export const lognormalLife = reliabilitySheet(
  "lognormal_life",
  "First failure among lognormal cells",
  "Median life of the first of many cells to fail; the share is -expm1(ln(1/2)/N), which keeps " +
    "its digits where 1 - 0.5^(1/N) loses nine.",
  {
    first_share: formula(
      "1",
      "-expm1(log(0.5) / cells)",
      "share of cells failed at the median of the first",
      "extremes",
    ),
    first_sigmas: formula(
      "1",
      "-normal_quantile(first_share)",
      "standard deviations below the median",
      "extremes",
      { symbol: "z" },
    ),
    first_median_life: formula(
      "1",
      "median_life * exp(-life_spread * first_sigmas)",
      "median of the cycles to the first failure",
      "extremes",
    ),
  },
);

export const extremeOfNormals = reliabilitySheet(
  "extreme_of_normals",
  "Largest of many normal values",
  "Exact median of the largest of N, and by the extreme-value limit, whose error it shows.",
  {
    largest_median: formula(
      "1",
      "-normal_quantile(-expm1(log(0.5) / cells))",
      "median of the largest, in standard deviations",
      "extremes",
    ),
    limit_place: formula("1", "-normal_quantile(1 / cells)", "place of the limit law", "extremes"),
    limit_scale: formula(
      "1",
      "sqrt(2 * pi) * exp(limit_place^2 / 2) / cells",
      "scale of the limit law",
      "extremes",
    ),
    limit_median: formula(
      "1",
      "limit_place - limit_scale * log(log(2))",
      "median of the largest by the limit law",
      "extremes",
    ),
  },
);

export const wear = reliabilitySheet(
  "wear",
  "Life under a stream of writes",
  "With wear spreading all cells share the writes; without it one line takes them all.",
  {
    spread_life: formula(
      "s",
      "capacity * endurance * wear_share / (write_rate * write_amplification)",
      "life with wear spreading",
      "arithmetic",
    ),
    hot_line_life: formula(
      "s",
      "endurance * hot_line / write_rate",
      "life of a line that takes all writes",
      "arithmetic",
    ),
  },
);

export const verifiedWrite = reliabilitySheet(
  "verified_write",
  "Program and verify",
  "Each pulse misses by itself with the same probability, up to a number of pulses. The misses " +
    "are given and not the successes, so that rare ones keep their digits.",
  {
    mean_pulses: formula(
      "1",
      "(1 - pulse_failure^most_pulses) / (1 - pulse_failure)",
      "mean number of pulses",
      "arithmetic",
    ),
    gives_up: formula(
      "1",
      "pulse_failure^most_pulses",
      "probability that a write gives up",
      "arithmetic",
    ),
  },
);

/** Mean of the largest of several geometric counts: pulses until the slowest cell is written. */
export function pulsesOfSlowest(failure: number, cells: number): number {
  let sum = 1;
  for (let k = 1; k < 1e7; k++) {
    const someLeft = -expm1(cells * log1p(-pow(failure, k)));
    sum += someLeft;
    // The rest is below a geometric series in `failure`.
    if (someLeft < 1e-17 * sum * (1 - failure)) break;
  }
  return sum;
}

export const slowestPulses = reliabilityProcedure(
  "slowest_pulses",
  {
    title: "Pulses until the slowest cell is written",
    about: "Sum over k of the probability that some cell still needs more than k pulses; to 1e-15.",
    source: "arithmetic",
  },
  ["pulse_failure", "parallel_cells"],
  { slowest_pulses: { unit: "1", meaning: "mean pulses of the slowest of the cells" } },
  (failure, cells) => [pulsesOfSlowest(failure!, cells!)],
);

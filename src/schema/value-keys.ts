/** The keys of a figure in long form, and its distributions. */

import type { DistributionKind } from "../quantities/parameter.ts";

/** Keys of a figure in long form, with what they mean. */
export const VALUE_KEYS = {
  value: "the figure itself: the median, or the mode of a triangular distribution",
  low: "the 2.5 % point, or the lower bound of a rectangular or triangular distribution",
  high: "the 97.5 % point, or the upper bound of a rectangular or triangular distribution",
  sigma:
    "standard deviation: of the natural logarithm where lognormal, else in the unit of the value",
  distribution: "its kind, where `low`, `high` or `sigma` don't say it",
  samples: "measured values, drawn equally often",
  least: "the distribution is cut here: nothing lies below",
  most: "the distribution is cut here: nothing lies above",
  source: "where the figure comes from",
  basis: "how far to trust the source",
  note: "anything a reviewer should know",
} as const;

export const DISTRIBUTIONS: Readonly<Record<DistributionKind, string>> = {
  exact: "no spread",
  "two-piece lognormal": "median `value`; `low` and `high` are its 2.5 % and 97.5 % points",
  "two-piece normal": "median `value`; `low` and `high` are its 2.5 % and 97.5 % points",
  normal: "by `sigma`, or by `low` and `high`",
  lognormal: "median `value`; by `sigma` of the natural logarithm, or by `low` and `high`",
  rectangular: "from `low` to `high`",
  triangular: "from `low` to `high` with its mode at `value`",
  "two-point": "either `low` or `high`, with the shares that make `value` the mean",
  measured: "the `samples`, each equally likely",
};

import { quantile } from "../numerics/quantile.ts";

/** A computed figure in SI. `value` is at the nominal parameters, the rest is of the sampled distribution. */
export interface EstimatedFigure {
  readonly value: number;
  readonly low: number;
  readonly median: number;
  readonly high: number;
}

/**
 * The figure of a sampled quantity.
 *
 * @param value at the nominal parameters
 * @param samples draws; those that are not finite are of designs that do not work, and are left out
 * @param coverage share that the interval holds, equal tails
 */
export function figureOf(value: number, samples: Float64Array, coverage: number): EstimatedFigure {
  const sorted = samples.filter((x) => Number.isFinite(x)).sort();
  if (sorted.length === 0) return { value, low: value, median: value, high: value };
  const tail = (1 - coverage) / 2;
  return {
    value,
    low: quantile(sorted, tail),
    median: quantile(sorted, 0.5),
    high: quantile(sorted, 1 - tail),
  };
}

/** Two columns of draws joined draw by draw, so that what the designs share cancels. */
export function paired(
  left: Float64Array,
  right: Float64Array,
  join: (l: number, r: number) => number,
): Float64Array {
  return left.map((x, i) => join(x, right[i]!));
}

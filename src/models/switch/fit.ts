/** Fits of a switch from geometry: what is common to switching times and loops. */
import {
  type Fit,
  type FitOptions,
  fitIntervals,
  fitLeastSquares,
  type Interval,
  profileIntervals,
  resampledIntervals,
} from "../../numerics/index.ts";
import { exp } from "../../numerics/special/elementary.ts";
import { coordinatesOf, type Fittable, type Specimen } from "./fit-parameters.ts";
import { requireGeometry } from "./geometry.ts";

/** A fitted parameter in SI, with its intervals by the three ways there are. */
export interface FittedParameter {
  readonly name: Fittable;
  readonly value: number;
  /** From the slopes at the best fit; absent for a parameter held at an end of its range. */
  readonly bySlopes?: Interval;
  /** From refits of the other parameters. */
  readonly byRefits?: Interval;
  /** From refits to resampled residuals. */
  readonly byResampling?: Interval;
  /** It stands at an end of its range and the points pull it beyond. */
  readonly held: boolean;
}

export interface SwitchFit extends Specimen {
  readonly parameters: readonly FittedParameter[];
  /** Correlation coefficients of the logarithms of the parameters. */
  readonly correlations: readonly (readonly number[])[];
  /** Model minus measurement, per point: of ln time, or of asinh of the scaled current. */
  readonly residuals: readonly number[];
  /** Standard deviation of the residuals. */
  readonly deviation: number;
  readonly degrees: number;
  /** Refits to resampled residuals, and how many of them found no minimum. */
  readonly refits: { readonly made: number; readonly failed: number };
}

export interface FitSettings {
  readonly confidence?: number;
  /** Leaves out the intervals by refits, which cost many times the fit itself. */
  readonly quick?: boolean;
  /** How many refits to resampled residuals; none where absent. */
  readonly refits?: number;
  readonly seed?: number;
}

const OPTIONS = { relative: 1e-8, difference: 1e-4 } as const satisfies FitOptions;

/**
 * Fits the logarithms of the named parameters, so that each stays positive and its interval is a
 * factor.
 *
 * @throws TenfoldError as `fitLeastSquares` does
 */
export function fitSpecimen(
  residualsOf: (specimen: Specimen) => number[],
  start: Specimen,
  free: readonly Fittable[],
  settings: FitSettings = {},
): SwitchFit {
  requireGeometry(start.geometry);
  const { at, start: first, low, high } = coordinatesOf(start, free);
  const residuals = (logs: readonly number[]): number[] => residualsOf(at(logs));
  const options: FitOptions = { ...OPTIONS, low, high };
  const fit = fitLeastSquares(residuals, first, options);
  const { confidence = 0.95, quick = false, refits = 0, seed = 1 } = settings;
  const slopes = fitIntervals(fit, confidence);
  const profile = quick ? undefined : profileIntervals(residuals, fit, confidence, options);
  const draw = { refits, seed, confidence };
  const drawn = refits > 0 ? resampledIntervals(residuals, fit, draw, options) : undefined;
  return {
    ...at(fit.parameters),
    parameters: free.map((name, k) => ({
      name,
      value: exp(fit.parameters[k]!),
      held: fit.held[k]!,
      ...(!fit.held[k] && { bySlopes: factor(slopes[k]!) }),
      ...(profile && { byRefits: factor(profile[k]!) }),
      ...(drawn && !fit.held[k] && { byResampling: factor(drawn.intervals[k]!) }),
    })),
    correlations: correlationsOf(fit),
    residuals: fit.residuals,
    deviation: fit.deviation,
    degrees: fit.degrees,
    refits: { made: drawn?.refits ?? 0, failed: drawn?.failed ?? 0 },
  };
}

function factor({ low, high }: Interval): Interval {
  return { low: exp(low), high: exp(high) };
}

/** 0 beside a parameter that is held. */
function correlationsOf({ parameters, covariance, errors }: Fit): number[][] {
  const n = parameters.length;
  return parameters.map((_, k) =>
    parameters.map((_other, j) => {
      if (k === j) return 1;
      const both = errors[k]! * errors[j]!;
      return Number.isFinite(both) ? covariance[k * n + j]! / both : 0;
    }),
  );
}

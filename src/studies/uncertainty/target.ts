import { pow } from "../../numerics/special/elementary.ts";
import type { Parameter } from "../../quantities/parameter.ts";
import type { RankCorrelation } from "./correlation.ts";
import type { UncertainModel } from "./model.ts";
import { ParameterSpace, type Sampling, UniformBatches } from "./space.ts";

/** Whether a target holds, for each of many sets of quantities (columns in the model's order). */
export type Holds = (quantities: readonly Float64Array[], i: number) => boolean;

export interface TargetOptions {
  readonly seed: number;
  /** Share of the draws in which the target must hold. */
  readonly confidence: number;
  readonly draws?: number;
  readonly sampling?: Sampling;
  readonly correlations?: readonly RankCorrelation[];
}

/** A value of one parameter at which the target holds with the wanted confidence. */
export interface Needed {
  readonly parameter: Parameter;
  /** The nearest such value below and above the nominal one; absent where there is none in reach. */
  readonly below?: number;
  readonly above?: number;
  /** How far was looked, in SI. */
  readonly reach: { readonly low: number; readonly high: number };
}

export interface TargetResult {
  /** Share of the draws in which it holds as things stand. */
  readonly share: number;
  readonly needed: readonly Needed[];
}

const DRAWS = 1024;
/** A positive parameter is tried from a thousandth to a thousandfold of its nominal value. */
const DECADES = 3;
const STEPS_PER_DECADE = 4;
const BISECTIONS = 40;

/**
 * What one parameter alone would have to be, known exactly, for a target to hold with a stated
 * confidence while all others vary as they do.
 *
 * Every trial uses the same draws of the others, so that the share is a step function of the
 * parameter; its steps are one over the number of draws. From the nominal value outwards the
 * first value that is good enough is found on a grid, then its edge by bisection.
 *
 * @param model the quantities that the target reads
 * @param candidates parameters of the model
 */
export function whatMustImprove(
  model: UncertainModel,
  holds: Holds,
  candidates: readonly Parameter[],
  options: TargetOptions,
): TargetResult {
  const count = options.draws ?? DRAWS;
  const space = new ParameterSpace(model.parameters, options.correlations);
  const keys = model.parameters.map(({ key }) => key);
  const source = new UniformBatches(options.sampling ?? "low-discrepancy", options.seed, keys);
  const inputs = space.values(source.points(0, 0, count), count);
  const outputs = model.quantities.map(() => new Float64Array(count));
  const shareOf = (columns: readonly Float64Array[]): number => {
    model.evaluate(columns, count, outputs);
    let held = 0;
    for (let i = 0; i < count; i++) {
      if (outputs.every((column) => Number.isFinite(column[i])) && holds(outputs, i)) held += 1;
    }
    return held / count;
  };
  const needed = candidates.map((parameter): Needed => {
    const place = model.parameters.indexOf(parameter);
    const enough = (x: number): boolean =>
      shareOf(inputs.map((column, k) => (k === place ? column.slice().fill(x) : column))) >=
      options.confidence;
    const { down, up } = ladders(parameter);
    const below = edge(parameter.value, down, enough);
    const above = edge(parameter.value, up, enough);
    return {
      parameter,
      ...(below !== undefined && { below }),
      ...(above !== undefined && { above }),
      reach: { low: down.at(-1)!, high: up.at(-1)! },
    };
  });
  return { share: shareOf(inputs), needed };
}

/** Values to try, from the nominal one outwards: factors where it is positive, else its own range. */
function ladders(parameter: Parameter): { down: number[]; up: number[] } {
  const { value, low, high, least } = parameter;
  // What is a share of something stays one.
  const most = parameter.most ?? (parameter.unit === "1" && high < 1 && low >= 0 ? 1 : undefined);
  const steps = Array.from({ length: DECADES * STEPS_PER_DECADE }, (_, i) => i + 1);
  const spread = Math.max(high - low, Math.abs(value) / 10);
  const at = (i: number): number =>
    value > 0 && low > 0
      ? value * pow(10, i / STEPS_PER_DECADE)
      : value + Math.sign(i) * (spread / STEPS_PER_DECADE) * pow(2, Math.abs(i) / 2 - 1);
  const within = (x: number): boolean => x >= (least ?? x) && x <= (most ?? x);
  const end = (x: number | undefined): number[] => (x === undefined ? [] : [x]);
  return {
    down: [...steps.map((i) => at(-i)).filter(within), ...end(least)],
    up: [...steps.map((i) => at(i)).filter(within), ...end(most)],
  };
}

function edge(
  nominal: number,
  ladder: readonly number[],
  enough: (x: number) => boolean,
): number | undefined {
  if (enough(nominal)) return nominal;
  const first = ladder.findIndex(enough);
  if (first < 0) return undefined;
  let good = ladder[first]!;
  let bad = first === 0 ? nominal : ladder[first - 1]!;
  for (let i = 0; i < BISECTIONS; i++) {
    const middle = good > 0 && bad > 0 ? Math.sqrt(good * bad) : (good + bad) / 2;
    if (middle === good || middle === bad) break;
    if (enough(middle)) good = middle;
    else bad = middle;
    if (Math.abs(good - bad) <= 1e-5 * Math.abs(good)) break;
  }
  return good;
}

import { type Estimate, sensitivityIndices } from "../../numerics/sampling/sensitivity.ts";
import { log } from "../../numerics/special/elementary.ts";
import type { Parameter } from "../../quantities/parameter.ts";
import type { RankCorrelation } from "./correlation.ts";
import type { UncertainModel } from "./model.ts";
import type { Scale } from "./propagate.ts";
import { ParameterSpace } from "./space.ts";
import type { Swing } from "./tornado.ts";

/** What one parameter, or several that are drawn together, have to do with a quantity's variance. */
export interface Influence {
  /** Empty for all that are not shown alone. */
  readonly parameters: readonly Parameter[];
  /** Share of the variance that goes when it is known. */
  readonly first: Estimate;
  /** Share that stays when all others are known. */
  readonly total: Estimate;
}

export interface Sensitivity {
  readonly influences: readonly Influence[];
  /** How many parameters the last influence, without a name, stands for; 0 where there is none. */
  readonly others: number;
  readonly evaluations: number;
  readonly leftOut: number;
}

export interface SensitivityChoices {
  readonly seed: number;
  readonly correlations?: readonly RankCorrelation[];
  /** Parameters that get indices of their own; default 12. All others are taken together. */
  readonly shown?: number;
  /** Points of one scramble, a power of two, and scrambles; default 128 and 8. */
  readonly count?: number;
  readonly replicates?: number;
  /** Indices of the quantity's logarithm, for one whose draws are all positive. */
  readonly scale?: Scale;
}

const SHOWN = 12;
const COUNT = 128;
const REPLICATES = 8;

/**
 * First-order and total indices of one quantity, the greatest total first.
 *
 * @param model with one quantity
 * @param swings the model's tornado: the parameters with the greatest swings get their own indices
 */
export function sensitivityOf(
  model: UncertainModel,
  swings: readonly Swing[],
  choices: SensitivityChoices,
): Sensitivity {
  const space = new ParameterSpace(model.parameters, choices.correlations);
  if (model.parameters.length === 0)
    return { influences: [], others: 0, evaluations: 0, leftOut: 0 };
  const rank = new Map(swings.map(({ parameter }, i) => [parameter, i]));
  const placeOf = (block: readonly number[]): number =>
    Math.min(...block.map((k) => rank.get(model.parameters[k]!) ?? Number.POSITIVE_INFINITY));
  const blocks = [...space.blocks()].sort((a, b) => placeOf(a) - placeOf(b));
  const own = blocks.slice(0, choices.shown ?? SHOWN);
  const others = blocks.slice(own.length).flat();
  const transformed = rememberedValues(space);
  const indices = sensitivityIndices(
    (inputs, count, output) => {
      model.evaluate(transformed(inputs, count), count, [output]);
      if (choices.scale !== "logarithmic") return;
      for (let i = 0; i < count; i++) output[i] = log(output[i]!);
    },
    model.parameters.length,
    {
      seed: choices.seed,
      count: choices.count ?? COUNT,
      replicates: choices.replicates ?? REPLICATES,
      groups: others.length === 0 ? own : [...own, others],
    },
  );
  const influences = own
    .map((block, i) => ({
      parameters: block.map((k) => model.parameters[k]!),
      first: indices.first[i]!,
      total: indices.total[i]!,
    }))
    .sort((a, b) => b.total.value - a.total.value);
  const rest = {
    parameters: [],
    first: indices.first.at(-1)!,
    total: indices.total.at(-1)!,
  };
  return {
    influences: others.length === 0 ? influences : [...influences, rest],
    others: others.length,
    evaluations: indices.evaluations,
    leftOut: indices.leftOut,
  };
}

/**
 * Values of uniform columns. The method exchanges whole columns between two sets of points: where
 * nothing is correlated a column is turned into values once.
 */
function rememberedValues(space: ParameterSpace) {
  const known = new WeakMap<Float64Array, Float64Array>();
  return (uniform: readonly Float64Array[], count: number): readonly Float64Array[] => {
    if (space.groups.length > 0) {
      return space.values(
        uniform.map((column) => column.slice()),
        count,
      );
    }
    return uniform.map((column, k) => {
      const there = known.get(column);
      if (there !== undefined) return there;
      const values = space.valuesOf(k, column.slice(), count);
      known.set(column, values);
      return values;
    });
  };
}
